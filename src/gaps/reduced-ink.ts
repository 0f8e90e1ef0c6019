import type { PassageList } from '../passages/list.ts';
import type { Packed } from '../raster/pack.ts';
import { TICK_ROWS, type Tick } from '../raster/progress.ts';
import type { Scratch } from '../raster/scratch.ts';
import type { Dense } from '../raster/types.ts';

/** Strokes keep about so many pixels of their width. */
const KEPT = 5;

/** By how much a drawing of that stroke width can be reduced without losing what shows its gaps. */
export function reductionFor(strokeWidth: number): number {
  return Math.max(1, Math.floor(strokeWidth / KEPT));
}

/**
 * Ink at 1 / `scale` of the size. A pixel is paper where at least `scale` of the pixels that it
 * stands for are, as many as a gap of one pixel gives. What lies beyond the last row or column
 * counts as paper. O(words + pixels of ink + reduced pixels).
 */
export function reduceInk(
  { words, width, height, stride }: Packed,
  scale: number,
  tick?: Tick,
  scratch?: Scratch,
): Dense<Uint8Array> {
  const columns = Math.ceil(width / scale);
  const rows = Math.ceil(height / scale);
  const least = scale * scale - scale;
  const sums = new Int32Array(columns);
  const columnOf = Int32Array.from({ length: width }, (_, x) => Math.floor(x / scale));
  const small = scratch?.uint8(columns * rows) ?? new Uint8Array(columns * rows);
  for (let row = 0; row < rows; row++) {
    if (tick !== undefined && row % TICK_ROWS === 0) tick(row / rows);
    let ink = 0;
    const end = Math.min(height, (row + 1) * scale) * stride;
    for (let k = row * scale * stride, c = 0; k < end; k++, c = c + 1 === stride ? 0 : c + 1) {
      ink |= words[k]!;
      for (let word = words[k]!; word !== 0; word &= word - 1) {
        sums[columnOf[32 * c + 31 - Math.clz32(word & -word)]!]!++;
      }
    }
    if (ink === 0) continue;
    const at = row * columns;
    for (let column = 0; column < columns; column++) {
      small[at + column] = sums[column]! > least ? 1 : 0;
    }
    sums.fill(0);
  }
  return { data: small, width: columns, height: rows, channels: 1 };
}

/** A pixel of the reduced ink that stands for a pixel of ink, or the nearest beside it. */
export function reducedPixel(
  { data, width, height }: Dense<Uint8Array>,
  x: number,
  y: number,
  scale: number,
): number {
  const u = Math.floor(x / scale);
  const v = Math.floor(y / scale);
  const p = v * width + u;
  if (data[p] === 1) return p;
  let [best, nearest] = [Number.POSITIVE_INFINITY, p];
  for (let b = Math.max(0, v - 1); b <= Math.min(height - 1, v + 1); b++) {
    for (let a = Math.max(0, u - 1); a <= Math.min(width - 1, u + 1); a++) {
      if (data[b * width + a] === 0) continue;
      const [dx, dy] = [(a + 0.5) * scale - x - 0.5, (b + 0.5) * scale - y - 0.5];
      if (dx * dx + dy * dy >= best) continue;
      best = dx * dx + dy * dy;
      nearest = b * width + a;
    }
  }
  return nearest;
}

/** Passages of the reduced ink in the ink itself: each contact is the ink nearest to the other one. */
export function enlargePassages(
  passages: PassageList,
  ink: Dense<Uint8Array>,
  small: Dense<Uint8Array>,
  scale: number,
): PassageList {
  if (scale === 1) return passages;
  const get = (i: number) => {
    const passage = passages.get(i);
    const { width, around, opens } = passage;
    return {
      ...passage,
      from: contact(ink, small, passage.from, passage.to, scale),
      to: contact(ink, small, passage.to, passage.from, scale),
      width: width * scale,
      around: around * scale,
      opens: [opens[0] * scale, opens[1] * scale] as const,
    };
  };
  return { length: passages.length, get };
}

function contact(
  { data, width, height }: Dense<Uint8Array>,
  small: Dense<Uint8Array>,
  pixel: number,
  other: number,
  scale: number,
): number {
  const left = (pixel % small.width) * scale;
  const top = Math.floor(pixel / small.width) * scale;
  const aimX = ((other % small.width) + 0.5) * scale - 0.5;
  const aimY = (Math.floor(other / small.width) + 0.5) * scale - 0.5;
  let [best, nearest] = [Number.POSITIVE_INFINITY, top * width + left];
  for (let y = top; y < Math.min(height, top + scale); y++) {
    for (let x = left; x < Math.min(width, left + scale); x++) {
      const square = (x - aimX) * (x - aimX) + (y - aimY) * (y - aimY);
      if (data[y * width + x] === 0 || square >= best) continue;
      best = square;
      nearest = y * width + x;
    }
  }
  return nearest;
}
