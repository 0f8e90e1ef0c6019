// A page of line art at print size: lines of openmoji drawings (CC BY-SA 4.0, npm), tiled.
import { openmojiDrawings, renderLines } from '../../examples/openmoji/drawings.mjs';

/** A4 at 600 dpi. */
export const WIDTH = 4961;
export const HEIGHT = 7016;
const COLUMNS = 12;
const ROWS = 17;

/** Gray samples of the page, row by row. Each tile is another drawing. */
export function drawPage() {
  const page = new Uint8Array(WIDTH * HEIGHT).fill(255);
  const side = Math.floor(WIDTH / COLUMNS);
  openmojiDrawings(COLUMNS * ROWS).forEach((drawing, i) => {
    const { data } = renderLines(drawing, side);
    const left = (i % COLUMNS) * side;
    const top = Math.floor(i / COLUMNS) * side;
    for (let y = 0; y < Math.min(side, HEIGHT - top); y++) {
      const row = (top + y) * WIDTH + left;
      for (let x = 0; x < side; x++) page[row + x] = data[4 * (y * side + x)];
    }
  });
  return page;
}
