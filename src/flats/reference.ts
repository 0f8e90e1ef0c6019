import { formatColor } from '../color/hex.ts';
import { flatsArgument } from '../palette/flats-argument.ts';
import { samples } from '../palette/shades.ts';
import type { FlatsLike, Swatch } from '../palette/types.ts';
import { checkSameSize, pixelsArgument } from '../raster/arguments.ts';
import { toEight } from '../raster/samples.ts';
import type { Dense, PixelsLike } from '../raster/types.ts';

/** A colored picture as numbers: what has one number has one color. */
export interface Reference {
  /** By pixel; 0 where there is nothing. */
  readonly keys: Int32Array;
  /** Color of a number, under the name that it has. */
  readonly swatchOf: (key: number) => Swatch;
}

/** A reference argument: pixels, whose colors are named `#rrggbb`, or flats. O(pixels). */
export function readReference(
  value: PixelsLike | FlatsLike,
  size: Pick<Dense, 'width' | 'height'>,
): Reference {
  if (typeof value === 'object' && value !== null && 'indices' in value) {
    const { indices, palette } = flatsArgument(value, 'reference');
    checkSameSize(size, 'labels', indices, 'reference');
    return { keys: Int32Array.from(indices.data), swatchOf: (key) => palette[key]! };
  }
  const dense = pixelsArgument(value as PixelsLike, 'reference');
  checkSameSize(size, 'labels', dense, 'reference');
  const { data, channels } = dense;
  const wide = data instanceof Uint16Array;
  const [green, blue] = channels < 3 ? [0, 0] : [1, 2];
  const keys = new Int32Array(dense.width * dense.height);
  for (let i = 0, k = 0; i < keys.length; i++, k += channels) {
    if (channels % 2 === 0 && data[k + channels - 1] === 0) continue;
    const [r, g, b] = [data[k]!, data[k + green]!, data[k + blue]!];
    keys[i] = 1 + ((toEight(r, wide) << 16) | (toEight(g, wide) << 8) | toEight(b, wide));
  }
  const swatchOf = (key: number): Swatch => {
    const color = formatColor(...samples(key - 1));
    return { name: color, color };
  };
  return { keys, swatchOf };
}
