import { parseColor } from '../color/hex.ts';
import { lumaOf } from '../ink/find-paper.ts';
import { TICK_ROWS, TICK_STEPS, type Tick } from '../raster/progress.ts';
import type { Bounds, Dense, PixelData } from '../raster/types.ts';
import type { PlanNote } from './plan-report.ts';

/** Line art as it came, and the ink that was found. */
export interface LookedAt {
  readonly pixels: Dense<PixelData> | undefined;
  /** What the ink is drawn on: `'#rrggbb'` or `transparent`; undefined where the ink was given. */
  readonly paper: string | undefined;
  readonly ink: Uint8Array;
  readonly inkPixels: number;
  readonly width: number;
  readonly height: number;
}

/** Share of ink, and of dark pixels, from which on a picture is noted: chosen. */
const MUCH_INK = 0.6;
const MUCH_DARK = 0.4;

/** Luma below which a pixel is dark, and from which on it is light. */
const DARK = 96;
const LIGHT = 192;

/** Share of colored pixels from which on a picture is noted: chosen, under-drawing has less. */
const MUCH_COLOR = 0.15;

/** Chroma, the largest less the smallest sample, of a colored pixel: twice what paper may differ. */
const COLORED = 48;

/**
 * Input that is probably not meant, in sentences with numbers: no ink at all or ink nearly all over,
 * a colored picture, an alpha that is no transparency, sides in the wrong order. Notes are no more
 * than that: the job goes on. O(pixels).
 */
export function inputNotes(looked: LookedAt, tick?: Tick): PlanNote[] {
  const { pixels, paper, ink, inkPixels, width, height } = looked;
  const seen = pixels && lookAtColors(pixels, paper ?? 'transparent', tick);
  const found = [
    amountNote(inkPixels, ink.length, seen),
    seen && colorNote(seen),
    seen && alphaNote(seen),
    orderNote(ink, width, height, tick),
  ];
  return found.flatMap((why) => (why === undefined ? [] : [{ why }]));
}

/** Says where the picture is so dense that no gaps are looked for. */
export function textureNotes(texture: readonly Bounds[], pixels: number): PlanNote[] {
  const [first] = texture;
  if (first === undefined) return [];
  const area = texture.reduce((sum, [x0, y0, x1, y1]) => sum + (x1 - x0) * (y1 - y0), 0);
  const share = Math.max(1, Math.round((100 * area) / pixels));
  return [
    {
      why:
        `dense texture on ${share} % of the picture, first at ${first[0]},${first[1]}: no gaps are ` +
        'looked for there',
    },
  ];
}

/** Areas of paper from which on nothing is a speck: chosen, 8 × 8 pixels. */
const SPECK = 64;

/** Specks that a page may have without a note: chosen. */
const FEW = 50;

/**
 * Says so where most regions are specks of paper, with the smallest power of two for `absorb` that
 * takes in nearly all of them. `areas` holds pixels of paper by id.
 */
export function speckNotes(areas: ArrayLike<number>, absorb: number): PlanNote[] {
  const upTo = new Int32Array(SPECK + 1);
  let regions = 0;
  for (let id = 1; id < areas.length; id++) {
    if (areas[id] === 0) continue;
    regions++;
    if (areas[id]! <= SPECK) upTo[areas[id]!]! += 1;
  }
  for (let area = 1; area <= SPECK; area++) upTo[area]! += upTo[area - 1]!;
  const specks = upTo[SPECK]!;
  if (specks <= FEW || 2 * specks <= regions) return [];
  let helps = 1;
  while (20 * upTo[helps]! < 19 * specks) helps *= 2;
  if (absorb >= helps) return [];
  const why = `${specks} of ${regions} regions have at most ${SPECK} px of paper; absorb: ${helps} gives ${upTo[helps]} of them to a neighbor`;
  return [{ why }];
}

function amountNote(inkPixels: number, size: number, seen: Colors | undefined): string | undefined {
  if (inkPixels === 0) return 'there is no ink: every pixel is paper';
  if (inkPixels === size) return 'there is no paper: every pixel is ink';
  const invert = 'of light ink on dark paper, pass the picture inverted';
  if (seen !== undefined && seen.dark >= MUCH_DARK * size && 2 * seen.darkBorder > seen.border) {
    return `${percent(seen.dark, size)} of the picture and most of its border are dark; ${invert}`;
  }
  if (inkPixels < MUCH_INK * size) return undefined;
  return `${percent(inkPixels, size)} of the picture is ink; ${invert}`;
}

