import type { Owned } from '../raster/types.ts';

/** Full coverage: no light comes through. */
const SOLID = 255;

/** A picture of flats with its ink, as the search for halo sees it. */
export interface HaloInput {
  readonly indices: Uint8Array | Uint16Array;
  /** 1 on the pixels of the ground, or of what counts as it: see `groundMask`. */
  readonly ground: Uint8Array;
  readonly coverage: Uint8Array;
  readonly width: number;
  readonly height: number;
}

/**
 * 1 where light shows under partial coverage: on bare pixels that are not of the ground, and on pixels
 * of the ground that lie on a flat's side of the ink, which are those that steps of rising coverage
 * lead to from a flat.
 * O(pixels); 4 bytes for each pixel that is found.
 */
export function haloMask({
  indices,
  ground,
  coverage,
  width,
  height,
}: HaloInput): Owned<Uint8Array> {
  const mask = new Uint8Array(indices.length);
  const todo: number[] = [];
  for (let i = 0; i < indices.length; i++) {
    const ink = coverage[i]!;
    if (ink === 0 || ink === SOLID) continue;
    if (ground[i] === 0) {
      if (indices[i] === 0) mask[i] = 1;
    } else if (risesFromFlat(i)) {
      mask[i] = 1;
      todo.push(i);
    }
  }
  while (todo.length > 0) {
    const i = todo.pop()!;
    const x = i % width;
    const x0 = x > 0 ? i - 1 : i;
    const x1 = x < width - 1 ? i + 1 : i;
    for (let up = -width; up <= width; up += width) {
      if (i + up < 0 || i + up >= indices.length) continue;
      for (let j = x0 + up; j <= x1 + up; j++) {
        if (mask[j] === 1 || ground[j] === 0) continue;
        if (coverage[j] === SOLID || coverage[j]! <= coverage[i]!) continue;
        mask[j] = 1;
        todo.push(j);
      }
    }
  }
  return mask;

  function risesFromFlat(i: number): boolean {
    const x = i % width;
    const y = (i - x) / width;
    for (let v = Math.max(0, y - 1); v <= Math.min(height - 1, y + 1); v++) {
      for (let u = Math.max(0, x - 1); u <= Math.min(width - 1, x + 1); u++) {
        const j = v * width + u;
        if (indices[j] === 0 || ground[j] === 1) continue;
        if (coverage[j]! < coverage[i]!) return true;
      }
    }
    return false;
  }
}
