/** Longest side of a thumbnail in an OpenRaster file, in pixels. */
const MAX_SIDE = 256;

/**
 * A picture reduced to at most 256 pixels on its longer side, its proportions kept, never enlarged: RGBA
 * means over the pixels that fall to each, color weighted by alpha. O(pixels).
 */
export function thumbnail(
  data: Uint8Array,
  width: number,
  height: number,
): { data: Uint8Array; width: number; height: number } {
  const longer = Math.max(width, height);
  if (longer <= MAX_SIDE) return { data, width, height };
  const w = Math.max(1, Math.round((width * MAX_SIDE) / longer));
  const h = Math.max(1, Math.round((height * MAX_SIDE) / longer));
  const small = new Uint8Array(4 * w * h);
  const sums = new Float64Array(4 * w);
  for (let y = 0; y < h; y++) {
    const top = Math.floor((y * height) / h);
    const bottom = Math.floor(((y + 1) * height) / h);
    sums.fill(0);
    for (let row = top; row < bottom; row++) addRow(data, row, width, sums, w);
    for (let x = 0; x < w; x++) {
      const across = Math.floor(((x + 1) * width) / w) - Math.floor((x * width) / w);
      const alpha = sums[4 * x + 3]!;
      const k = 4 * (y * w + x);
      for (let c = 0; c < 3; c++)
        small[k + c] = alpha === 0 ? 0 : Math.round(sums[4 * x + c]! / alpha);
      small[k + 3] = Math.round(alpha / (across * (bottom - top)));
    }
  }
  return { data: small, width: w, height: h };
}

/** Adds a row of pixels to the sums of those of the thumbnail: alpha, and samples times alpha. */
function addRow(data: Uint8Array, row: number, width: number, sums: Float64Array, w: number): void {
  let k = 4 * row * width;
  for (let x = 0, at = 0; x < w; x++, at += 4) {
    const end = 4 * (row * width + Math.floor(((x + 1) * width) / w));
    for (; k < end; k += 4) {
      const alpha = data[k + 3]!;
      sums[at]! += data[k]! * alpha;
      sums[at + 1]! += data[k + 1]! * alpha;
      sums[at + 2]! += data[k + 2]! * alpha;
      sums[at + 3]! += alpha;
    }
  }
}
