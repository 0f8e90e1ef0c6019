import type { Packed } from '../raster/pack.ts';
import { partOf, TICK_ROWS, type Tick } from '../raster/progress.ts';

/**
 * Maximal horizontal runs of equal pixels, row by row from the left. Run r covers
 * `[start[r], end[r])`; the runs of row y are `rowStart[y]` to `rowStart[y + 1] - 1`.
 */
export interface Runs {
  readonly rowStart: Int32Array;
  readonly start: Int32Array;
  readonly end: Int32Array;
}

/**
 * The runs of 1 or of 0 in a packed mask. A first pass counts them by the population of the words'
 * rising edges, so that the tables have their exact size; a second takes the edges off each word.
 * O(words + runs); 8 bytes per run.
 */
export function findRuns(packed: Packed, of: 0 | 1, tick?: Tick): Runs {
  const { height } = packed;
  const rowStart = countRuns(packed, of, partOf(tick, 0, 0.3));
  const start = new Int32Array(rowStart[height]!);
  const end = new Int32Array(rowStart[height]!);
  fillRuns(packed, of, start, end, partOf(tick, 0.3, 1));
  return { rowStart, start, end };
}

/*
 * Edges of a row:    pixels   0 1 1 0 1 1 1 0     (lowest bit first)
 *   word ^ (word << 1 | carry)  0 1 0 1 1 0 0 1     alternate: start, end, start, end
 * The bits past the width are cleared after an inversion, which ends a run at the width.
 */
function countRuns(
  { words, width, height, stride }: Packed,
  of: 0 | 1,
  tick: Tick | undefined,
): Int32Array {
  const rowStart = new Int32Array(height + 1);
  const flip = of === 1 ? 0 : -1;
  const tail = (width & 31) === 0 ? -1 : (1 << (width & 31)) - 1;
  let count = 0;
  let k = 0;
  for (let y = 0; y < height; y++) {
    if (tick !== undefined && y % TICK_ROWS === 0) tick(y / height);
    let carry = 0;
    for (let c = 0; c < stride; c++) {
      let word = words[k++]! ^ flip;
      if (c === stride - 1) word &= tail;
      let v = word & ~((word << 1) | carry);
      if (v !== 0) {
        v -= (v >>> 1) & 0x55555555;
        v = (v & 0x33333333) + ((v >>> 2) & 0x33333333);
        count += Math.imul((v + (v >>> 4)) & 0x0f0f0f0f, 0x01010101) >>> 24;
      }
      carry = word >>> 31;
    }
    rowStart[y + 1] = count;
  }
  return rowStart;
}

function fillRuns(
  { words, width, height, stride }: Packed,
  of: 0 | 1,
  start: Int32Array,
  end: Int32Array,
  tick: Tick | undefined,
): void {
  const flip = of === 1 ? 0 : -1;
  const tail = (width & 31) === 0 ? -1 : (1 << (width & 31)) - 1;
  let r = 0;
  let k = 0;
  for (let y = 0; y < height; y++) {
    if (tick !== undefined && y % TICK_ROWS === 0) tick(y / height);
    let inside = 0;
    for (let c = 0; c < stride; c++) {
      let word = words[k++]! ^ flip;
      if (c === stride - 1) word &= tail;
      let edges = word ^ ((word << 1) | inside);
      while (edges !== 0) {
        const x = (c << 5) + 31 - Math.clz32(edges & -edges);
        if (inside === 0) start[r] = x;
        else end[r++] = x;
        inside ^= 1;
        edges &= edges - 1;
      }
    }
    if (inside === 1) end[r++] = width;
  }
}

/** The run that holds a pixel; -1 for none. O(log runs of the row). */
export function runAt({ rowStart, start, end }: Runs, x: number, y: number): number {
  let low = rowStart[y]!;
  const stop = rowStart[y + 1]!;
  let high = stop;
  while (low < high) {
    const middle = (low + high) >>> 1;
    if (end[middle]! <= x) low = middle + 1;
    else high = middle;
  }
  return low < stop && start[low]! <= x ? low : -1;
}
