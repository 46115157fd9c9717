// Writes a picture of flat colours as a PNG with a palette: a third of what a browser's own screenshot weighs.
import { deflateSync } from "node:zlib";

const SIGNATURE = Buffer.from([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a]);
/** Bits of each channel that count when colours are gathered. */
const KEPT_BITS = 5;
const MOST_COLOURS = 256;

/** `rgba` holds four bytes for each pixel, row by row. */
export function indexedPng(width, height, rgba) {
  const palette = commonest(rgba);
  const nearest = new Map();
  const places = new Uint8Array(width * height);
  for (let pixel = 0; pixel < width * height; pixel += 1) {
    const colour = rgba.subarray(pixel * 4, pixel * 4 + 4);
    const key = colour.join();
    if (!nearest.has(key)) nearest.set(key, nearestOf(palette, colour));
    places[pixel] = nearest.get(key);
  }
  return palettePng(width, height, places, palette);
}

/** The PNG of a picture whose pixels are places in `palette`, row by row; a colour is red, green, blue and perhaps how opaque it is. */
export function palettePng(width, height, places, palette) {
  const rows = Buffer.alloc((width + 1) * height); // each row begins with its filter: 0, none
  for (let row = 0; row < height; row += 1) {
    rows.set(places.subarray(row * width, (row + 1) * width), row * (width + 1) + 1);
  }
  const header = Buffer.alloc(13);
  header.writeUInt32BE(width, 0);
  header.writeUInt32BE(height, 4);
  header.set([8, 3], 8); // eight bits a pixel, by palette
  const isOpaque = palette.every(([, , , alpha = 255]) => alpha === 255);
  return Buffer.concat([
    SIGNATURE,
    chunk("IHDR", header),
    chunk("PLTE", Buffer.from(palette.flatMap((colour) => colour.slice(0, 3)))),
    ...(isOpaque ? [] : [chunk("tRNS", Buffer.from(palette.map(([, , , alpha]) => alpha)))]),
    chunk("IDAT", deflateSync(rows, { level: 9, memLevel: 9 })),
    chunk("IEND", Buffer.alloc(0)),
  ]);
}

/** The colours most in use. Nearly equal ones count as the one of them that is used most, exactly as it is. */
function commonest(rgba) {
  const exact = new Map();
  for (let at = 0; at < rgba.length; at += 4) {
    const colour = rgba.subarray(at, at + 4);
    const key = colour.join();
    const known = exact.get(key);
    if (known) known.count += 1;
    else exact.set(key, { colour: [...colour], count: 1 });
  }
  const gathered = new Map();
  for (const { colour, count } of exact.values()) {
    const key = colour.map((channel) => channel >> (8 - KEPT_BITS)).join();
    const known = gathered.get(key);
    if (!known) gathered.set(key, { colour, best: count, count });
    else {
      known.count += count;
      if (count > known.best) Object.assign(known, { colour, best: count });
    }
  }
  const ordered = [...gathered.values()].sort((one, other) => other.count - one.count);
  return ordered.slice(0, MOST_COLOURS).map(({ colour }) => colour);
}

function nearestOf(palette, colour) {
  const distance = (known) => known.reduce((sum, channel, index) => sum + (channel - colour[index]) ** 2, 0);
  return palette.reduce((best, known, index) => (distance(known) < distance(palette[best]) ? index : best), 0);
}

function chunk(kind, data) {
  const body = Buffer.concat([Buffer.from(kind, "latin1"), data]);
  const framed = Buffer.alloc(body.length + 8);
  framed.writeUInt32BE(data.length, 0);
  framed.set(body, 4);
  framed.writeUInt32BE(checksum(body), body.length + 4);
  return framed;
}

/** CRC-32 as PNG asks for it. */
export function checksum(bytes) {
  let remainder = 0xffffffff;
  for (const byte of bytes) {
    remainder ^= byte;
    for (let bit = 0; bit < 8; bit += 1) remainder = (remainder >>> 1) ^ (remainder & 1 ? 0xedb88320 : 0);
  }
  return ~remainder >>> 0;
}
