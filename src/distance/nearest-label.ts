import type { Packed } from '../raster/pack.ts';
import { partOf, TICK_ROWS, type Tick } from '../raster/progress.ts';
import { Columns } from './columns.ts';

/**
 * Gives every pixel of label 0 the label of the nearest labeled pixel, by exact Euclidean distance
 * between pixel centers; among equally near ones the lowest label. Changes `labels` in place; with
 * no label at all nothing changes.
 *
 * The two-pass scheme of exact distance transforms by lower envelopes (Meijster, Roerdink,
 * Hesselink 2000, "A general algorithm for computing distance transforms in linear time"), cut to
 * where it is used: only unlabeled pixels are visited, and each run of them in a row is solved
 * alone. That is exact, because the labeled pixels at both ends of a run are nearer to all of it
 * than anything in a column beyond them.
 *
 *      column          row, run of unlabeled pixels between labels A and B
 *        A             A . . . . . B
 *        .  up 1         └ each column offers its nearest label, up or down
 *        .  down 2
 *        .  down 1
 *        B
 *
 * The pass down the columns sees no more than 1 bit a pixel, which tells where labels are, and labels
 * are read only for what may be the nearest of a run: where labels close it at both ends, nothing
 * beyond the circle over it is.
 *
 * O(pixels) time; beside the raster O(width), 1/8 byte per pixel and 4 bytes per vertical run of
 * unlabeled pixels.
 */
export function fillNearest(labels: Int32Array, width: number, height: number, tick?: Tick): void {
  const { labeled } = packLabeled(labels, width, height, partOf(tick, 0, 0.4));
  fillUnlabeled(labels, labeled, partOf(tick, 0.4, 1));
}

/** The same where `labeled` tells the pixels of a label, those above 0. */
export function fillUnlabeled(labels: Int32Array, labeled: Packed, tick?: Tick): void {
  const { words, width, height } = labeled;
  if (words.every((word) => word === 0)) return;
  const columns = new Columns(labeled, partOf(tick, 0, 0.1));
  const envelope = new Envelope(columns, labels, width);
  const near = new Int32Array(width);
  const solve = (y: number, from: number, to: number): void => {
    columns.measure(y, from, to, near, UNREACHED);
    envelope.solve(near, y, from, to);
  };
  for (let y = height - 1; y >= 0; y--) {
    if (tick !== undefined && y % TICK_ROWS === 0) tick(1 - (0.9 * y) / height);
    columns.goUp(y, solve);
  }
}

/** A distance longer than any column. */
const UNREACHED = 0x3fffffff;
/** No label is higher. */
const MOST = 0x7fffffff;

/** Where labels are, those above 0, 1 bit a pixel, and whether any is below. O(pixels). */
export function packLabeled(
  labels: Int32Array,
  width: number,
  height: number,
  tick?: Tick,
): { labeled: Packed; isNegative: boolean } {
  const stride = (width + 31) >>> 5;
  const words = new Uint32Array(stride * height);
  let all = 0;
  for (let y = 0; y < height; y++) {
    if (tick !== undefined && y % TICK_ROWS === 0) tick(y / height);
    const row = y * width;
    for (let x = 0, k = y * stride; x < width; x += 32, k++) {
      const whole = Math.min(32, width - x) & ~3;
      let word = 0;
      for (let bit = 0, i = row + x; bit < whole; bit += 4, i += 4) {
        const a = labels[i]!;
        const b = labels[i + 1]!;
        const c = labels[i + 2]!;
        const d = labels[i + 3]!;
        all |= a | b | c | d;
        const four = (-a >>> 31) | ((-b >>> 31) << 1) | ((-c >>> 31) << 2) | ((-d >>> 31) << 3);
        word |= four << bit;
      }
      for (let bit = whole; bit < 32 && x + bit < width; bit++) {
        const label = labels[row + x + bit]!;
        all |= label;
        word |= (-label >>> 31) << bit;
      }
      words[k] = word;
    }
  }
  return { labeled: { words, width, height, stride }, isNegative: all < 0 };
}

/**
 * Lower envelope of the parabolas (x − site)² + height², ordered by height and then by label, so
 * that equal distances are decided too: a later site that once beats an earlier one beats it from
 * there on, under that order as well.
 */
class Envelope {
  private readonly columns: Columns;
  private readonly labels: Int32Array;
  private readonly width: number;
  private readonly site: Int32Array;
  private readonly square: Float64Array;
  private readonly label: Int32Array;
  /** First column at which the parabola is the lowest. */
  private readonly first: Int32Array;

  constructor(columns: Columns, labels: Int32Array, width: number) {
    this.columns = columns;
    this.labels = labels;
    this.width = width;
    this.site = new Int32Array(width + 2);
    this.square = new Float64Array(width + 2);
    this.label = new Int32Array(width + 2);
    this.first = new Int32Array(width + 2);
  }

  /** Labels the run `[from, to)` of row y; `near` is the distance in the column. */
  solve(near: Int32Array, y: number, from: number, to: number): void {
    const { labels, width, first, label } = this;
    const top = this.gather(near, y, from, to);
    for (let k = 0, i = y * width + from; k <= top; k++) {
      const end = y * width + (k === top ? to : first[k + 1]!);
      const value = label[k]!;
      while (i < end) labels[i++] = value;
    }
  }

  /** Finds the parabolas that are the lowest somewhere; gives the last one. */
  private gather(near: Int32Array, y: number, from: number, to: number): number {
    const { labels, width, site, square, label, first } = this;
    const { above, below } = this.columns;
    const closed = from > 0 && to < width;
    const end = Math.min(to, width - 1);
    let top = -1;
    // The last parabola, where there is one.
    let [site0, square0, label0, first0] = [0, 0, 0, 0];
    for (let x = Math.max(from - 1, 0); x <= end; x++) {
      const distance = near[x]!;
      const height = distance * distance;
      if (distance === UNREACHED || (closed && height > (x - from + 1) * (to - x))) continue;
      let here = labels[y * width + x]!;
      if (distance > 0) {
        const [up, down] = [above[x]!, below[x]!];
        here = y - up === distance ? labels[up * width + x]! : MOST;
        if (down - y === distance) here = Math.min(here, labels[down * width + x]!);
      }
      let start = from;
      while (top >= 0) {
        const step = x - site0;
        const middle = (step * step + height - square0) / (2 * step);
        start = site0 + (here < label0 ? Math.ceil(middle) : Math.floor(middle) + 1);
        if (start > first0) break;
        start = from;
        if (--top < 0) break;
        site0 = site[top]!;
        square0 = square[top]!;
        label0 = label[top]!;
        first0 = first[top]!;
      }
      if (start >= to) continue;
      top++;
      site[top] = site0 = x;
      square[top] = square0 = height;
      label[top] = label0 = here;
      first[top] = first0 = start;
    }
    return top;
  }
}
