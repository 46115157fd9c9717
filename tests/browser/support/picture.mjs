// A picture of flat colours: kept as a PNG with a small palette, and compared with another.
import pixelmatch from "pixelmatch";
import { PNG } from "pngjs";

import { palettePng } from "./indexed-png.mjs";

/** Most colours of a kept picture. */
const COLOURS = 20;
/** A colour that fills so much of a picture is kept as it is. */
const FLAT_SHARE = 0.002;
/** Of the others no two are less apart than this, as `apart` has it. */
const LEAST_APART = 130;
/** The colours that make up most of a page have to be met this closely, as `apart` has it. */
const FLAT_COLOURS = 4;
const FLAT_APART = 3;
/** How far a pixel's colour may lie off, as pixelmatch counts it: 0 to 1. */
const PIXEL_APART = 0.1;

/** Width, height and one number for each pixel of a PNG. */
export function opened(bytes) {
  const { width, height, data } = PNG.sync.read(bytes);
  return { width, height, data, colours: new Uint32Array(data.buffer, data.byteOffset, width * height) };
}

/** The picture as it is kept. */
export function kept(picture) {
  const { width, height, colours } = picture;
  const palette = paletteOf(colours);
  return palettePng(width, height, inPalette(colours, palette), palette.map(channels));
}

/**
 * How many pixels of `shown` differ from those of the kept picture `reference` so that an eye sees it, and a picture of where, or null
 * where none does; `flat` is true when colours that fill much of the page are others.
 */
export function compared(shown, reference) {
  const width = Math.max(shown.width, reference.width);
  const height = Math.max(shown.height, reference.height);
  const isOneSize = shown.width === reference.width && shown.height === reference.height;
  const palette = [...counted(reference.colours).keys()];
  const nearest = Uint32Array.from(inPalette(shown.colours, palette), (place) => palette[place]);
  const flat = flatColours(shown.colours).slice(0, FLAT_COLOURS).some((colour) => palette.every((known) => apart(colour, known) > FLAT_APART));
  if (isOneSize && nearest.every((colour, pixel) => colour === reference.colours[pixel])) return { differing: 0, flat, difference: null };
  const one = onGround({ ...shown, colours: nearest }, width, height);
  const other = onGround(reference, width, height);
  const difference = new PNG({ width, height });
  const differing = pixelmatch(one, other, difference.data, width, height, { threshold: PIXEL_APART });
  return { differing, flat, difference: PNG.sync.write(difference) };
}

/** The picture's bytes, on a ground of `width` by `height`. */
function onGround({ width: own, height: rows, colours }, width, height) {
  const ground = new Uint32Array(width * height);
  for (let row = 0; row < rows; row += 1) ground.set(colours.subarray(row * own, (row + 1) * own), row * width);
  return new Uint8Array(ground.buffer);
}

/** How often each colour is there. Most pixels are like the one before. */
function counted(colours) {
  const counts = new Map();
  let begin = 0;
  for (let pixel = 1; pixel <= colours.length; pixel += 1) {
    if (pixel < colours.length && colours[pixel] === colours[begin]) continue;
    counts.set(colours[begin], (counts.get(colours[begin]) ?? 0) + pixel - begin);
    begin = pixel;
  }
  return counts;
}

function commonest(colours) {
  return [...counted(colours)].sort((one, other) => other[1] - one[1] || one[0] - other[0]);
}

/** Colours that fill much of a picture, the commonest first: at most half of those that are kept. */
function flatColours(colours) {
  const much = commonest(colours).filter(([, count]) => count >= colours.length * FLAT_SHARE);
  return much.slice(0, COLOURS / 2).map(([colour]) => colour);
}

/** The flat colours, then one after the other that is both common and far from those that are in already. */
function paletteOf(colours) {
  const all = commonest(colours);
  const palette = [all[0][0]];
  for (const colour of flatColours(colours)) {
    if (palette.every((known) => apart(known, colour) > FLAT_APART)) palette.push(colour);
  }
  const least = (colour) => Math.min(...palette.map((known) => apart(known, colour)));
  const left = all.map(([colour, count]) => ({ colour, weight: Math.sqrt(count), far: least(colour) < LEAST_APART ? 0 : least(colour) }));
  while (palette.length < COLOURS) {
    const next = left.reduce((best, other) => (other.weight * other.far > best.weight * best.far ? other : best), { weight: 0, far: 0 });
    if (next.weight === 0) break;
    palette.push(next.colour);
    for (const other of left) {
      const far = Math.min(other.far, apart(other.colour, next.colour));
      other.far = far < LEAST_APART ? 0 : far;
    }
  }
  return palette;
}

/** For each pixel the place of the nearest colour in `palette`. */
function inPalette(colours, palette) {
  const known = new Map();
  const places = new Uint8Array(colours.length);
  let place = 0;
  for (let pixel = 0; pixel < colours.length; pixel += 1) {
    const colour = colours[pixel];
    if (pixel === 0 || colour !== colours[pixel - 1]) {
      place = known.get(colour);
      if (place === undefined) {
        place = palette.reduce((best, other, index) => (apart(other, colour) < apart(palette[best], colour) ? index : best), 0);
        known.set(colour, place);
      }
    }
    places[pixel] = place;
  }
  return places;
}

/** Red, green and blue of a colour as it lies in memory. */
function channels(colour) {
  return [colour & 0xff, (colour >> 8) & 0xff, (colour >> 16) & 0xff];
}

/** The sum of what lies between the channels; a change of hue counts more than one of brightness, in which letters have many steps. */
function apart(one, other) {
  const red = (one & 0xff) - (other & 0xff);
  const green = ((one >> 8) & 0xff) - ((other >> 8) & 0xff);
  const blue = ((one >> 16) & 0xff) - ((other >> 16) & 0xff);
  const hue = Math.max(red, green, blue) - Math.min(red, green, blue);
  return Math.abs(red) + Math.abs(green) + Math.abs(blue) + 2 * hue;
}