/** What the samples of a picture show. */
interface Colors {
  readonly size: number;
  /** Pixels of alpha 128 and more that are colored, the paper's color taken out. */
  readonly colored: number;
  /** Pixels of alpha below 128. */
  readonly hidden: number;
  /** Those of them that are on the picture's border, and the border's pixels. */
  readonly hiddenBorder: number;
  readonly border: number;
  /** Other pixels that are dark, those of them on the border, and those that are light. */
  readonly dark: number;
  readonly darkBorder: number;
  readonly light: number;
  /** Hidden pixels of alpha 0 whose color is far from that of the first such pixel. */
  readonly hiddenColors: number;
}

/** What one pixel is, as bits. */
const [HIDDEN, OWN_COLOR, IS_DARK, IS_LIGHT, IS_COLORED] = [1, 2, 4, 8, 16];

function lookAtColors(picture: Dense<PixelData>, paper: string, tick: Tick | undefined): Colors {
  const { data, width, height, channels } = picture;
  const size = width * height;
  const kindOf = pixelKinds(picture, paper);
  const counts = new Float64Array(32);
  const rim = new Float64Array(32);
  let kind = kindOf(0);
  for (let y = 0, i = 0; y < height; y++) {
    if (tick !== undefined && y % TICK_ROWS === 0) tick(y / height);
    const edge = y === 0 || y === height - 1;
    // A run of equal pixels is looked at once.
    for (let x = 0; x < width; ) {
      if (i > 0 && !isSame(data, channels, i)) kind = kindOf(i);
      const from = x;
      do {
        x++;
        i++;
      } while (x < width && isSame(data, channels, i));
      counts[kind]! += x - from;
      if (edge) rim[kind]! += x - from;
      else rim[kind]! += (from === 0 ? 1 : 0) + (x === width && width > 1 ? 1 : 0);
    }
  }
  const border = size - Math.max(0, width - 2) * Math.max(0, height - 2);
  const sum = (of: Float64Array, bit: number): number =>
    of.reduce((total, count, k) => ((k & bit) === 0 ? total : total + count), 0);
  return {
    size,
    colored: sum(counts, IS_COLORED),
    hidden: sum(counts, HIDDEN),
    hiddenBorder: sum(rim, HIDDEN),
    border,
    dark: sum(counts, IS_DARK),
    darkBorder: sum(rim, IS_DARK),
    light: sum(counts, IS_LIGHT),
    hiddenColors: sum(counts, OWN_COLOR),
  };
}

/** Whether a pixel has the samples of the one before it. */
function isSame(data: PixelData, channels: number, pixel: number): boolean {
  const k = pixel * channels;
  for (let c = k; c < k + channels; c++) if (data[c] !== data[c - channels]) return false;
  return true;
}

/** Tells what a pixel is; the first one of alpha 0 stands for the others. */
function pixelKinds(
  { data, channels }: Dense<PixelData>,
  paper: string,
): (pixel: number) => number {
  const shift = data instanceof Uint16Array ? 8 : 0;
  const [red, green, blue] = paper === 'transparent' ? [255, 255, 255] : parseColor(paper, 'paper');
  const alphaAt = channels === 2 || channels === 4 ? channels - 1 : -1;
  const isColor = channels >= 3;
  let first = -1;
  return (pixel) => {
    const k = pixel * channels;
    const alpha = alphaAt < 0 ? 255 : data[k + alphaAt]! >> shift;
    if (alpha < 128) {
      if (alpha > 0) return HIDDEN;
      if (first < 0) first = k;
      return isColor && isFar(data, first, k, shift) ? HIDDEN | OWN_COLOR : HIDDEN;
    }
    const r = data[k]! >> shift;
    const g = isColor ? data[k + 1]! >> shift : r;
    const b = isColor ? data[k + 2]! >> shift : r;
    const luma = lumaOf(r, g, b);
    const tone = luma >= LIGHT ? IS_LIGHT : luma < DARK ? IS_DARK : 0;
    if (!isColor) return tone;
    const [u, v, w] = [r * green * blue, g * red * blue, b * red * green];
    const chroma = Math.max(u, v, w) - Math.min(u, v, w);
    return chroma * 255 >= COLORED * red * green * blue ? tone | IS_COLORED : tone;
  };
}

