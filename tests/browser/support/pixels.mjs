// The pixels of a picture, read by the browser.

/** Width, height and the RGBA bytes of a PNG or SVG; an SVG is drawn `side` by `side`. */
export async function pixels(page, bytes, kind, side = 0) {
  const address = `data:${kind};base64,${bytes.toString("base64")}`;
  const { width, height, data } = await page.evaluate(
    async ([address, side]) => {
      const image = new Image();
      image.src = address;
      await image.decode();
      const canvas = document.createElement("canvas");
      canvas.width = side || image.naturalWidth;
      canvas.height = side || image.naturalHeight;
      const pen = canvas.getContext("2d");
      pen.drawImage(image, 0, 0, canvas.width, canvas.height);
      const { data } = pen.getImageData(0, 0, canvas.width, canvas.height);
      let text = "";
      for (let at = 0; at < data.length; at += 8192) text += String.fromCharCode(...data.subarray(at, at + 8192));
      return { width: canvas.width, height: canvas.height, data: btoa(text) };
    },
    [address, side],
  );
  return { width, height, rgba: Buffer.from(data, "base64") };
}

/** How many pixels of two pictures differ so much that an eye sees it; pictures of two sizes differ everywhere. */
export function differing(one, other) {
  if (one.width !== other.width || one.height !== other.height) return Infinity;
  let count = 0;
  for (let at = 0; at < one.rgba.length; at += 4) {
    const apart = [0, 1, 2].reduce((sum, channel) => sum + Math.abs(one.rgba[at + channel] - other.rgba[at + channel]), 0);
    if (apart > 120) count += 1;
  }
  return count;
}

/** How many pixels of a picture are within an eye's reach of the colour `[red, green, blue]`. */
export function coloured({ rgba }, colour) {
  let count = 0;
  for (let at = 0; at < rgba.length; at += 4) {
    const apart = colour.reduce((sum, wanted, channel) => sum + Math.abs(rgba[at + channel] - wanted), 0);
    if (apart < 24) count += 1;
  }
  return count;
}
