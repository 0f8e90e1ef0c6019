import type { Tick } from '../raster/progress.ts';
import { toEight } from '../raster/samples.ts';
import type { PixelData } from '../raster/types.ts';

/** Side of a block in pixels, about: wider than strokes, narrower than a change of light. */
const BLOCK = 64;

/** The tone of the paper, 1 black to 255 white, in equal blocks of about 64 × 64 pixels, row by row. */
export interface PaperGrid {
  readonly tones: Uint8Array;
  readonly columns: number;
  readonly rows: number;
  /** Of the picture, in pixels. */
  readonly width: number;
  readonly height: number;
}

/** Tones within dense samples: `data[step · i + at]`, counted from black or, as a coverage, from white. */
export interface ToneSource {
  readonly data: PixelData;
  readonly width: number;
  readonly height: number;
  readonly step: number;
  readonly at: number;
  readonly inverted: boolean;
  /** Offset of the alpha sample; pixels with less than 128 of 255 do not count. */
  readonly alphaAt?: number;
}

/** A coverage as tones. */
export function coverageTones(data: Uint8Array, width: number, height: number): ToneSource {
  return { data, width, height, step: 1, at: 0, inverted: true };
}

/**
 * The tone of the paper in each block: the lightest but for a fifth of its pixels. Blocks that are
 * less than half as light as the lightest tenth of all are solid ink; they take the tone of the
 * nearest block that is not, steps counted along rows and columns, of equally near ones the
 * lightest; 1 where there is none. Where a side is no whole number of blocks, two blocks share the
 * pixels that lie in both, so that a mirrored picture has the same blocks. O(pixels), 6 bytes per
 * block.
 */
export function lightTones(source: ToneSource, tick?: Tick): PaperGrid {
  const { width, height } = source;
  const columns = Math.max(1, Math.round(width / BLOCK));
  const rows = Math.max(1, Math.round(height / BLOCK));
  const tones = new Uint8Array(columns * rows);
  const counts = new Uint32Array(256);
  for (let b = 0; b < tones.length; b++) {
    if (b % columns === 0) tick?.(b / tones.length);
    counts.fill(0);
    const [c, r] = [b % columns, Math.floor(b / columns)];
    const seen = countBlock(
      source,
      [Math.floor((c * width) / columns), Math.ceil(((c + 1) * width) / columns)],
      [Math.floor((r * height) / rows), Math.ceil(((r + 1) * height) / rows)],
      counts,
    );
    if (seen === 0) continue;
    let left = Math.ceil(0.2 * seen);
    let v = 255;
    while ((left -= counts[v]!) > 0) v--;
    tones[b] = v;
  }
  fillSolid(tones, columns);
  return { tones, columns, rows, width, height };
}

/**
 * How uneven the paper is: the share by which the darkest tenth of the blocks falls short of the
 * lightest, 0 to 1.
 */
export function unevenness({ tones }: PaperGrid): number {
  const light = toneRank(tones, 0.9);
  return light === 0 ? 0 : 1 - toneRank(tones, 0.1) / light;
}

/** What `paperAlong` multiplies tones by, so that the weights between blocks are whole numbers. */
export function paperScale({ width, height }: PaperGrid): number {
  return 4 * width * height;
}

/**
 * Writes the paper's tone along a row, times `paperScale`: bilinear between the middles of the
 * blocks, level beyond the outermost. Exact, and so the same in a picture that is mirrored or turned.
 *
 * In halves of a pixel, the middle of pixel x is 2x + 1 from the left side, and q = (2x + 1) ·
 * columns − width out of 2 · width blocks from the middle of the first block.
 */
export function paperAlong(grid: PaperGrid, y: number, row: Float64Array): void {
  const { tones, columns, rows, width, height } = grid;
  const [across, down] = [2 * width, 2 * height];
  const last = (rows - 1) * down;
  const place = Math.min(last, Math.max(0, (2 * y + 1) * rows - height));
  const low = place % down;
  const top = ((place - low) / down) * columns;
  const bottom = low === 0 ? top : top + columns;
  let from = (down - low) * tones[top]! + low * tones[bottom]!;
  let x = 0;
  let q = columns - width;
  for (; x < width && q < 0; x++, q += 2 * columns) row[x] = across * from;
  for (let c = 1; c < columns; c++) {
    const to = (down - low) * tones[top + c]! + low * tones[bottom + c]!;
    const slope = 2 * columns * (to - from);
    let value = across * from + q * (to - from);
    for (; q < across; x++, q += 2 * columns) {
      row[x] = value;
      value += slope;
    }
    q -= across;
    from = to;
  }
  for (; x < width; x++) row[x] = across * from;
}

/** Counts the tones of a block; gives the pixels counted. */
function countBlock(
  { data, width, step, at, inverted, alphaAt }: ToneSource,
  [x0, x1]: readonly [number, number],
  [y0, y1]: readonly [number, number],
  counts: Uint32Array,
): number {
  const wide = data instanceof Uint16Array;
  const flip = inverted ? 255 : 0;
  let hidden = 0;
  for (let y = y0; y < y1; y++) {
    const end = step * (y * width + x1);
    for (let k = step * (y * width + x0); k < end; k += step) {
      if (alphaAt !== undefined && toEight(data[k + alphaAt]!, wide) < 128) hidden++;
      else counts[toEight(data[k + at]!, wide) ^ flip]! += 1;
    }
  }
  return (x1 - x0) * (y1 - y0) - hidden;
}

/** The tone that a share of the blocks does not pass. */
function toneRank(tones: Uint8Array, share: number): number {
  const sorted = tones.slice().sort();
  return sorted[Math.min(sorted.length - 1, Math.floor(share * sorted.length))]!;
}

/** Gives blocks of solid ink, which become 0 first, the tone of the nearest block that is none. */
function fillSolid(tones: Uint8Array, columns: number): void {
  const least = toneRank(tones, 0.9) / 2;
  const n = tones.length;
  const given = new Uint8Array(n);
  const reached = new Int32Array(n);
  let end = 0;
  for (let b = 0; b < n; b++) {
    if (tones[b]! < least) tones[b] = 0;
    if (tones[b]! > 0) reached[end++] = b;
  }
  if (end === 0) tones.fill(1);
  // Each round reaches the blocks one step farther; all it finds are given their tones at its end.
  for (let from = 0; from < end; ) {
    const to = end;
    for (; from < to; from++) {
      const b = reached[from]!;
      const column = b % columns;
      if (column > 0) end = offer(b - 1, tones[b]!, end);
      if (column < columns - 1) end = offer(b + 1, tones[b]!, end);
      if (b >= columns) end = offer(b - columns, tones[b]!, end);
      if (b < n - columns) end = offer(b + columns, tones[b]!, end);
    }
    for (let k = to; k < end; k++) tones[reached[k]!] = given[reached[k]!]!;
  }

  function offer(b: number, tone: number, count: number): number {
    if (tones[b] !== 0) return count;
    const isNew = given[b] === 0;
    if (tone > given[b]!) given[b] = tone;
    if (isNew) reached[count] = b;
    return isNew ? count + 1 : count;
  }
}
