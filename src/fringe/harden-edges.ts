import { parseColor } from '../color/hex.ts';
import { indexStorage } from '../palette/flats-argument.ts';
import { BARE_SWATCH, checkPalette } from '../palette/swatches.ts';
import type { Flats, Swatch } from '../palette/types.ts';
import { pixelsArgument } from '../raster/arguments.ts';
import { checkNumber, checkOptions } from '../raster/checks.ts';
import { partOf, TICK_PIXELS, type Tick } from '../raster/progress.ts';
import { raster } from '../raster/raster.ts';
import type { AbortSignalLike } from '../raster/stages.ts';
import { ticksOf } from '../raster/stages.ts';
import type { Owned, PixelsLike } from '../raster/types.ts';
import { blendsOf, colorRuns } from './color-runs.ts';
import type { MergedColor } from './gather-colors.ts';
import { checkLight, lightOf } from './light.ts';
import { lineColors } from './line-colors.ts';
import { mergeSmears } from './merge-smears.ts';
import { isNoisy, seedNoise, settleNoise } from './noise.ts';
import { NOISE_DIFFERENCE, noisyColors, RANGES, withoutMeant } from './noisy-colors.ts';
import { resolvePixels } from './resolve.ts';
import type { FringeLight } from './samples.ts';
import {
  areaColors,
  CLEAR_CODE,
  paletteColors,
  type Solid,
  withColors,
  withColorsOf,
} from './solid-colors.ts';
import { colorOfWord, swatchesOfWords, wordsOf } from './words.ts';

/** CIEDE2000 below which two flats are easily taken for one. */
const ALIKE = 2;

/** How far `hardenEdges` has come. */
export interface HardenEdgesProgress {
  readonly stage: 'colors' | 'noise' | 'blends' | 'flats';
  /** Share of the stage that is done, 0 to 1. */
  readonly done: number;
}

export interface HardenEdgesOptions {
  /**
   * The swatches that the flats may have; `bare` may stand first. @default those that are found
   */
  readonly palette?: readonly Swatch[] | undefined;
  /**
   * Found colors with areas that are less than this apart, in CIEDE2000, become one; 0 keeps all.
   * Colors farther apart are never merged where it is given. @default 2; in a noisy picture 5, and 10
   * for tints along edges
   */
  readonly gather?: number | undefined;
  /**
   * How the blends were made: of sRGB samples (gamma-encoded), or of linear light. @default 'auto',
   * whichever more blends are mixes in; sRGB where it makes no difference
   */
  readonly light?: FringeLight | 'auto' | undefined;
  /** Called at least every 50 ms. What it throws ends the call and reaches the caller. */
  readonly onProgress?: ((progress: HardenEdgesProgress) => void) | undefined;
  /** Ends the call, which throws the signal's reason, within 50 ms of its being aborted. */
  readonly signal?: AbortSignalLike | undefined;
}

/** A color with an area that was taken for noise on a near one. */
export interface GatheredColor {
  /** `#rrggbb`. */
  readonly color: string;
  /** The swatch that has its pixels now. */
  readonly swatch: string;
  /** CIEDE2000 between the two. */
  readonly difference: number;
  readonly count: number;
}

export interface HardenedFlats extends Flats {
  /** Colors that were merged into a near one, largest first: nothing is merged silently. */
  readonly gathered: readonly GatheredColor[];
}

