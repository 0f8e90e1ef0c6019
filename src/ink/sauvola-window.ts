import { lightTones, paperAt } from './paper-grid.ts';

/** Stroke widths that a window measures: ink is then a small part of it beside any stroke. */
const STROKES = 12;

/**
 * Side of Sauvola's window in pixels, odd, 15 to 255: 12 times the mean width of what is darker
 * than half the paper around it. The width is area over length, the length π/8 of the changes
 * between ink and paper along rows and columns (Crofton's formula gives π/4 for both edges of a
 * stroke). O(pixels), 1 byte per column.
 */
export function windowFor(data: Uint8Array, width: number, height: number): number {
  const grid = lightTones(data, width, height);
  const above = new Uint8Array(width);
  let area = 0;
  let changes = 0;
  for (let y = 0; y < height; y++) {
    let left = 0;
    for (let x = 0; x < width; x++) {
      const ink = 2 * (255 - data[y * width + x]!) < paperAt(grid, x, y) ? 1 : 0;
      area += ink;
      changes += (ink ^ left) + (y === 0 ? 0 : ink ^ above[x]!);
      left = ink;
      above[x] = ink;
    }
  }
  const strokes = changes === 0 ? 0 : area / (0.3927 * changes);
  const side = Math.floor(STROKES * strokes);
  return Math.min(255, Math.max(15, side - (side % 2) + 1));
}
