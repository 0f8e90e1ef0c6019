// Pages of line art with known ink: line groups of openmoji, twelve to a page.
import { openmojiDrawings, renderLines } from '../../examples/openmoji/drawings.mjs';

const COLUMNS = 4;
const ROWS = 3;
/** Pixels on each side of a drawing, whose strokes are then six wide, and of its place on the page. */
const SIZE = 216;
const PLACE = 270;

export const WIDTH = COLUMNS * PLACE;
export const HEIGHT = ROWS * PLACE;

/**
 * `count` pages as `{ name, cover, ink }`: the share of each pixel that ink covers, 0 to 1, and the
 * mask of what it covers by half or more.
 */
export function inkPages(count) {
  const each = COLUMNS * ROWS;
  const drawings = openmojiDrawings(count * each);
  return Array.from({ length: count }, (_, page) => {
    const cover = new Float32Array(WIDTH * HEIGHT);
    drawings.slice(page * each, (page + 1) * each).forEach((drawing, place) => {
      const { data } = renderLines(drawing, SIZE);
      const x0 = (place % COLUMNS) * PLACE + (PLACE - SIZE) / 2;
      const y0 = Math.floor(place / COLUMNS) * PLACE + (PLACE - SIZE) / 2;
      for (let y = 0; y < SIZE; y++) {
        for (let x = 0; x < SIZE; x++) {
          cover[(y0 + y) * WIDTH + x0 + x] = 1 - data[4 * (y * SIZE + x)] / 255;
        }
      }
    });
    return {
      name: `page ${page + 1}`,
      cover,
      ink: Uint8Array.from(cover, (c) => (c >= 0.5 ? 1 : 0)),
    };
  });
}