/**
 * Flats of a picture with soft edges or noise: no pixel is left blended.
 *
 * What is solid is decided as `findFringe` does, and each blend goes to the color that covers most
 * of it: of the two or three solid colors near it whose mix gives its color, the one with the
 * largest share. Where two have nearly half each, the shares of the pixels along the edge say where
 * the edge runs, finer than the few levels of coverage that rasterizers have. A pixel whose color is
 * no mix gets the nearest of the colors round it. Equal shares go to the first color in the order of
 * `0xrrggbb`, `bare` before all, so that a picture that is turned gives flats that are turned.
 *
 * A picture is noisy, as lossy compression leaves it, where more than one in eight of its blended
 * pixels has fewer than two solid colors within 2 pixels: an edge has both its colors so near, noise
 * lies deeper in an area. Colors of thin lines, as in a pattern of pixels, do not count as blends. Of
 * more than 20,000 blends about so many are looked at, spread over the picture by a rule that is the
 * same when it is mirrored or turned. In a noisy picture, squares of 3 × 3 pixels that are nearly of
 * one color make a solid color of their mean, pixels that nearly have the color of an area beside them
 * become part of it, and the rest get the larger share of the nearest mix of two colors. There a color
 * that is nowhere but along edges, within 10 of one that it lies on, is a tint that compression made of
 * that one; it is gathered under it.
 *
 * Found swatches stand in the order of their first solid pixel, row by row, and are named by their
 * color; areas of nearly one color, as lossy compression makes them, are gathered under the one with
 * most pixels, never across `gather`, and `gathered` lists each. With a `palette`, areas of a color
 * that it lacks get the swatch that looks nearest. Fully transparent pixels are `bare`. In a picture
 * where no color is solid the most frequent one is.
 *
 * A blend is explained by solid colors up to 3 pixels from it, so a soft edge may be 6 pixels wide
 * where no other is near. After a box blur of 3 × 3 pixels only colors of the drawing are found; one
 * of 5 × 5 or more can leave areas of mixed color, which become swatches. Give the `palette` of such a
 * picture: no other color is laid then. On four drawings of 500 × 500 pixels, blurred by 9 × 9, 204 to
 * 548 pixels came out wrong with it, 3,878 to 10,485 without.
 *
 * O(pixels), some 200 solid neighbors for each blend at most, and for each color with an area a
 * share of the colors that are kept; memory: 2 bytes a pixel and 8 a run of one color.
 *
 * @param pixels - 8 or 16 bit, `[w, h]` or `[w, h, 1 to 4]`; 16 bit is rounded to 8.
 * @returns Flats that own their memory; every found swatch has pixels.
 * @throws TypeError or RangeError for pixels or options that are none, for a palette without a
 *   color, and for more than 65,534 solid colors.
 * @example
 * ```ts
 * import { hardenEdges, raster } from 'underink';
 * const row = [0, 0, 0, 51, 255, 255, 255];
 * const flats = hardenEdges(raster(new Uint8Array([...row, ...row, ...row]), [7, 3]));
 * console.log(flats.palette.map(({ name }) => name).join(' ')); // bare #000000 #ffffff
 * console.log([...flats.indices.data].slice(0, 7).join(' ')); // 1 1 1 1 2 2 2
 * ```
 */
