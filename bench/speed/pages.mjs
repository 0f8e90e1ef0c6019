// Pages that are timed: line art at print sizes, and the worst cases of labeling.
import { openmojiDrawings, renderLines } from '../../examples/openmoji/drawings.mjs';
import { seeded } from '../gaps/random.mjs';

const SIZES = {
  'a4-300': [2480, 3508],
  'a4-600': [4961, 7016],
  '100mpx': [10_000, 10_000],
};
const COLUMNS = 12;

/** Gray samples of a page by name: `a4-300`, `a4-600`, `100mpx`, or a dense one with its side. */
export function drawPage(name) {
  if (SIZES[name] !== undefined) return tiled(...SIZES[name]);
  const [kind, side] = name.split(' ');
  return dense(kind, Number(side));
}

/** A square page of line art. */
export function drawSquare(side) {
  return tiled(side, side);
}

/** A row of 12 drawings across, as many rows as fit; each tile is another drawing. */
function tiled(width, height) {
  const data = new Uint8Array(width * height).fill(255);
  const side = Math.floor(width / COLUMNS);
  const rows = Math.ceil(height / side);
  openmojiDrawings(COLUMNS * rows).forEach((drawing, i) => {
    const { data: rgba } = renderLines(drawing, side);
    const left = (i % COLUMNS) * side;
    const top = Math.floor(i / COLUMNS) * side;
    for (let y = 0; y < Math.min(side, height - top); y++) {
      const row = (top + y) * width + left;
      for (let x = 0; x < side; x++) data[row + x] = rgba[4 * (y * side + x)];
    }
  });
  return { data, width, height };
}

/** The same with the grain of a scanner: ±12 levels, and a dark speck every 20,000 pixels. */
export function scanned({ data, width, height }) {
  const random = seeded('grain');
  const grainy = data.map((tone) => {
    const grain = Math.round((random() + random() - 1) * 12);
    return Math.max(0, Math.min(255, tone - 8 + grain));
  });
  for (let n = data.length / 20_000; n > 0; n--) {
    grainy[Math.floor(random() * data.length)] = 40;
  }
  return { data: grainy, width, height };
}

const INK = {
  checkerboard: (x, y) => (x + y) & 1,
  noise: (_x, _y, random) => (random() < 0.3 ? 1 : 0),
  halftone: (x, y) => ((x % 6) - 3) ** 2 + ((y % 6) - 3) ** 2 < 5,
  hatch: (x, y) => (x + 2 * y) % 9 < 3 && (x >> 5) % 2 === 0,
  comb: (x, y) => y > 0 && x % 2,
};

function dense(kind, side) {
  const data = new Uint8Array(side * side).fill(255);
  if (kind === 'spiral') spiral(data, side);
  else {
    const random = seeded(kind);
    for (let y = 0, i = 0; y < side; y++) {
      for (let x = 0; x < side; x++, i++) if (INK[kind](x, y, random)) data[i] = 0;
    }
  }
  return { data, width: side, height: side };
}

/** One line of ink, a pixel wide, round and round to the middle with a pixel of paper between. */
function spiral(data, side) {
  let [x, y, dx, dy] = [0, 0, 1, 0];
  let [left, top, right, bottom] = [0, 0, side - 1, side - 1];
  while (left <= right && top <= bottom) {
    data[y * side + x] = 0;
    const atEnd = dx > 0 ? x === right : dx < 0 ? x === left : dy > 0 ? y === bottom : y === top;
    if (atEnd) {
      if (dx > 0) top += 2;
      else if (dy > 0) right -= 2;
      else if (dx < 0) bottom -= 2;
      else left += 2;
      [dx, dy] = [-dy, dx];
    }
    x += dx;
    y += dy;
  }
}
