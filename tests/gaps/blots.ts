import type { NdArray } from 'ndarray';
import { raster } from '../../src/raster/index.ts';
import { seeded } from '../support/random.ts';

/** Blots and straight strokes anywhere: ink with passages of many widths. */
export function blots(width: number, height: number, seed: number): NdArray<Uint8Array> {
  const ink = raster(new Uint8Array(width * height), [width, height]);
  const random = seeded(seed + 1);
  const count = 1 + Math.floor(random() * 7);
  for (let k = 0; k < count; k++) {
    const [x0, y0] = [random() * width, random() * height];
    const [x1, y1] = k % 2 === 0 ? [x0, y0] : [random() * width, random() * height];
    const radius = 0.5 + random() * 2.5;
    for (let y = 0; y < height; y++) {
      for (let x = 0; x < width; x++) {
        const [dx, dy] = [x1 - x0, y1 - y0];
        const along = ((x - x0) * dx + (y - y0) * dy) / (dx * dx + dy * dy || 1);
        const t = Math.min(1, Math.max(0, along));
        const [u, v] = [x - x0 - t * dx, y - y0 - t * dy];
        if (u * u + v * v <= radius * radius) ink.set(x, y, 1);
      }
    }
  }
  return ink;
}
