import { ciede2000 } from '../color/color-difference.ts';
import { parseColor } from '../color/hex.ts';
import type { Lab } from '../color/lab.ts';
import { leastDifference } from '../color/least-difference.ts';
import { indexStorage } from '../palette/flats-argument.ts';
import { BARE, BARE_SWATCH, checkPalette } from '../palette/swatches.ts';
import type { Flats, Swatch } from '../palette/types.ts';
import { pixelsArgument } from '../raster/arguments.ts';
import { checkNumber, checkOptions } from '../raster/checks.ts';
import { raster } from '../raster/raster.ts';
import type { Mask, PixelsLike } from '../raster/types.ts';
import { isNoisy } from './noise.ts';
import { NOISE_DIFFERENCE } from './noisy-colors.ts';
import { markOff } from './off-palette.ts';
import { resolvePixels } from './resolve.ts';
import { CLEAR_CODE, type Solid } from './solid-colors.ts';
import { labOfWord, wordsOf } from './words.ts';

export interface SnapColorsOptions {
  /**
   * Farthest that a pixel's color may be from a swatch's to be that, in CIEDE2000. @default 5, what lossy
   * compression moves a color by
   */
  readonly within?: number | undefined;
}

/** What was snapped, and what was not. */
export interface SnappedFlats {
  readonly flats: Flats;
  /** 1 on what is off the palette; bare in the flats. */
  readonly off: Mask;
}

/** A color so many times nearer to one swatch than to any other is surely that one. */
const SURE = 3;

/**
 * Brings flats received as JPEG, scaled or retouched back to the colors of a palette.
 *
 * A pixel becomes the swatch that its color is nearest to, by CIEDE2000, where that is within `within`.
 * Where a second swatch is within reach too and not three times as far, the one of the two decides that
 * has more pixels that are sure in the 5 × 5 round it, ties to the nearer. What is near none is a blend
 * where it is a mix of swatches near it, and goes to the larger share as in `hardenEdges`; the rest, areas
 * of a color that the palette lacks, and what is beside them and of nearly their color, is `off`, and
 * stays bare. So is a line of 1 or 2 pixels only where it is far from all swatches near it. Fully transparent pixels are bare and not off. Ties between equally near swatches go to the first.
 *
 * @param pixels - 8 or 16 bit, `[w, h]` or `[w, h, 1 to 4]`; 16 bit is rounded to 8.
 * @param palette - The swatches to lay; `bare` may stand first.
 * @returns Flats that own their memory, with the whole palette, `bare` first, and the mask of what is off.
 *   O(pixels + distinct colors · swatches).
 * @throws TypeError or RangeError for pixels, a palette or an option that are none.
 * @example
 * ```ts
 * import { raster, snapColors } from 'underink';
 * const palette = [{ name: 'scarf', color: '#c86400' }, { name: 'shell', color: '#203040' }];
 * const art = new Uint8Array([202, 98, 3, 199, 101, 0, 33, 47, 66, 0, 200, 0]);
 * const { flats, off } = snapColors(raster(art, [4, 1, 3]), palette);
 * console.log([...flats.indices.data], [...off.data]); // [ 1, 1, 2, 0 ] [ 0, 0, 0, 1 ]
 * ```
 */
export function snapColors(
  pixels: PixelsLike,
  palette: readonly Swatch[],
  options?: SnapColorsOptions,
): SnappedFlats {
  const { within = NOISE_DIFFERENCE } = checkOptions(options, 'snapColors', ['within']);
  checkNumber(within, 'within');
  const given = checkPalette(palette, 'palette', 'either');
  const swatches = given[0]?.name === BARE ? given : [BARE_SWATCH, ...given];
  const dense = pixelsArgument(pixels, 'pixels');
  const { width, height } = dense;
  const words = wordsOf(dense);
  const solid = nearestSwatches(words, width, height, swatches, within);
  const { codes } = solid;
  const left = Int32Array.from(placesOfZeros(codes));
  const off = markOff(words, solid, width, height, left);
  const blends = left.filter((i) => off[i] === 0);
  const noisy = isNoisy(words, solid, width, height, blends);
  const found = resolvePixels(words, solid, width, height, blends, 'srgb', noisy);
  for (let k = 0; k < blends.length; k++) codes[blends[k]!] = found[k]!;
  const indices = indexStorage(words.length, swatches.length);
  for (let i = 0; i < indices.length; i++) indices[i] = Math.max(0, codes[i]! - CLEAR_CODE);
  return {
    flats: { indices: raster<typeof indices>(indices, [width, height]), palette: swatches },
    off: raster(off, [width, height]),
  };
}

