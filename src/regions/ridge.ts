import { partOf, TICK_ROWS, TICK_STEPS, type Tick } from '../raster/progress.ts';
import { LevelQueue } from './level-queue.ts';

/**
 * Floods unlabeled pixels from the labeled ones in the order of their coverage, so that floods
 * meet on the darkest ridges (Meyer's flooding with one first-in-first-out queue per level).
 * Changes `labels` in place. O(pixels); 4 bytes per pixel that waits.
 */
export function floodRidges(
  labels: Int32Array,
  coverage: Uint8Array,
  width: number,
  height: number,
  tick?: Tick,
): void {
  const queue = new LevelQueue();
  seedRims(labels, coverage, width, height, queue, partOf(tick, 0, 0.3));
  const size = labels.length;
  let popped = 0;
  for (let level = 0; level < 256; ) {
    const i = queue.take(level);
    if (i < 0) {
      level++;
      continue;
    }
    if (tick !== undefined && ++popped % TICK_STEPS === 0) tick(0.3 + (0.7 * popped) / size);
    const label = labels[i]!;
    // Neighbors in row order; those at a row's ends are not next to each other.
    const up = i - width;
    if (up >= 0 && labels[up] === 0) {
      labels[up] = label;
      queue.put(Math.max(level, coverage[up]!), up);
    }
    if (labels[i - 1] === 0 && i % width !== 0) {
      labels[i - 1] = label;
      queue.put(Math.max(level, coverage[i - 1]!), i - 1);
    }
    if (labels[i + 1] === 0 && (i + 1) % width !== 0) {
      labels[i + 1] = label;
      queue.put(Math.max(level, coverage[i + 1]!), i + 1);
    }
    const down = i + width;
    if (down < size && labels[down] === 0) {
      labels[down] = label;
      queue.put(Math.max(level, coverage[down]!), down);
    }
  }
}

/** Puts the labeled pixels that have an unlabeled 4-neighbor at their coverage, row by row. */
function seedRims(
  labels: Int32Array,
  coverage: Uint8Array,
  width: number,
  height: number,
  queue: LevelQueue,
  tick: Tick | undefined,
): void {
  const stride = (width + 31) >>> 5;
  // Bits of unlabeled pixels, with a word of none on either side.
  let [above, row, below] = Array.from({ length: 3 }, () => new Int32Array(stride + 2));
  unlabeledBits(labels, 0, width, below!);
  for (let y = 0; y < height; y++) {
    if (tick !== undefined && y % TICK_ROWS === 0) tick(y / height);
    [above, row, below] = [row, below, above];
    if (y + 1 < height) unlabeledBits(labels, (y + 1) * width, width, below!);
    else below!.fill(0);
    for (let k = 1; k <= stride; k++) {
      const word = row![k]!;
      const sides = (word << 1) | (row![k - 1]! >>> 31) | (word >>> 1) | (row![k + 1]! << 31);
      const first = y * width + 32 * (k - 1);
      for (let rim = (above![k]! | below![k]! | sides) & ~word; rim !== 0; rim &= rim - 1) {
        const bit = 31 - Math.clz32(rim & -rim);
        if (32 * (k - 1) + bit >= width) break;
        const i = first + bit;
        queue.put(coverage[i]!, i);
      }
    }
  }
}

/** Writes the bits of a row's unlabeled pixels from word 1 on. */
function unlabeledBits(labels: Int32Array, from: number, width: number, bits: Int32Array): void {
  for (let x = 0, k = 1; x < width; k++) {
    const end = Math.min(width, x + 32);
    let word = 0;
    for (let bit = 1; x < end; x++, bit <<= 1) if (labels[from + x] === 0) word |= bit;
    bits[k] = word;
  }
}
