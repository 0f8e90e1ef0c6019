import { parseColor } from '../color/hex.ts';
import { BARE } from '../palette/swatches.ts';
import type { Swatch } from '../palette/types.ts';
import { wrongKind, wrongValue } from '../raster/errors.ts';

const WHITE = '#ffffff';

/** The swatch that an option `ground` asks for: a name, or a swatch with its color. */
export function checkGround(ground: string | Swatch = 'ground', name = 'ground'): Swatch {
  const swatch = typeof ground === 'string' ? { name: ground, color: WHITE } : ground;
  if (typeof swatch !== 'object' || swatch === null || typeof swatch.name !== 'string') {
    throw wrongKind(name, 'the name of a swatch, or a swatch { name, color }', ground);
  }
  if (swatch.name === '' || swatch.name === BARE) {
    throw wrongValue(name, 'a name that is neither empty nor the reserved "bare"', swatch.name);
  }
  parseColor(swatch.color, `${name}.color`);
  return { name: swatch.name, color: swatch.color.toLowerCase() };
}

/** Ids of the regions with a pixel on the picture's border; with `ink`, with one off the ink. */
export function borderRegions(
  labels: Int32Array,
  width: number,
  height: number,
  ink?: Uint8Array,
): Set<number> {
  const found = new Set<number>();
  const visit = (i: number): void => {
    if (labels[i] !== 0 && (ink === undefined || ink[i] === 0)) found.add(labels[i]!);
  };
  for (let x = 0; x < width; x++) {
    visit(x);
    visit((height - 1) * width + x);
  }
  for (let y = 0; y < height; y++) {
    visit(y * width);
    visit(y * width + width - 1);
  }
  return found;
}
