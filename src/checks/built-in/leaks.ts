import { findPassages, type Passages, passageColumns } from '../../passages/tree.ts';
import { packMask } from '../../raster/pack.ts';
import { linePixels } from '../../runs/line.ts';
import { defineCheck, type FlatsCheck } from '../define-check.ts';
import { spansOfPixels } from '../edges.ts';
import { describePlace } from '../places.ts';

/**
 * Leaks: a region of one swatch goes on behind an opening in the ink of at most `maxWidth` pixels, and
 * is wide on both sides, at least `opens` times as wide as the opening: two areas may be meant, and the
 * color of one ran into the other. Places come by width, the narrowest first, at the middle of the
 * opening. A slanting one has several places that are as narrow to within a pixel, and counts by the
 * narrowest. An opening beside a wider way between the same sides is none. By itself it does not run:
 * narrow places are common in drawings, and only a person knows which are meant. O(pixels).
 */
export const leaks: FlatsCheck<'maxWidth' | 'opens'> = defineCheck(
  'leaks',
  ({ flats, ink, size, tick }, { maxWidth, opens }) => {
    const { data } = flats.indices;
    const [width, height] = size;
    const dense = { data: ink!.data, width, height, channels: 1 };
    const { found } = findPassages(dense, packMask(dense, 'ink'), tick);
    const passages = passageColumns(found.all(), width);
    return Array.from({ length: passages.length }, (_, k) => k)
      .filter((k) => passages.around[k]! <= maxWidth || isNarrowBeside(passages, k, maxWidth))
      .filter((k) => 2 * passages.opens[2 * k]! - 1 >= opens * Math.max(1, passages.width[k]!))
      .filter((k) => isOneRegion(passages, k, data, width, height))
      .map((k) => {
        const [x, y] = pair(passages.at, k);
        const swatch = flats.palette[data[y * width + x]!]!.name;
        const clear = Math.round(10 * passages.width[k]!) / 10;
        const message = `"${swatch}" runs through an opening of ${clear} px at [${x}, ${y}]`;
        const [fromX, fromY] = pair(passages.from, k);
        const [toX, toY] = pair(passages.to, k);
        const line = linePixels(fromX, fromY, toX, toY, width);
        const place = describePlace(spansOfPixels(line, width));
        return { message, ...place, at: [x + 0.5, y + 0.5] as const, swatches: [swatch] };
      });
  },
  { needs: ['ink'], onRequest: true, thresholds: { maxWidth: 3, opens: 3 } },
);

/** How much the width of a slanting opening varies along it, on the grid of pixels. */
const GRID_ERROR = 1.5;

/** Whether an opening a little too wide has a narrow enough place in the same channel. */
function isNarrowBeside(passages: Passages, k: number, maxWidth: number): boolean {
  const { width, around, length, at } = passages;
  if (around[k]! > maxWidth + GRID_ERROR || around[k]! > width[k]!) return false;
  const reach = width[k]! + 1;
  // Passages come by width, the narrowest first.
  for (let j = 0; j < length && width[j]! <= maxWidth; j++) {
    const [dx, dy] = [at[2 * j]! - at[2 * k]!, at[2 * j + 1]! - at[2 * k + 1]!];
    if (dx * dx + dy * dy <= reach * reach) return true;
  }
  return false;
}

/** Whether both sides of a passage hold the swatch of its middle: no seam closes it. */
function isOneRegion(
  { at, from, to }: Passages,
  k: number,
  data: Uint8Array | Uint16Array,
  width: number,
  height: number,
): boolean {
  const [x, y] = pair(at, k);
  const [fromX, fromY] = pair(from, k);
  const [toX, toY] = pair(to, k);
  // Across the opening lies (dx, dy); through it leads (-dy, dx), one opening and a pixel each way.
  const [dx, dy] = [toX - fromX, toY - fromY];
  const index = data[y * width + x]!;
  if (index === 0) return false;
  for (const way of [-1, 1]) {
    const u = Math.min(width - 1, Math.max(0, x - way * dy));
    const v = Math.min(height - 1, Math.max(0, y + way * dx));
    if (data[v * width + u] !== index) return false;
  }
  return true;
}

const pair = (columns: Int32Array, k: number): [number, number] => [
  columns[2 * k]!,
  columns[2 * k + 1]!,
];
