import { flood } from '../fill/flood.ts';
import type { Matcher } from '../fill/matcher.ts';
import type { Flats } from '../palette/types.ts';
import { TICK_PIXELS, type Tick } from '../raster/progress.ts';
import { fillSpan } from '../runs/fill-span.ts';

/** Place of the ground in the palette; -1 without one. */
export function groundIndex({ palette, ground }: Pick<Flats, 'palette' | 'ground'>): number {
  return ground === undefined ? -1 : palette.findIndex(({ name }) => name === ground);
}

/**
 * 1 on the pixels of the ground. Without one (`ground` -1) the bare surroundings count as it: bare
 * pixels that 4-connected bare pixels lead to from the picture's border. O(pixels); 1 byte a pixel.
 */
export function groundMask(
  indices: Uint8Array | Uint16Array,
  ground: number,
  width: number,
  height: number,
  tick?: Tick,
): Uint8Array {
  const mask = new Uint8Array(indices.length);
  if (ground >= 0) {
    for (let i = 0; i < indices.length; i++) {
      if (tick !== undefined && i % TICK_PIXELS === 0) tick(i / indices.length);
      if (indices[i] === ground) mask[i] = 1;
    }
    return mask;
  }
  // A frame of one pixel joins the border, so that one flood from its corner finds all.
  const framed = new FramedBare(indices, width, height);
  let area = 0;
  let told = 0;
  flood(framed, [width + 2, height + 2], [0, 0], 4, {
    run(y, from, to) {
      area += to - from;
      if (tick !== undefined && area >= told) {
        tick(Math.min(1, area / indices.length));
        told = area + TICK_PIXELS;
      }
      if (y === 0 || y > height) return;
      const row = (y - 1) * width - 1;
      fillSpan(mask, 1, row + Math.max(from, 1), row + Math.min(to, width + 1));
    },
  });
  return mask;
}

/** Bare pixels in a frame of one pixel that counts as bare. */
class FramedBare implements Matcher {
  private readonly indices: Uint8Array | Uint16Array;
  private readonly width: number;
  private readonly height: number;

  constructor(indices: Uint8Array | Uint16Array, width: number, height: number) {
    this.indices = indices;
    this.width = width;
    this.height = height;
  }

  word(y: number, k: number): number {
    const { indices, width, height } = this;
    const first = 32 * k;
    const count = Math.min(32, width + 2 - first);
    const isFrame = y === 0 || y > height;
    const start = (y - 1) * width + first - 1;
    let word = 0;
    for (let b = 0; b < count; b++) {
      const x = first + b;
      if (isFrame || x === 0 || x > width || indices[start + b] === 0) word |= 1 << b;
    }
    return word;
  }
}
