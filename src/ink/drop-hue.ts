import { checkNumber, checkOptions } from '../raster/checks.ts';
import { wrongKind, wrongValue } from '../raster/errors.ts';
import { partOf, TICK_PIXELS, type Tick } from '../raster/progress.ts';
import { over255, sampleOffsets, toEight } from '../raster/samples.ts';
import type { Dense, PixelData } from '../raster/types.ts';
import type { Paper } from './find-paper.ts';

/** A range of hues; the defaults are those of `'blue'`. */
export interface HueRange {
  /** Degrees of the color circle: 0 red, 60 yellow, 120 green, 240 blue. @default 210 */
  readonly hue?: number | undefined;
  /** Degrees to either side, 0 to 180. @default 35 */
  readonly tolerance?: number | undefined;
  /**
   * Largest less smallest sample that a color of this hue must reach somewhere, 1 to 255, to be
   * taken for under-drawing; where none does, nothing is dropped. @default 24
   */
  readonly minChroma?: number | undefined;
}

/** A range of hues, checked. */
export interface PencilRange {
  readonly hue: number;
  readonly tolerance: number;
  readonly minChroma: number;
}

/** Under-drawing as a picture shows it. */
interface Pencil {
  readonly hue: number;
  readonly tolerance: number;
  /** Levels by which its highest sample lies below the paper's, for each level of chroma. */
  readonly shade: number;
  /** Chroma where it is solid. */
  readonly chroma: number;
}

function isRange(value: unknown): boolean {
  return value === true || (typeof value === 'object' && value !== null && !Array.isArray(value));
}

/** Checks a `dropHue` option; undefined where nothing is to be dropped. */
export function hueArgument(
  dropHue: boolean | 'blue' | HueRange | undefined,
): PencilRange | undefined {
  if (dropHue === undefined || dropHue === false) return undefined;
  if (typeof dropHue === 'string' ? dropHue !== 'blue' : !isRange(dropHue)) {
    const allowed = 'true, false, "blue" or { hue, tolerance, minChroma }';
    throw typeof dropHue === 'string'
      ? wrongValue('dropHue', allowed, dropHue)
      : wrongKind('dropHue', allowed, dropHue);
  }
  const named = dropHue === true || dropHue === 'blue';
  const range = named ? {} : checkOptions(dropHue as HueRange, 'dropHue', NAMES);
  const { hue = 210, tolerance = 35, minChroma = 24 } = range;
  checkNumber(hue, 'dropHue.hue', { max: 360, unit: 'degrees' });
  checkNumber(tolerance, 'dropHue.tolerance', { max: 180, unit: 'degrees' });
  checkNumber(minChroma, 'dropHue.minChroma', { min: 1, max: 255, unit: 'levels' });
  return { hue, tolerance, minChroma };
}

/**
 * Most levels by which pencil's highest sample lies below the paper's, for each level of chroma:
 * non-photo blue `#a4dded` has a quarter. That a strong blue pencil has two thirds, and that colored
 * ink and the grain of black ink have more, is common practice, no source.
 */
const MOST_SHADE = 1.5;

const NAMES = ['hue', 'tolerance', 'minChroma'] as const;

/**
 * Takes under-drawing of one hue out: calls `put` with each pixel of that hue and the coverage of
 * the ink alone there, 0 to 255, alpha counted in. Other pixels are what they are.
 *
 * Samples count as shares of the paper's, so that paper is (255, 255, 255). Where ink covers a
 * share c of a pixel and pencil lies below, all samples are the pencil's times 1 − c, in value (the
 * highest sample) and in chroma (highest less lowest) alike. A pencil mark of any strength has
 * value 255 − shade × chroma, a straight line from paper to solid pencil. So
 *
 *     value + shade × chroma = 255 (1 − c)
 *
 * whatever the pencil's strength: the line over it is neither thinned nor thickened. On transparent
 * paper the pencil's share is its chroma over that of solid pencil. O(pixels).
 */
