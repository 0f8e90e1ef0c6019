import { TICK_PIXELS, type Tick } from '../raster/progress.ts';

/**
 * Floods unlabeled pixels from the labeled ones in the order of their coverage, so that floods
 * meet on the darkest ridges (Meyer's flooding with one first-in-first-out queue per level).
 * Changes `labels` in place. O(pixels); 4 bytes per pixel for the queues' links.
 */
export function floodRidges(
  labels: Int32Array,
  coverage: Uint8Array,
  width: number,
  height: number,
  tick?: Tick,
): void {
  const size = width * height;
  const next = new Int32Array(size);
  const head = new Int32Array(256).fill(-1);
  const tail = new Int32Array(256);
  const neighbors = new Int32Array(4);
  for (let i = 0; i < size; i++) {
    if (tick !== undefined && i % TICK_PIXELS === 0) tick((0.3 * i) / size);
    if (labels[i]! > 0 && touchesUnlabeled(labels, i, width, size)) push(i, coverage[i]!);
  }
  let popped = 0;
  for (let level = 0; level < 256; ) {
    const i = head[level]!;
    if (i < 0) {
      level++;
      continue;
    }
    head[level] = next[i]!;
    if (tick !== undefined && ++popped % TICK_PIXELS === 0) tick(0.3 + (0.7 * popped) / size);
    const count = neighborsOf(i, width, size, neighbors);
    for (let k = 0; k < count; k++) {
      const j = neighbors[k]!;
      if (labels[j] !== 0) continue;
      labels[j] = labels[i]!;
      push(j, Math.max(level, coverage[j]!));
    }
  }

  function push(i: number, level: number): void {
    next[i] = -1;
    if (head[level]! < 0) head[level] = i;
    else next[tail[level]!] = i;
    tail[level] = i;
  }
}

function touchesUnlabeled(labels: Int32Array, i: number, width: number, size: number): boolean {
  const x = i % width;
  return (
    (i >= width && labels[i - width] === 0) ||
    (x > 0 && labels[i - 1] === 0) ||
    (x < width - 1 && labels[i + 1] === 0) ||
    (i + width < size && labels[i + width] === 0)
  );
}

/** The 4-neighbors of a pixel, in row order; gives how many there are. */
function neighborsOf(i: number, width: number, size: number, out: Int32Array): number {
  const x = i % width;
  let count = 0;
  if (i >= width) out[count++] = i - width;
  if (x > 0) out[count++] = i - 1;
  if (x < width - 1) out[count++] = i + 1;
  if (i + width < size) out[count++] = i + width;
  return count;
}
