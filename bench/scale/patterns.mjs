// Pages of any size: line art, and what is worst for labelling, thinning, gaps and edges.
import { openmojiDrawings, renderLines } from '../../examples/openmoji/drawings.mjs';
import { seeded } from '../gaps/random.mjs';

/** Ink by place. A function of a row and a column each, so that any side will do. */
const BY_PLACE = {
  'blank paper': () => 0,
  'all ink': () => 1,
  checkerboard: (x, y) => (x + y) & 1,
  comb: (x, y) => (y === 0 || x % 2 === 1 ? 1 : 0),
  halftone: (x, y) => ((x % 6) - 3) ** 2 + ((y % 6) - 3) ** 2 < 5,
  hatch: (x, y) => (x + 2 * y) % 9 < 3 && (x >> 5) % 2 === 0,
  // 10 × 10 pixels a cell: a million regions on 100 megapixels
  cells: (x, y) => x % 10 === 0 || y % 10 === 0,
};

export const PATTERNS = ['line art', 'spiral', 'noise', 'sparse noise', ...Object.keys(BY_PLACE)];

/** The ink of a pattern, 0 or 1, row by row. */
export function drawPattern(name, width, height) {
  if (name === 'line art') return lineArt(width, height);
  const ink = new Uint8Array(width * height);
  if (name === 'spiral') return spiral(ink, width, height);
  const share = { noise: 0.3, 'sparse noise': 0.02 }[name];
  if (share !== undefined) {
    const random = seeded(name);
    for (let i = 0; i < ink.length; i++) ink[i] = random() < share ? 1 : 0;
    return ink;
  }
  const at = BY_PLACE[name];
  for (let y = 0, i = 0; y < height; y++) for (let x = 0; x < width; x++, i++) ink[i] = at(x, y);
  return ink;
}

/** Drawings of openmoji (CC BY-SA 4.0, npm), tiled: a third of the shorter side each, 256 at least. */
function lineArt(width, height) {
  const ink = new Uint8Array(width * height);
  const side = Math.max(256, Math.floor(Math.min(width, height) / 3));
  const tiles = openmojiDrawings(40).map((drawing) => renderLines(drawing, side).data);
  for (let top = 0, k = 0; top < height; top += side) {
    for (let left = 0; left < width; left += side, k++) {
      const tile = tiles[k % tiles.length];
      for (let y = 0; y < Math.min(side, height - top); y++) {
        for (let x = 0; x < Math.min(side, width - left); x++) {
          ink[(top + y) * width + left + x] = tile[4 * (y * side + x)] < 128 ? 1 : 0;
        }
      }
    }
  }
  return ink;
}

/** One line of ink, a pixel wide, round and round to the middle with a pixel of paper between. */
function spiral(ink, width, height) {
  let [left, top, right, bottom] = [0, 0, width - 1, height - 1];
  for (let start = 0; left <= right && top <= bottom; start = left - 1) {
    for (let x = Math.max(0, start); x <= right; x++) ink[top * width + x] = 1;
    for (let y = top; y <= bottom; y++) ink[y * width + right] = 1;
    if (bottom > top) for (let x = left; x <= right; x++) ink[bottom * width + x] = 1;
    if (right > left) for (let y = top + 2; y <= bottom; y++) ink[y * width + left] = 1;
    [left, top, right, bottom] = [left + 2, top + 2, right - 2, bottom - 2];
  }
  return ink;
}
