import { parseColor } from '../color/hex.ts';
import { checkOptions } from '../raster/checks.ts';
import { wrongKind } from '../raster/errors.ts';
import { raster } from '../raster/raster.ts';
import type { Pixels } from '../raster/types.ts';
import { flatsArgument } from './flats-argument.ts';
import type { FlatsLike, Swatch } from './types.ts';

export interface PaintFlatsOptions {
  /**
   * Paint the ground with alpha 0 too; without a ground there is nothing to make transparent.
   * @default false
   */
  readonly transparentGround?: boolean | undefined;
}

/**
 * The picture of flats: each pixel in the color of its swatch.
 *
 * Alpha is 255, and 0 for `bare` (and the ground where `transparentGround` asks for it); a
 * transparent pixel keeps the color of its swatch in its other samples.
 *
 * @returns RGBA, Uint8, `[w, h, 4]`. O(pixels).
 * @throws TypeError or RangeError for flats that are none, such as an index past the palette.
 * @example
 * ```ts
 * import { paintFlats, raster } from 'underink';
 * const palette = [
 *   { name: 'bare', color: '#000000' },
 *   { name: 'scarf', color: '#c86400' },
 * ];
 * const flats = { indices: raster(new Uint8Array([1, 0]), [2, 1]), palette };
 * console.log(paintFlats(flats).data.join(' ')); // 200 100 0 255 0 0 0 0
 * ```
 */
export function paintFlats(flats: FlatsLike, options?: PaintFlatsOptions): Pixels<Uint8Array> {
  const { transparentGround = false } = checkOptions(options, 'paintFlats', ['transparentGround']);
  if (typeof transparentGround !== 'boolean') {
    throw wrongKind('transparentGround', 'true or false', transparentGround);
  }
  const { indices, palette, ground } = flatsArgument(flats, 'flats');
  const { data, width, height } = indices;
  const colors = colorTable(palette, transparentGround ? ground : undefined);
  const painted = new Uint32Array(data.length);
  for (let i = 0; i < data.length; i++) painted[i] = colors[data[i]!]!;
  return raster(new Uint8Array(painted.buffer), [width, height, 4]);
}

/** RGBA of each swatch as one word, in the byte order of the machine. */
function colorTable(palette: readonly Swatch[], clear: string | undefined): Uint32Array {
  const bytes = new Uint8Array(palette.length * 4);
  palette.forEach(({ name, color }, i) => {
    bytes.set([...parseColor(color, 'color'), i === 0 || name === clear ? 0 : 255], i * 4);
  });
  return new Uint32Array(bytes.buffer);
}
