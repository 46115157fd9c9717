// Asks for the numerals of the first answer. As a preload of the page itself that cost the first paint a request.
document.fonts.load('1em "Plot Numerals"', "0").catch(() => {}); // what does not come is asked for again when a figure is shown
