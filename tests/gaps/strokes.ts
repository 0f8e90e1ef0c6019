import type { NdArray } from 'ndarray';
import { raster } from '../../src/raster/index.ts';

export type Bytes = NdArray<Uint8Array>;
export type Segment = readonly [x0: number, y0: number, x1: number, y1: number];

export const page = (w: number, h: number): Bytes => raster(new Uint8Array(w * h), [w, h]);

/** Draws blunt strokes: pixels whose centers lie beside a segment, within half the width. */
export function draw(r: Bytes, width: number, ...segments: readonly Segment[]): Bytes {
  return paint(r, 1, width, segments);
}

/** Erases the same pixels. */
export function erase(r: Bytes, width: number, ...segments: readonly Segment[]): Bytes {
  return paint(r, 0, width, segments);
}

function paint(r: Bytes, value: number, width: number, segments: readonly Segment[]): Bytes {
  for (const [x0, y0, x1, y1] of segments) {
    const length = Math.hypot(x1 - x0, y1 - y0);
    const [c, s] = [(x1 - x0) / length, (y1 - y0) / length];
    for (let y = 0; y < r.shape[1]!; y++) {
      for (let x = 0; x < r.shape[0]!; x++) {
        const [dx, dy] = [x + 0.5 - x0, y + 0.5 - y0];
        const along = dx * c + dy * s;
        const across = Math.abs(dy * c - dx * s);
        if (along >= 0 && along <= length && across <= width / 2) r.set(x, y, value);
      }
    }
  }
  return r;
}

/** Draws a ring of the given width about a radius. */
export function ring(r: Bytes, x0: number, y0: number, radius: number, width: number): Bytes {
  for (let y = 0; y < r.shape[1]!; y++) {
    for (let x = 0; x < r.shape[0]!; x++) {
      const off = Math.abs(Math.hypot(x + 0.5 - x0, y + 0.5 - y0) - radius);
      if (off <= width / 2) r.set(x, y, 1);
    }
  }
  return r;
}