/** Whether two pixels differ by 64 levels or more in a sample. */
function isFar(data: PixelData, a: number, b: number, shift: number): boolean {
  for (let c = 0; c < 3; c++) {
    if (Math.abs((data[a + c]! >> shift) - (data[b + c]! >> shift)) >= 64) return true;
  }
  return false;
}

function colorNote({ colored, size }: Colors): string | undefined {
  if (colored < MUCH_COLOR * size) return undefined;
  return `${percent(colored, size)} of the picture is colored, as flats or a photograph are; line art is ink on paper, and dropHue drops a colored under-drawing`;
}

/**
 * Four samples that are inks (cyan, magenta, yellow, black) read as red, green, blue, alpha. Where
 * 255 is no ink, lines are transparent on opaque white; where 0 is, transparent pixels have colors.
 */
function alphaNote(seen: Colors): string | undefined {
  const { hidden, hiddenBorder, border, light, hiddenColors, size } = seen;
  const asks = 'alpha looks like a fourth ink; convert the picture from inks to RGB';
  const allLight = 50 * light >= 49 * (size - hidden);
  if (hidden >= 0.002 * size && 10 * hiddenBorder <= border && allLight) {
    return `${percent(hidden, size)} of the picture is transparent and the rest is light: ${asks}`;
  }
  if (hiddenColors >= 0.02 * size) {
    return `${percent(hiddenColors, size)} of the picture is transparent and has colors of its own: ${asks}`;
  }
  return undefined;
}

/** Pairs of pixels that are compared for each of four distances. */
const SAMPLES = 1 << 18;

/** Changes between ink and paper without which nothing is said. */
const CHANGES = 200;

/**
 * Sides in the wrong order: rows were taken for columns, so that pixels one below the other have
 * nothing to do with each other, but those as far apart in storage as the other side is long do. That
 * shows by three times as many changes between ink and paper.
 */
function orderNote(
  ink: Uint8Array,
  width: number,
  height: number,
  tick: Tick | undefined,
): string | undefined {
  if (width === height) return undefined;
  const hint = `raster(data, [width, height]) takes rows one after another`;
  const byRows = (i: number): number => ink[i]!;
  const [asRows, otherRows] = changesAt(byRows, ink.length, width, height, tick);
  if (asRows >= CHANGES && 3 * otherRows < asRows) {
    return `ink changes ${times(asRows, otherRows)} times as often from row to row as it would with the sides ${height} × ${width}: they look exchanged; ${hint}`;
  }
  const byColumns = (i: number): number => ink[(i % height) * width + Math.floor(i / height)]!;
  const [asColumns, otherColumns] = changesAt(byColumns, ink.length, height, width, tick);
  if (asColumns >= CHANGES && 3 * otherColumns < asColumns) {
    return `ink changes ${times(asColumns, otherColumns)} times as often from column to column as it would with rows for columns: the raster looks column-major; ${hint}`;
  }
  return undefined;
}

/** Changes between pixels two distances apart, of pairs at the same places. */
function changesAt(
  at: (pixel: number) => number,
  size: number,
  own: number,
  other: number,
  tick: Tick | undefined,
): [number, number] {
  const farthest = Math.max(own, other);
  const step = Math.max(1, Math.floor(size / SAMPLES)) | 1;
  let [changesOwn, changesOther] = [0, 0];
  for (let i = 0, n = 0; i + farthest < size; i += step, n++) {
    if (n % TICK_STEPS === 0) tick?.(1);
    const value = at(i);
    changesOwn += value ^ at(i + own);
    changesOther += value ^ at(i + other);
  }
  return [changesOwn, changesOther];
}

function times(a: number, b: number): string {
  return (a / Math.max(1, b)).toFixed(1);
}

function percent(part: number, whole: number): string {
  return `${((100 * part) / whole).toFixed(1)} %`;
}
