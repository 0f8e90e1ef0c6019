import { parseColor } from '../color/hex.ts';
import { readSolid } from '../fringe/line-colors.ts';
import { CLEAR_CODE } from '../fringe/solid-colors.ts';
import { swatchesOfWords } from '../fringe/words.ts';
import { flatsArgument, indexStorage } from '../palette/flats-argument.ts';
import { BARE, BARE_SWATCH, checkPalette } from '../palette/swatches.ts';
import type { Flats, FlatsLike, Swatch } from '../palette/types.ts';
import { pixelsArgument } from '../raster/arguments.ts';
import { partOf, TICK_PIXELS, type Tick } from '../raster/progress.ts';
import { raster } from '../raster/raster.ts';
import { sampleOffsets } from '../raster/samples.ts';
import type { Dense, Mask, Owned, PixelData, PixelsLike } from '../raster/types.ts';

/** A sheet as the checks read it. */
export interface ReadSheet {
  /** The flats; of a picture, blended pixels and those off the palette have index 0. */
  readonly flats: Flats;
  /** What the flats may hold, where it was given; without `bare`. */
  readonly allowed: readonly Swatch[] | undefined;
  /** 1 where a pixel of a picture is blended. */
  readonly blended: Mask | undefined;
  /** 1 where a pixel has a color that `allowed` lacks. */
  readonly off: Mask | undefined;
}

/** Flats, or a picture of flats read into them. O(pixels). */
export function readSheet(
  input: FlatsLike | PixelsLike,
  name: string,
  palette: readonly Swatch[] | undefined,
  tick: Tick,
): ReadSheet {
  const allowed =
    palette === undefined
      ? undefined
      : checkPalette(palette, 'palette', 'either').filter((swatch) => swatch.name !== BARE);
  if (typeof input === 'object' && input !== null && ('indices' in input || 'flats' in input)) {
    return readFlats(input as FlatsLike, name, allowed, tick);
  }
  return readPicture(pixelsArgument(input as PixelsLike, name), name, allowed, tick);
}

function readFlats(
  input: FlatsLike,
  name: string,
  allowed: readonly Swatch[] | undefined,
  tick: Tick,
): ReadSheet {
  const { indices, palette, ground } = flatsArgument(input, name);
  const { data, width, height } = indices;
  const flats: Flats = {
    indices: raster(data as Owned<Uint8Array>, [width, height]),
    palette,
    ...(ground === undefined ? {} : { ground }),
  };
  if (allowed === undefined) return { flats, allowed, blended: undefined, off: undefined };
  const colors = new Set(allowed.map(({ color }) => color));
  const isOff = palette.map(({ color }, index) => (index > 0 && !colors.has(color) ? 1 : 0));
  const off = new Uint8Array(data.length);
  for (let i = 0; i < off.length; i++) {
    if (i % TICK_PIXELS === 0) tick(i / off.length);
    off[i] = isOff[data[i]!]!;
  }
  return { flats, allowed, blended: undefined, off: raster(off, [width, height]) };
}

function readPicture(
  pixels: Dense<PixelData>,
  name: string,
  allowed: readonly Swatch[] | undefined,
  tick: Tick,
): ReadSheet {
  const { width, height } = pixels;
  const words = wordsOf(pixels, partOf(tick, 0, 0.3));
  const named = allowed ?? solidSwatches(words, width, height, name);
  const indexOf = new Map<number, number>([[CLEAR, 0]]);
  named.forEach(({ color }, k) => {
    const [r, g, b] = parseColor(color, 'color');
    const word = (r | (g << 8) | (b << 16) | (255 << 24)) >>> 0;
    if (!indexOf.has(word)) indexOf.set(word, k + 1);
  });
  const indices = indexStorage(words.length, named.length + 1);
  const blended = new Uint8Array(words.length);
  const off = allowed === undefined ? undefined : new Uint8Array(words.length);
  let last = CLEAR;
  let index: number | undefined = 0;
  for (let i = 0; i < words.length; i++) {
    if (i % TICK_PIXELS === 0) tick(0.7 + (0.3 * i) / words.length);
    const word = words[i]!;
    if (word !== last) {
      last = word;
      index = indexOf.get(word);
    }
    if (index !== undefined) indices[i] = index;
    else if (off === undefined || word === MIXED) blended[i] = 1;
    else off[i] = 1;
  }
  return {
    flats: { indices: raster(indices, [width, height]), palette: [BARE_SWATCH, ...named] },
    allowed,
    blended: raster(blended, [width, height]),
    off: off && raster(off, [width, height]),
  };
}

const CLEAR = 0;
/** No color: alpha that is neither 0 nor full, or a 16 bit sample between two 8 bit ones. */
const MIXED = (128 << 24) >>> 0;

/** Each pixel as `r | g << 8 | b << 16 | 255 << 24`, or CLEAR, or MIXED. */
function wordsOf(pixels: Dense<PixelData>, tick: Tick | undefined): Uint32Array {
  const { data, width, height, channels } = pixels;
  const { green, blue, alpha: alphaAt, wide, full } = sampleOffsets(pixels);
  const unit = wide ? 257 : 1;
  const words = new Uint32Array(width * height);
  for (let i = 0, k = 0; i < words.length; i++, k += channels) {
    if (tick !== undefined && i % TICK_PIXELS === 0) tick(i / words.length);
    const alpha = alphaAt < 0 ? full : data[k + alphaAt]!;
    if (alpha !== full) {
      words[i] = alpha === 0 ? CLEAR : MIXED;
      continue;
    }
    const r = data[k]!;
    const g = data[k + green]!;
    const b = data[k + blue]!;
    if (unit === 1) words[i] = r | (g << 8) | (b << 16) | (255 << 24);
    else if (r % unit !== 0 || g % unit !== 0 || b % unit !== 0) words[i] = MIXED;
    else words[i] = (r / unit) | ((g / unit) << 8) | ((b / unit) << 16) | (255 << 24);
  }
  return words;
}

/** The colors that `findFringe` takes for solid. */
function solidSwatches(words: Uint32Array, width: number, height: number, name: string): Swatch[] {
  const { colors } = readSolid(words, width, height, name).solid;
  return swatchesOfWords(colors.subarray(CLEAR_CODE + 1));
}