export function hardenEdges(pixels: PixelsLike, options?: HardenEdgesOptions): HardenedFlats {
  const names = ['palette', 'gather', 'light', 'onProgress', 'signal'] as const;
  const { palette, gather, light, ...watch } = checkOptions(options, 'hardenEdges', names);
  const given = palette === undefined ? undefined : swatchesOf(palette);
  if (gather !== undefined) checkNumber(gather, 'gather');
  checkLight(light);
  const tickOf = ticksOf(watch);
  const dense = pixelsArgument(pixels, 'pixels');
  const { width, height } = dense;
  const coloring = tickOf('colors');
  const words = wordsOf(dense, partOf(coloring, 0, 0.2));
  const runs = colorRuns(words, width, height, partOf(coloring, 0.2, 0.5));
  const areaTick = partOf(coloring, 0.5, 0.7);
  const areas =
    given === undefined
      ? areaColors(runs, words.length, gather ?? ALIKE, 'pixels', areaTick)
      : paletteColors(runs, words.length, given.map(rgbOf), areaTick);
  const lineTick = partOf(coloring, 0.7, 1);
  const lines = given === undefined ? lineColors(words, width, height, runs, areas, lineTick) : [];

  const rest = blendsOf(runs, areas.codeOf, tickOf('noise', 0, 0.05));
  const asBlends = withoutMeant(runs, areas, lines);
  const doubtful = blendsOf(runs, asBlends, tickOf('noise', 0.05, 0.1));
  const noisy = isNoisy(words, areas, width, height, doubtful, tickOf('noise', 0.1, 0.2));
  let solid = areas;
  let blends = rest;
  if (noisy) {
    if (given === undefined && gather === undefined) {
      const tick = tickOf('noise', 0.2, 0.3);
      solid = areaColors(runs, words.length, NOISE_DIFFERENCE, 'pixels', tick);
    }
    RANGES.forEach((range, round) => {
      const tick = partOf(
        tickOf('noise', 0.3, 1),
        round / RANGES.length,
        (round + 1) / RANGES.length,
      );
      const finding = partOf(tick, 0, 0.2);
      if (given === undefined) {
        const more = noisyColors(words, width, height, blends, solid.colors, range, finding);
        solid = withColors(solid, more);
      }
      seedNoise(words, solid, width, height, blends, range, partOf(tick, 0.2, 0.4));
      blends = settleNoise(words, solid, width, height, blends, partOf(tick, 0.4, 1));
    });
  } else if (given === undefined) {
    solid = withColorsOf(lines, runs, areas, 'pixels', tickOf('noise', 0.2, 0.5));
    blends = blendsOf(runs, solid.codeOf, tickOf('noise', 0.5, 1));
  }

  const asked = noisy && light !== 'linear' ? 'srgb' : light; // noise would vote at random
  const own = lightOf(asked, words, solid, width, height, blends, tickOf('blends', 0, 0.1));
  const tick = tickOf('blends', 0.1, 1);
  const codes = resolvePixels(words, solid, width, height, blends, own, noisy, tick);
  for (let k = 0; k < blends.length; k++) solid.codes[blends[k]!] = codes[k]!;
  const smears =
    noisy && given === undefined && gather === undefined
      ? mergeSmears(solid.codes, solid.colors, width, height, tickOf('flats', 0, 0.2))
      : [];

  const numbering = tickOf('flats', 0.2, 0.5);
  const { indexOf, colors } = given === undefined ? usedColors(solid, numbering) : allColors(solid);
  const swatches = [BARE_SWATCH, ...(given ?? swatchesOfWords(colors))];
  const indices = indexStorage(words.length, swatches.length);
  const laying = tickOf('flats', 0.5, 1);
  for (let i = 0; i < indices.length; i++) {
    if (i % TICK_PIXELS === 0) laying?.(i / indices.length);
    indices[i] = indexOf[solid.codes[i]!]!;
  }
  laying?.(1);
  return {
    indices: raster<Owned<Uint8Array> | Owned<Uint16Array>>(indices, [width, height]),
    palette: swatches,
    gathered: [...solid.merged, ...smears].map(gatheredColor),
  };
}

/** The swatches to lay, without `bare`. */
function swatchesOf(palette: readonly Swatch[]): Swatch[] {
  const swatches = checkPalette(palette, 'palette', 'either').filter(({ name }) => name !== 'bare');
  if (swatches.length > 0) return swatches;
  throw new RangeError('palette must hold a swatch other than "bare", got none');
}

/** Index of each code, `bare` first, and the colors of those after it. */
interface Numbering {
  readonly indexOf: Uint16Array;
  readonly colors: readonly number[];
}

/** Every code but 0 has an index. */
function allColors({ colors }: Solid): Numbering {
  const indexOf = Uint16Array.from(colors, (_, code) => Math.max(0, code - CLEAR_CODE));
  return { indexOf, colors: [...colors.subarray(CLEAR_CODE + 1)] };
}

/**
 * Codes that have pixels are numbered, in their order: the mean of noisy spots may be a color that no
 * pixel is nearest to in the end.
 */
function usedColors({ codes, colors }: Solid, tick: Tick | undefined): Numbering {
  const used = new Uint8Array(colors.length);
  for (let i = 0; i < codes.length; i++) {
    if (i % TICK_PIXELS === 0) tick?.(i / codes.length);
    used[codes[i]!] = 1;
  }
  const indexOf = new Uint16Array(colors.length);
  const own: number[] = [];
  for (let code = CLEAR_CODE + 1; code < colors.length; code++) {
    if (used[code] === 1) indexOf[code] = own.push(colors[code]!);
  }
  return { indexOf, colors: own };
}

/** The samples of a swatch as the lower three bytes of a word. */
function rgbOf({ color }: Swatch): number {
  const [r, g, b] = parseColor(color, 'color');
  return r | (g << 8) | (b << 16);
}

function gatheredColor({ color, into, difference, pixels }: MergedColor): GatheredColor {
  return { color: colorOfWord(color), swatch: colorOfWord(into), difference, count: pixels };
}