/** What a color may be: codes of the nearest swatch and of the second, 0 where none is within reach. */
interface Choice {
  readonly first: number;
  readonly second: number;
}

function nearestSwatches(
  words: Uint32Array,
  width: number,
  height: number,
  swatches: readonly Swatch[],
  within: number,
): Solid {
  const colors = Uint32Array.from([0, 0, ...swatches.slice(1).map(wordOf)]);
  const labs = Array.from(colors, labOfWord);
  const known = new Map<number, Choice>();
  const codes = new Uint16Array(words.length);
  const doubtful: number[] = [];
  let last = -1;
  let choice: Choice = { first: 0, second: 0 };
  for (let i = 0; i < words.length; i++) {
    const word = words[i]!;
    if (word !== last) {
      last = word;
      choice = known.get(word) ?? chooseSwatch(word, labs, within);
      known.set(word, choice);
    }
    if (choice.second === 0) codes[i] = choice.first;
    else doubtful.push(i);
  }
  const chosen = doubtful.map((i) => byNeighbors(codes, width, height, i, known.get(words[i]!)!));
  doubtful.forEach((i, k) => {
    codes[i] = chosen[k]!;
  });
  return { codes, colors, codeOf: new Uint16Array(0), merged: [] };
}

function wordOf({ color }: Swatch): number {
  const [r, g, b] = parseColor(color, 'color');
  return (r | (g << 8) | (b << 16) | 0xff000000) >>> 0;
}

/** The nearest swatch of a color, and the second where it is not sure which of the two. */
function chooseSwatch(word: number, labs: readonly Lab[], within: number): Choice {
  const alpha = word >>> 24;
  if (alpha === 0) return { first: CLEAR_CODE, second: 0 };
  if (alpha < 255) return { first: 0, second: 0 };
  const lab = labOfWord(word);
  let [first, second] = [0, 0];
  let [least, next] = [Number.POSITIVE_INFINITY, Number.POSITIVE_INFINITY];
  for (let code = CLEAR_CODE + 1; code < labs.length; code++) {
    if (leastDifference(lab, labs[code]!) > within) continue;
    const d = ciede2000(lab, labs[code]!);
    if (d > within || d >= next) continue;
    if (d < least) {
      [second, next] = [first, least];
      [first, least] = [code, d];
    } else [second, next] = [code, d];
  }
  return { first, second: next < SURE * least ? second : 0 };
}

/** Of two swatches the one with more sure pixels in the 5 × 5 round a pixel, ties to the nearer. */
function byNeighbors(
  codes: Uint16Array,
  width: number,
  height: number,
  i: number,
  { first, second }: Choice,
): number {
  const x = i % width;
  const y = (i - x) / width;
  let lead = 0;
  for (let v = Math.max(0, y - 2); v <= Math.min(height - 1, y + 2); v++) {
    for (let u = Math.max(0, x - 2); u <= Math.min(width - 1, x + 2); u++) {
      const code = codes[v * width + u]!;
      if (code === first) lead++;
      else if (code === second) lead--;
    }
  }
  return lead < 0 ? second : first;
}

function* placesOfZeros(codes: Uint16Array): Generator<number> {
  for (let i = 0; i < codes.length; i++) if (codes[i] === 0) yield i;
}
