import type { NdArray } from 'ndarray';
import { pixelsArgument } from '../raster/arguments.ts';
import { raster } from '../raster/raster.ts';
import type { PixelsLike } from '../raster/types.ts';
import { readSolid } from './line-colors.ts';
import { wordsOf } from './words.ts';

export interface EdgeHardness {
  /** Share of the border pixels that step in one pixel, 0 to 1; 1 in a picture without a border. */
  readonly hardness: number;
  /** Border pixels. */
  readonly count: number;
  /** `[w, h]`, Uint8: 0 off the border, 1 on a hard one, 2 on a soft one. */
  readonly map: NdArray<Uint8Array>;
}

/**
 * How hard the edges of a picture of flats are.
 *
 * A border pixel is one that is blended, as `findFringe` tells, or has a 4-neighbor that is not of
 * its color. It steps in one pixel where it and those neighbors are solid. O(pixels).
 *
 * @param pixels - 8 or 16 bit, `[w, h]` or `[w, h, 1 to 4]`; 16 bit is rounded to 8.
 * @throws TypeError or RangeError for pixels that are none, and for more than 65,534 solid colors.
 * @example
 * ```ts
 * import { edgeHardness, raster } from 'underink';
 * const row = [0, 0, 0, 51, 255, 255, 255];
 * const soft = edgeHardness(raster(new Uint8Array([...row, ...row, ...row]), [7, 3]));
 * console.log(soft.hardness, [...soft.map.data].slice(0, 7).join(' ')); // 0 0 0 2 2 2 0 0
 * ```
 */
export function edgeHardness(pixels: PixelsLike): EdgeHardness {
  const dense = pixelsArgument(pixels, 'pixels');
  const { width, height } = dense;
  const { codes } = readSolid(wordsOf(dense), width, height).solid;
  const map = new Uint8Array(codes.length);
  let hard = 0;
  let soft = 0;
  for (let y = 0; y < height; y++) {
    const up = y > 0 ? width : 0;
    const down = y < height - 1 ? width : 0;
    const end = (y + 1) * width;
    for (let i = end - width; i < end; i++) {
      const code = codes[i]!;
      const left = i > end - width ? codes[i - 1]! : code;
      const right = i < end - 1 ? codes[i + 1]! : code;
      const above = codes[i - up]!;
      const below = codes[i + down]!;
      if (code === 0 || left === 0 || right === 0 || above === 0 || below === 0) {
        map[i] = 2;
        soft++;
      } else if (left !== code || right !== code || above !== code || below !== code) {
        map[i] = 1;
        hard++;
      }
    }
  }
  const count = hard + soft;
  const hardness = count === 0 ? 1 : hard / count;
  return { hardness, count, map: raster(map, [width, height]) };
}
