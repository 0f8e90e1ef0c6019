import { pixelsArgument } from '../raster/arguments.ts';
import { checkNumber, checkOptions } from '../raster/checks.ts';
import { raster } from '../raster/raster.ts';
import type { Mask, PixelsLike } from '../raster/types.ts';
import { PairIndex } from '../runs/pair-index.ts';
import { blendsOf } from './color-runs.ts';
import { checkLight, lightOf } from './light.ts';
import { readSolid } from './line-colors.ts';
import { Mixer } from './mixer.ts';
import type { FringeLight } from './samples.ts';
import { CLEAR_CODE, type Solid } from './solid-colors.ts';
import { colorOfWord, wordsOf } from './words.ts';
import { type FringePlace, worstPlaces } from './worst-places.ts';

export type { FringeLight, FringePlace };

export interface FindFringeOptions {
  /**
   * How the blends were made: of sRGB samples (gamma-encoded), or of linear light. @default 'auto',
   * whichever more blends are mixes in; sRGB where it makes no difference
   */
  readonly light?: FringeLight | 'auto' | undefined;
  /** Most places in `worst`. @default 10 */
  readonly places?: number | undefined;
}

/** The blends between two solid colors, in the order of `0xrrggbb`, `bare` first. */
export interface FringePair {
  /** `#rrggbb`, or `bare` where it is transparent. */
  readonly a: string;
  readonly b: string;
  /** Pixels. */
  readonly count: number;
  /** Mean share of b in them, 0 to 1. */
  readonly mix: number;
}

export interface Fringe {
  /** 1 where a pixel is a blend. */
  readonly mask: Mask;
  readonly count: number;
  /** Most pixels first; ties by the first of them. */
  readonly pairs: readonly FringePair[];
  /** Blended pixels that are no mix of solid colors near them, in no pair. */
  readonly unexplained: number;
  /** The largest 8-connected components of blends, most pixels first. */
  readonly worst: readonly FringePlace[];
}

/**
 * Finds blended pixels in a picture of flats: those whose color is no solid one.
 *
 * A color is solid where it has an area: it fills a square of 3 × 3 pixels somewhere (in a picture
 * with sides below 3, as much of it as fits). Full transparency is solid too. A color without an area
 * is solid where it is that of a thin line that somebody meant, such as a highlight or an eyelash one
 * pixel wide: the very same color recurs along a line, where a blend would vary. Either of these is
 * evidence:
 *
 * - The line bends, as a curve or a dot does: a quarter of the color's pixels, and four at least, have
 *   two neighbors of the color that do not lie opposite, and are no mix of two solid colors that touch
 *   them. (An edge repeats its blends along straight lines only, or is a mix of its two sides.)
 * - The line lies inside one area: six pixels and more of the color in straight lines have one solid
 *   color round them, and are no mix of that color with another one near, nor with less than a third
 *   of any other of the picture. (Where two antialiased edges lie on one another inside an area, a
 *   little of what is under them shows.)
 *
 * Every other pixel is fringe: partial alpha, mixes, thin rims between two areas of a color that has
 * no area, and noise.
 *
 * A mix is one of two solid colors within 3 pixels, or of three where no two give it, in sRGB or in
 * linear light, within the rounding to 8 bit of several steps; of several, the one whose colors touch
 * the pixel most, ties to the first in the order of `0xrrggbb`. Where no such mix is found, what lies
 * under two edges may show through, or a line may be too thin for a solid pixel: then one color, or
 * two, with any other of the picture (of many, the first 64 in that order) are tried. A mix of three
 * counts with the pair of its largest shares. A pixel of exactly a solid color is never fringe, even
 * where an edge happens to have that color.
 *
 * O(pixels) and some 200 solid neighbors for each blend at most; memory: 2 bytes a pixel and 8 a run
 * of one color.
 *
 * @param pixels - 8 or 16 bit, `[w, h]` or `[w, h, 1 to 4]`; 16 bit is rounded to 8.
 * @returns The mask, owning its memory, and what is in it.
 * @throws TypeError or RangeError for pixels or options that are none, and for more than 65,534 solid
 *   colors.
 * @example
 * ```ts
 * import { findFringe, raster } from 'underink';
 * const row = [0, 0, 0, 51, 255, 255, 255];
 * const { count, pairs } = findFringe(raster(new Uint8Array([...row, ...row, ...row]), [7, 3]));
 * const [{ a, b, mix }] = pairs;
 * console.log(count, a, b, mix.toFixed(2)); // 3 #000000 #ffffff 0.20
 * ```
 */
export function findFringe(pixels: PixelsLike, options?: FindFringeOptions): Fringe {
  const { light, places = 10 } = checkOptions(options, 'findFringe', ['light', 'places']);
  checkLight(light);
  checkNumber(places, 'places', { integer: true });
  const dense = pixelsArgument(pixels, 'pixels');
  const { width, height } = dense;
  const words = wordsOf(dense);
  const { runs, solid } = readSolid(words, width, height);
  const blends = blendsOf(runs, solid.codeOf);
  const data = new Uint8Array(words.length);
  for (let k = 0; k < blends.length; k++) data[blends[k]!] = 1;
  const own = lightOf(light, words, solid, width, height, blends);
  return {
    mask: raster(data, [width, height]),
    count: blends.length,
    ...pairsOf(words, solid, width, height, blends, own),
    worst: worstPlaces(blends, width, places),
  };
}

function pairsOf(
  words: Uint32Array,
  solid: Solid,
  width: number,
  height: number,
  blends: Int32Array,
  light: FringeLight,
): { pairs: FringePair[]; unexplained: number } {
  const mixer = new Mixer(words, solid, width, height, light);
  const { mix } = mixer;
  const index = new PairIndex();
  let shares = new Float64Array(64);
  let unexplained = 0;
  for (let k = 0; k < blends.length; k++) {
    if (!mixer.solve(blends[k]!) || mix.b === 0) {
      unexplained++;
      continue;
    }
    mix.leadingPair();
    const pair = index.add(mix.a, mix.b, 1);
    if (pair === shares.length) {
      const more = new Float64Array(2 * shares.length);
      more.set(shares);
      shares = more;
    }
    shares[pair]! += mix.shareB;
  }
  const order = Array.from({ length: index.size }, (_, k) => k);
  order.sort((j, k) => index.counts[k]! - index.counts[j]! || j - k);
  const pairs = order.map((k) => ({
    a: nameOf(index.first[k]!, solid.colors),
    b: nameOf(index.second[k]!, solid.colors),
    count: index.counts[k]!,
    mix: shares[k]! / index.counts[k]!,
  }));
  return { pairs, unexplained };
}

function nameOf(code: number, colors: Uint32Array): string {
  return code === CLEAR_CODE ? 'bare' : colorOfWord(colors[code]!);
}
