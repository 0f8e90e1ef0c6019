import type { Tick } from '../raster/progress.ts';
import { toEight } from '../raster/samples.ts';
import type { PixelData } from '../raster/types.ts';

/** Side of a block in pixels, about: wider than strokes, narrower than a change of light. */
const BLOCK = 64;

/** The tone of the paper, 0 black to 255 white, in equal blocks of about 64 × 64 pixels, row by row. */
export interface PaperGrid {
  readonly tones: Uint8Array;
  readonly columns: number;
  readonly rows: number;
  /** Of the picture, in pixels. */
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
 * nearest block that is not, along the row or the column first; 0 where there is none. O(pixels),
 * 1 byte per block.
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
      [Math.floor((c * width) / columns), Math.floor(((c + 1) * width) / columns)],
      [Math.floor((r * height) / rows), Math.floor(((r + 1) * height) / rows)],
      counts,
    );
    if (seen === 0) continue;
    let left = Math.ceil(0.2 * seen);
    let v = 255;
    while ((left -= counts[v]!) > 0) v--;
    tones[b] = v;
  }
  fillSolid(tones, columns);
  return { tones, columns, rows, height };
}

/**
 * How uneven the paper is: the share by which the darkest tenth of the blocks falls short of the
 * lightest, 0 to 1.
 */
export function unevenness({ tones }: PaperGrid): number {
  const light = toneRank(tones, 0.9);
  return light === 0 ? 0 : 1 - toneRank(tones, 0.1) / light;
}

/**
 * Writes the paper's tone along a row, in 1 to 255: bilinear between the middles of the blocks,
 * level beyond the outermost.
 */
export function paperAlong(grid: PaperGrid, y: number, row: Float64Array): void {
  const { tones, columns, rows, height } = grid;
  const down = Math.min(rows - 1, Math.max(0, ((y + 0.5) * rows) / height - 0.5));
  const above = Math.floor(down);
  const t = down - above;
  const top = above * columns;
  const bottom = Math.min(rows - 1, above + 1) * columns;
  const side = row.length / columns;
  let from = Math.max(1, (1 - t) * tones[top]! + t * tones[bottom]!);
  let x = 0;
  for (; x + 0.5 < side / 2; x++) row[x] = from;
  for (let c = 1; c < columns; c++) {
    const to = Math.max(1, (1 - t) * tones[top + c]! + t * tones[bottom + c]!);
    const slope = (to - from) / side;
    const first = (c - 0.5) * side - 0.5;
    const end = first + side;
    for (; x < end; x++) row[x] = from + slope * (x - first);
    from = to;
  }
  for (; x < row.length; x++) row[x] = from;
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

/** Gives blocks of solid ink, which become 0 first, the tone of a neighbor, sweeping to and fro. */
function fillSolid(tones: Uint8Array, columns: number): void {
  const least = toneRank(tones, 0.9) / 2;
  const n = tones.length;
  for (let b = 0; b < n; b++) if (tones[b]! < least) tones[b] = 0;
  for (let b = 0; b < n; b++) {
    if (tones[b] !== 0) continue;
    const beside = b % columns === 0 ? 0 : tones[b - 1]!;
    tones[b] = beside || (b < columns ? 0 : tones[b - columns]!);
  }
  for (let b = n - 1; b >= 0; b--) {
    if (tones[b] !== 0) continue;
    const beside = b % columns === columns - 1 ? 0 : tones[b + 1]!;
    tones[b] = beside || (b + columns >= n ? 0 : tones[b + columns]!);
  }
}
