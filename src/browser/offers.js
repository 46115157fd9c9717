// The offers that a page may make: to install it, and to use a new version. In the page itself they were 390 bytes, packed,
// that the first paint waited for. `install.js` and `versions.js` show them.
(() => {
  /** A new element with `attributes`, and `inside` it texts and elements. */
  const made = (tag, attributes, ...inside) => {
    const element = document.createElement(tag);
    for (const [name, value] of Object.entries(attributes)) element.setAttribute(name, value);
    element.append(...inside);
    return element;
  };
  const words = (way, text) => made("p", { "data-way": way }, text);
  const button = (id, text) => made("button", { id, class: "btn slim", type: "button" }, text);
  const onlyToInstall = (element) => {
    element.dataset.way = "offer";
    return element;
  };
  const heading = made("h2", { id: "install-note-head" }, "On the home screen");

  document.getElementById("said").before(
    made(
      "aside",
      { id: "install-hint", class: "offer", "aria-label": "Installing", hidden: "" },
      words("offer", "Install First Truss: it opens with no signal too."),
      words("hand", "Put First Truss on the home screen first: tap Share, then Add to Home Screen. What you enter here would stay behind."),
      made("div", {}, onlyToInstall(button("install-now", "Install")), button("install-later", "Not now")),
    ),
    made(
      "section",
      { id: "install-note", class: "install-note", "aria-labelledby": heading.id, hidden: "" },
      made("div", { class: "h" }, heading),
      words("offer", "Installed, First Truss opens from an icon of its own, with no signal too. The notebook stays the same."),
      onlyToInstall(made("div", { class: "btn-row mt" }, button("install-again", "Install"))),
      words("hand", "Tap Share, then Add to Home Screen, before you enter anything. There First Truss keeps a notebook of its own."),
      words(
        "late",
        "A First Truss on the home screen keeps a notebook of its own and begins empty. Before you tap Share, then Add to Home Screen, save a copy to a file, and open it there.",
      ),
    ),
    made(
      "aside",
      { id: "new-version", class: "offer", "aria-label": "New version", hidden: "" },
      made("p", {}, "A new version is here. What you have entered stays."),
      made("div", {}, button("new-version-now", "Use it now"), button("new-version-later", "Not now")),
    ),
  );
})();
