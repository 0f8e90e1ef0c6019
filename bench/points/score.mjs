// What is wrong on a sheet whose true swatches are known.
import { labelEqual, raster } from 'underink';

/** Pixels from which on a wrong piece counts. */
const LEAST = 40;

/**
 * Compares the swatch of each pixel with the true one on true regions (`truth` > 0): `right` is the
 * share of them, `pieces` are the 4-connected wrong ones of more than 40 pixels, that are of one true
 * swatch and carry one wrong one: `{ area, bounds, truth, found }`.
 */
export function scoreSwatches({ width, height }, truth, found) {
  let [paper, wrongPixels] = [0, 0];
  const wrong = new Int32Array(truth.length);
  const kinds = new Map();
  for (let p = 0; p < truth.length; p++) {
    if (truth[p] <= 0) continue;
    paper++;
    if (found[p] === truth[p]) continue;
    wrongPixels++;
    const key = `${truth[p]} ${found[p]}`;
    if (!kinds.has(key)) kinds.set(key, kinds.size + 1);
    wrong[p] = kinds.get(key);
  }
  const { labels, count } = labelEqual(raster(wrong, [width, height]), { background: 0 });
  const pieces = Array.from({ length: count }, () => ({
    area: 0,
    bounds: [width, height, 0, 0],
  }));
  labels.data.forEach((label, p) => {
    if (label === 0) return;
    const piece = pieces[label - 1];
    piece.area++;
    piece.truth = truth[p];
    piece.found = found[p];
    const [x, y] = [p % width, Math.floor(p / width)];
    const [x0, y0, x1, y1] = piece.bounds;
    piece.bounds = [Math.min(x0, x), Math.min(y0, y), Math.max(x1, x + 1), Math.max(y1, y + 1)];
  });
  return { right: 1 - wrongPixels / paper, pieces: pieces.filter(({ area }) => area > LEAST) };
}
