/**
 * The pixels of the line from (x0, y0) to (x1, y1), both included, as a path of 4-neighbors, so
 * that neither a 4- nor an 8-connected path of paper passes it.
 *
 * ```text
 * 1 1 . . .
 * . 1 1 1 .
 * . . . 1 1
 * ```
 *
 * Steps go to the pixel whose center lies nearer to the ideal line; on a tie, along x. Gives
 * |dx| + |dy| + 1 indices `y · width + x`. Integers only (Bresenham 1965, with single steps).
 */
export function linePixels(
  x0: number,
  y0: number,
  x1: number,
  y1: number,
  width: number,
): Int32Array {
  const dx = Math.abs(x1 - x0);
  const dy = Math.abs(y1 - y0);
  const stepX = x1 < x0 ? -1 : 1;
  const stepY = y1 < y0 ? -width : width;
  const pixels = new Int32Array(dx + dy + 1);
  let p = y0 * width + x0;
  // |(i + 1)·dy − j·dx| against |i·dy − (j + 1)·dx| after i steps along x and j along y.
  let i = 0;
  let j = 0;
  pixels[0] = p;
  for (let n = 1; n < pixels.length; n++) {
    const offX = Math.abs((i + 1) * dy - j * dx);
    const offY = Math.abs(i * dy - (j + 1) * dx);
    if (i < dx && (j === dy || offX <= offY)) {
      i++;
      p += stepX;
    } else {
      j++;
      p += stepY;
    }
    pixels[n] = p;
  }
  return pixels;
}