export function dropFrom(
  pixels: Dense<PixelData>,
  paper: Paper,
  range: PencilRange,
  put: (pixel: number, coverage: number) => void,
  tick?: Tick,
): void {
  const { data, width, height, channels } = pixels;
  if (channels < 3) return;
  const shares = sharesOf(paper);
  const pencil = findPencil(pixels, shares, range, partOf(tick, 0, 0.5));
  if (pencil === undefined) return;
  const { hue, tolerance, shade, chroma: solid } = pencil;
  const [reds, greens, blues] = shares;
  const { wide, alpha: alphaAt } = sampleOffsets(pixels);
  const size = width * height;
  const last = partOf(tick, 0.5, 1);
  for (let i = 0, k = 0; i < size; i++, k += channels) {
    if (i % TICK_PIXELS === 0) last?.(i / size);
    const r = reds[toEight(data[k]!, wide)]!;
    const g = greens[toEight(data[k + 1]!, wide)]!;
    const b = blues[toEight(data[k + 2]!, wide)]!;
    const value = Math.max(r, g, b);
    const chroma = value - Math.min(r, g, b);
    if (chroma === 0 || hueDistance(r, g, b, value, chroma, hue) > tolerance + 60 / chroma) {
      continue;
    }
    const alpha = alphaAt < 0 ? 255 : toEight(data[k + alphaAt]!, wide);
    const left =
      paper === 'transparent' ? 255 * (1 - chroma / solid) : 255 - value - shade * chroma;
    put(i, left <= 0 ? 0 : over255(((left + 0.5) | 0) * alpha));
  }
}

/**
 * The under-drawing in a picture: of the pixels of its hue those with more than three quarters of
 * the chroma that one in a hundred exceeds, since solid pencil without ink on it is the most
 * colorful; of their shades and chromas the median. What is too dark for its chroma is ink.
 */
function findPencil(
  pixels: Dense<PixelData>,
  [reds, greens, blues]: readonly Uint8Array[],
  { hue, tolerance, minChroma }: PencilRange,
  tick: Tick | undefined,
): Pencil | undefined {
  const { data, channels } = pixels;
  const { wide } = sampleOffsets(pixels);
  // Pixels by chroma and value.
  const counts = new Uint32Array(256 * 256);
  const chunk = TICK_PIXELS * channels;
  for (let k = 0; k < data.length; k += channels) {
    if (k % chunk === 0) tick?.(k / data.length);
    if (channels === 4 && data[k + 3] === 0) continue;
    const r = reds![toEight(data[k]!, wide)]!;
    const g = greens![toEight(data[k + 1]!, wide)]!;
    const b = blues![toEight(data[k + 2]!, wide)]!;
    const value = Math.max(r, g, b);
    const chroma = value - Math.min(r, g, b);
    if (chroma < minChroma || 255 - value > MOST_SHADE * chroma) continue;
    if (hueDistance(r, g, b, value, chroma, hue) <= tolerance) counts[256 * chroma + value]!++;
  }
  const chromas = Array.from({ length: 256 }, (_, c) =>
    sum(counts.subarray(256 * c, 256 * c + 256)),
  );
  const all = sum(chromas);
  if (all === 0) return undefined;
  let top = 255;
  for (let above = chromas[top]!; 100 * above < all; above += chromas[top]!) top--;
  const marks: { chroma: number; shade: number; count: number }[] = [];
  for (let chroma = Math.ceil(0.75 * top); chroma < 256; chroma++) {
    for (let value = 0; value < 256; value++) {
      const count = counts[256 * chroma + value]!;
      if (count > 0) marks.push({ chroma, shade: (255 - value) / chroma, count });
    }
  }
  const middle = (by: 'chroma' | 'shade'): number => {
    marks.sort((a, b) => a[by] - b[by]);
    let left = sum(marks.map(({ count }) => count)) / 2;
    return marks.find(({ count }) => (left -= count) <= 0)![by];
  };
  return { hue, tolerance, shade: middle('shade'), chroma: middle('chroma') };
}

function sum(counts: ArrayLike<number>): number {
  let total = 0;
  for (let i = 0; i < counts.length; i++) total += counts[i]!;
  return total;
}

/** Degrees between a color's hue on the hexagon of sRGB samples and another. */
function hueDistance(
  r: number,
  g: number,
  b: number,
  value: number,
  chroma: number,
  hue: number,
): number {
  let own: number;
  if (value === r) own = (g - b) / chroma;
  else if (value === g) own = 2 + (b - r) / chroma;
  else own = 4 + (r - g) / chroma;
  let apart = 60 * own - hue;
  if (apart < 0) apart = -apart;
  if (apart > 360) apart -= 360;
  return apart > 180 ? 360 - apart : apart;
}

/** For each channel, samples as shares of the paper's, 255 for all of it, to the nearest. */
function sharesOf(paper: Paper): readonly [Uint8Array, Uint8Array, Uint8Array] {
  const share = (full: number) =>
    Uint8Array.from({ length: 256 }, (_, v) =>
      v >= full ? 255 : Math.floor((510 * v + full) / (2 * full)),
    );
  const [r, g, b] = paper === 'transparent' ? [255, 255, 255] : paper;
  return [share(r), share(g), share(b)];
}
