import { TICK_ROWS, type Tick } from '../raster/progress.ts';

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
 * A first pass upwards stores the distance to the label below, negated, in the unlabeled pixels
 * themselves, so the memory beside the raster is O(width). O(pixels) time.
 */
export function fillNearest(labels: Int32Array, width: number, height: number, tick?: Tick): void {
  if (!storeDistanceBelow(labels, width, height, tick)) return;
  const up = new Int32Array(width);
  const lastRow = new Int32Array(width).fill(-2);
  const envelope = new Envelope(width + 2);
  for (let y = 0; y < height; y++) {
    if (tick !== undefined && y % TICK_ROWS === 0) tick(0.5 + y / (2 * height));
    const row = y * width;
    for (let x = 0; x < width; x++) {
      if (labels[row + x]! > 0) continue;
      const from = x;
      while (x < width && labels[row + x]! <= 0) x++;
      if (from > 0) envelope.offer(from - 1, 0, labels[row + from - 1]!, from, x);
      for (let c = from; c < x; c++) {
        const i = row + c;
        const above = lastRow[c] === y - 1 ? up[c]! : y === 0 ? UNREACHED : 0;
        const reachUp = above === UNREACHED ? UNREACHED : above + 1;
        up[c] = reachUp;
        lastRow[c] = y;
        const reachDown = labels[i] === 0 ? UNREACHED : -labels[i]!;
        if (reachUp === UNREACHED && reachDown === UNREACHED) continue;
        let label: number;
        if (reachUp < reachDown) label = labels[i - reachUp * width]!;
        else label = labels[i + reachDown * width]!;
        if (reachUp === reachDown) label = Math.min(label, labels[i - reachUp * width]!);
        envelope.offer(c, Math.min(reachUp, reachDown), label, from, x);
      }
      if (x < width) envelope.offer(x, 0, labels[row + x]!, from, x);
      envelope.write(labels, row, x);
    }
  }
}

/** A distance longer than any column. */
const UNREACHED = 0x7fffffff;

/**
 * Stores minus the distance to the next label below in every unlabeled pixel, 0 where there is
 * none. Gives whether there is any label.
 *
 * Labels are positive, so the sign tells a distance from a label.
 */
function storeDistanceBelow(
  labels: Int32Array,
  width: number,
  height: number,
  tick?: Tick,
): boolean {
  let labeled = 0;
  for (let y = height - 1; y >= 0; y--) {
    if (tick !== undefined && y % TICK_ROWS === 0) tick((height - y) / (2 * height));
    const row = y * width;
    const below = y === height - 1 ? -1 : row + width;
    for (let x = 0; x < width; x++) {
      if (labels[row + x]! > 0) labeled = 1;
      else if (below >= 0) {
        const next = labels[below + x]!;
        labels[row + x] = next > 0 ? -1 : next === 0 ? 0 : next - 1;
      }
    }
  }
  return labeled === 1;
}

/**
 * Lower envelope of the parabolas (x − site)² + height², ordered by height and then by label, so
 * that equal distances are decided too: a later site that once beats an earlier one beats it from
 * there on, under that order as well.
 */
class Envelope {
  private readonly site: Float64Array;
  private readonly square: Float64Array;
  private readonly label: Int32Array;
  /** First column at which the parabola is the lowest. */
  private readonly first: Int32Array;
  private top = -1;

  constructor(capacity: number) {
    this.site = new Float64Array(capacity);
    this.square = new Float64Array(capacity);
    this.label = new Int32Array(capacity);
    this.first = new Int32Array(capacity);
  }

  /** Adds a site to the right of all before it; only columns `[from, to)` matter. */
  offer(site: number, distance: number, label: number, from: number, to: number): void {
    const square = distance * distance;
    let k = this.top;
    let first = from;
    while (k >= 0) {
      first = this.takeover(k, site, square, label);
      if (first > this.first[k]!) break;
      k--;
      first = from;
    }
    if (first >= to) {
      this.top = k;
      return;
    }
    k++;
    this.site[k] = site;
    this.square[k] = square;
    this.label[k] = label;
    this.first[k] = first;
    this.top = k;
  }

  /** The first column at which the new site beats site k. */
  private takeover(k: number, site: number, square: number, label: number): number {
    const left = this.site[k]!;
    const lead = site * site - left * left + square - this.square[k]!;
    const step = 2 * (site - left);
    return label < this.label[k]! ? Math.ceil(lead / step) : Math.floor(lead / step) + 1;
  }

  /** Writes the lowest labels up to column `to` of a row; the envelope is empty afterwards. */
  write(labels: Int32Array, row: number, to: number): void {
    const { first, label } = this;
    for (let k = 0; k <= this.top; k++) {
      const end = k === this.top ? to : first[k + 1]!;
      const value = label[k]!;
      for (let x = first[k]!; x < end; x++) labels[row + x] = value;
    }
    this.top = -1;
  }
}
