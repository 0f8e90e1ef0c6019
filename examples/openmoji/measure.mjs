// What can be seen in a file of flats, without a look at how they were laid.
import { labelRegions, readFlats, readPng } from 'underink';

/**
 * Reads a file of flats twice, as a picture and as flats. `bare` counts pixels that nothing covers,
 * `blended` those whose color no swatch has or is another than that of their swatch.
 */
export function readBack(bytes) {
  const { flats } = readFlats(bytes);
  const { pixels } = readPng(bytes);
  const [width, height, channels] = pixels.shape;
  const colors = flats.palette.map(({ color }) => Number.parseInt(color.slice(1), 16));
  const indices = flats.indices.data;
  let bare = 0;
  let blended = 0;
  for (let i = 0, p = 0; i < width * height; i++, p += channels) {
    const alpha = channels === 4 ? pixels.data[p + 3] : 255;
    const color = (pixels.data[p] << 16) | (pixels.data[p + 1] << 8) | pixels.data[p + 2];
    if (indices[i] === 0 || alpha === 0) bare++;
    else if (alpha !== 255 || color !== colors[indices[i]]) blended++;
  }
  return { flats, width, height, bare, blended };
}

/**
 * Compares flats with the regions of the sealed ink: each must keep one swatch of its own, but for
 * those that touch the picture's border, which are the ground. Gives the number of regions and a
 * sentence for each that does not.
 */
export function compareRegions(flats, sealed) {
  const { labels, count } = labelRegions(sealed, { of: 0 });
  const [width, height] = labels.shape;
  const ground = flats.palette.findIndex(({ name }) => name === flats.ground);
  const swatch = new Int32Array(count + 1).fill(-1);
  const border = new Set();
  const wrong = new Set();
  for (let i = 0; i < labels.data.length; i++) {
    const id = labels.data[i];
    if (id === 0) continue;
    const x = i % width;
    if (i < width || i >= width * (height - 1) || x === 0 || x === width - 1) border.add(id);
    const index = flats.indices.data[i];
    if (swatch[id] < 0) swatch[id] = index;
    else if (swatch[id] !== index) wrong.add(`region ${id} has more than one swatch`);
  }
  const owner = new Map();
  for (let id = 1; id <= count; id++) {
    const index = swatch[id];
    if (border.has(id) !== (index === ground))
      wrong.add(`region ${id}: ground where none should be`);
    if (index === ground) continue;
    if (owner.has(index)) wrong.add(`regions ${owner.get(index)} and ${id} share a swatch`);
    owner.set(index, id);
  }
  return { regions: count, wrong: [...wrong] };
}

/** What a corner of two pixel edges is cut to, for each of them: half of half a diagonal. */
const CUT = Math.SQRT1_2 / 2;

/**
 * Length of the seams, the edges between pixels of different regions: in all, and where neither
 * pixel is ink (`open`).
 *
 * Pixel edges make a slanted seam longer than it is, so the seam is measured as the line through the
 * middles of its edges: an edge counts ½ for each of its ends, but √2/4 where the seam turns there.
 * Exact along rows, columns and diagonals, at most 8 % too long between them, never too short.
 */
export function measureSeams(labels, ink) {
  const [width, height] = labels.shape;
  const at = (x, y) =>
    x < 0 || y < 0 || x >= width || y >= height ? -1 : labels.data[y * width + x];
  const differ = (a, b) => a >= 0 && b >= 0 && a !== b;
  // Half an edge at the pixel corner (x, y), top left of pixel (x, y).
  const half = (x, y) => {
    const [a, b, c, d] = [at(x - 1, y - 1), at(x, y - 1), at(x - 1, y), at(x, y)];
    const across = Number(differ(a, c)) + Number(differ(b, d));
    const down = Number(differ(a, b)) + Number(differ(c, d));
    return across === 1 && down === 1 ? CUT : 0.5;
  };
  let all = 0;
  let open = 0;
  const count = (i, j, length) => {
    all += length;
    if (ink.data[i] === 0 && ink.data[j] === 0) open += length;
  };
  for (let y = 0; y < height; y++) {
    for (let x = 0; x < width; x++) {
      const i = y * width + x;
      if (x > 0 && labels.data[i] !== labels.data[i - 1]) {
        count(i, i - 1, half(x, y) + half(x, y + 1));
      }
      if (y > 0 && labels.data[i] !== labels.data[i - width]) {
        count(i, i - width, half(x, y) + half(x + 1, y));
      }
    }
  }
  return { all, open };
}
