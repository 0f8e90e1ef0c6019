import { raster } from 'underink';

/** RGBA pixels made smaller by the mean of squares, so that no side is longer than `side`. */
export function thumbnail({ data, shape: [width, height] }, side) {
  const step = Math.max(1, Math.ceil(Math.max(width, height) / side));
  const [w, h] = [Math.ceil(width / step), Math.ceil(height / step)];
  const small = raster(new Uint8Array(3 * w * h), [w, h, 3]);
  for (let y = 0; y < h; y++) {
    for (let x = 0; x < w; x++) {
      const [right, bottom] = [Math.min(width, (x + 1) * step), Math.min(height, (y + 1) * step)];
      const sums = [0, 0, 0];
      for (let v = y * step; v < bottom; v++) {
        for (let u = x * step; u < right; u++) {
          for (let c = 0; c < 3; c++) sums[c] += data[4 * (v * width + u) + c];
        }
      }
      const count = (right - x * step) * (bottom - y * step);
      for (let c = 0; c < 3; c++) small.set(x, y, c, Math.round(sums[c] / count));
    }
  }
  return small;
}
