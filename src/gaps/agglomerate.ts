import type { Tick } from '../raster/progress.ts';
import { findRoot } from '../runs/union.ts';
import type { Border, FaceMap } from './face-map.ts';
import { type Pair, PairHeap } from './pair-heap.ts';

/** What is seen at the common border of two regions; `Lesser` is the one of less paper. */
export const SEPARATION = [
  'groups',
  'sumOfOdds',
  'bestOdds',
  'worstOdds',
  'sumOfDoubts',
  'bridgedInStrokes',
  'longestInStrokes',
  'meanLengthInWidths',
  'shareOfLesserPerimeter',
  'openLesser',
  'openGreater',
  'areaLesser',
  'areaGreater',
  'thicknessLesser',
  'thicknessGreater',
  'outerLesser',
  'outerGreater',
  'bordersLesser',
  'bordersGreater',
  'otherBestLesser',
  'otherWorstLesser',
  'otherWorstGreater',
  'widestStrokes',
  'meanOdds',
  'facesPerGap',
  'sureGaps',
  'shareOfSureGaps',
] as const;

/** A bridge as the decision sees it. */
interface Weighed {
  /** Log-odds that it parts what is to be apart. */
  readonly odds: number;
  readonly length: number;
  /** Of its strokes, in pixels. */
  readonly width: number;
  /** Bridges of one group are ways to close one gap. */
  readonly group: number;
}

/** Log-odds that two regions are to stay apart, by a row of `SEPARATION`. */
export type Separation = (row: Float64Array) => number;

/** Told of every row that is looked at, and of every join. */
interface Watch {
  see(row: Float64Array, a: number, b: number): void;
  join(keep: number, drop: number): void;
}

/** Log-odds of a gap that counts as one of those that show how leaky the drawing is. */
const SURE = 1.5;
/** Looked at, at most, of the other borders of a region. */
const OTHERS = 32;
/** Faces of less than this, in stroke widths squared, are slivers and go first. */
const SLIVER = 1;

/**
 * Joins faces into regions: of all pairs of neighbors the one is joined whose border is least likely
 * meant, until every border left has log-odds above `bias`; slivers go before all others. Borders
 * are judged anew when what lies on both sides changes (learned agglomeration: Nunez-Iglesias et al.
 * 2013, "Machine learning of hierarchical clustering to segment 2D and 3D images",
 * DOI 10.1371/journal.pone.0071715; the greedy order is that of Keuper et al. 2015, "Efficient
 * decomposition of image and mesh graphs by lifted multicuts", DOI 10.1109/ICCV.2015.204).
 *
 * Regions are named by their least face. Near O(borders · log borders).
 */
export function agglomerate(task: Task): Agglomerated {
  return new Agglomeration(task).run(task.bias);
}

export interface Task {
  readonly faces: FaceMap;
  readonly borders: readonly Border[];
  readonly bridges: readonly Weighed[];
  /**
   * The bridges as they are where a person asks for nothing, which show how leaky the drawing is: a
   * correction here weighs nothing there. Left out, `bridges`.
   */
  readonly unasked?: readonly Pick<Weighed, 'odds' | 'group'>[];
  readonly separation: Separation;
  /** Median and ninth decile of the stroke width, in pixels. */
  readonly strokeWidth: number;
  readonly widest: number;
  readonly bias: number;
  /** Per face: regions with different numbers above 0 are never joined. */
  readonly marks: Int32Array;
  readonly watch?: Watch;
  readonly tick?: Tick | undefined;
}

export interface Agglomerated {
  /** Region of each face. */
  readonly region: Int32Array;
  /** Per bridge the log-odds of the last pair that it lay between, the likelier of several. */
  readonly odds: Float64Array;
}

class Agglomeration {
  private readonly task: Task;
  private readonly parent: Int32Array;
  private readonly least: Int32Array;
  private readonly area: Float64Array;
  private readonly perimeter: Float64Array;
  private readonly outer: Uint8Array;
  private readonly marks: Int32Array;
  /** Pairs of each region, by the other one. */
  private readonly pairs: Map<number, Pair>[];
  private readonly heap: PairHeap = new PairHeap();
  private readonly row: Float64Array = new Float64Array(SEPARATION.length);
  private readonly bestOf: Map<number, number> = new Map();
  private readonly odds: Float64Array;
  private readonly meanOdds: number;
  private readonly facesPerGap: number;
  private readonly sureGaps: number;
  private readonly shareOfSureGaps: number;

  constructor(task: Task) {
    const { faces, borders, bridges, unasked = bridges } = task;
    this.task = task;
    this.parent = Int32Array.from({ length: faces.count + 1 }, (_, i) => i);
    this.least = this.parent.slice();
    this.area = faces.area.slice();
    this.perimeter = faces.perimeter.slice();
    this.outer = faces.outer.slice();
    this.marks = task.marks.slice();
    this.pairs = Array.from({ length: faces.count + 1 }, () => new Map<number, Pair>());
    this.odds = new Float64Array(bridges.length).fill(Number.NEGATIVE_INFINITY);
    const groups = Math.max(1, new Set(unasked.map(({ group }) => group)).size);
    const sure = new Set(unasked.filter(({ odds }) => odds > SURE).map(({ group }) => group)).size;
    const askedFor = bridges.length - unasked.length;
    this.facesPerGap = (faces.count - askedFor) / groups;
    this.sureGaps = Math.min(8, sure);
    this.shareOfSureGaps = sure / groups;
    this.meanOdds = unasked.reduce((sum, { odds }) => sum + odds, 0) / Math.max(1, unasked.length);
    borders.forEach(({ a, b }, i) => {
      const known = this.pairs[a]!.get(b);
      if (known !== undefined) known.borders.push(i);
      else this.link({ a, b, borders: [i], sum: 0, state: 0, alive: true });
    });
  }

  run(bias: number): Agglomerated {
    for (let face = 1; face < this.pairs.length; face++) {
      for (const pair of this.pairs[face]!.values()) if (pair.a === face) this.describe(pair);
    }
    for (let face = 1; face < this.pairs.length; face++) {
      for (const pair of this.pairs[face]!.values()) if (pair.a === face) this.offer(pair);
      if (face % 256 === 0) this.task.tick?.((0.5 * face) / this.pairs.length);
    }
    let looked = 0;
    for (let entry = this.heap.pop(); entry !== undefined; entry = this.heap.pop()) {
      if (++looked % 256 === 0)
        this.task.tick?.(Math.min(1, 0.5 + looked / (4 * this.task.borders.length)));
      const { pair, state, key } = entry;
      if (!pair.alive || pair.state !== state) continue;
      const { a, b } = pair;
      if (this.marks[a]! > 0 && this.marks[b]! > 0 && this.marks[a] !== this.marks[b]) continue;
      // What lies behind the two may have changed since.
      const now = this.keyOf(pair);
      if (now > key + 1e-9) {
        this.heap.push({ pair, state, key: now });
        continue;
      }
      this.settle(pair, now);
      if (now < bias) this.join(pair);
    }
    const region = new Int32Array(this.parent.length);
    for (let face = 1; face < region.length; face++) {
      region[face] = this.least[findRoot(this.parent, face)]!;
    }
    return { region, odds: this.odds };
  }

  /** Writes down what was decided by for the bridges of a pair. */
  private settle({ borders }: Pair, odds: number): void {
    for (const i of borders) {
      const { bridge } = this.task.borders[i]!;
      this.odds[bridge] = Math.max(this.odds[bridge]!, odds);
    }
  }

  private link(pair: Pair): void {
    this.pairs[pair.a]!.set(pair.b, pair);
    this.pairs[pair.b]!.set(pair.a, pair);
  }

  private offer(pair: Pair): void {
    pair.state++;
    this.heap.push({ pair, state: pair.state, key: this.keyOf(pair) });
  }

  private keyOf(pair: Pair): number {
    const { strokeWidth, separation, watch } = this.task;
    const sliver = SLIVER * strokeWidth * strokeWidth;
    this.describe(pair);
    const odds = separation(this.row);
    if (Math.min(this.area[pair.a]!, this.area[pair.b]!) < sliver) return odds - 1000;
    watch?.see(this.row, pair.a, pair.b);
    return odds;
  }

  private join(pair: Pair): void {
    const { pairs, parent, area, perimeter, outer, marks, least } = this;
    const [keep, drop] =
      pairs[pair.a]!.size >= pairs[pair.b]!.size ? [pair.a, pair.b] : [pair.b, pair.a];
    this.task.watch?.join(keep, drop);
    pair.alive = false;
    let pixels = 0;
    for (const i of pair.borders) pixels += this.task.borders[i]!.pixels;
    parent[drop] = keep;
    least[keep] = Math.min(least[keep]!, least[drop]!);
    area[keep]! += area[drop]!;
    perimeter[keep] = Math.max(1, perimeter[keep]! + perimeter[drop]! - 2 * pixels);
    outer[keep]! |= outer[drop]!;
    marks[keep] ||= marks[drop]!;
    pairs[keep]!.delete(drop);
    pairs[drop]!.delete(keep);
    const changed: Pair[] = [];
    for (const [other, moved] of pairs[drop]!) {
      pairs[other]!.delete(drop);
      const known = pairs[keep]!.get(other);
      if (known === undefined) {
        moved.a = Math.min(keep, other);
        moved.b = Math.max(keep, other);
        this.link(moved);
        changed.push(moved);
        continue;
      }
      moved.alive = false;
      const [more, less] =
        known.borders.length >= moved.borders.length
          ? [known.borders, moved.borders]
          : [moved.borders, known.borders];
      for (const i of less) more.push(i);
      known.borders = more;
      changed.push(known);
    }
    pairs[drop]!.clear();
    for (const one of changed) this.offer(one);
  }

  private describe(pair: Pair): void {
    const { a, b, borders } = pair;
    const { area, perimeter, outer, pairs, row, bestOf } = this;
    const { strokeWidth, widest, bridges } = this.task;
    const [lesser, greater] =
      area[a]! < area[b]! || (area[a] === area[b] && a < b) ? [a, b] : [b, a];
    bestOf.clear();
    let [pixels, longest, lengths, best] = [0, 0, 0, Number.NEGATIVE_INFINITY];
    for (const i of borders) {
      const border = this.task.borders[i]!;
      const { odds, group, length, width } = bridges[border.bridge]!;
      pixels += border.pixels;
      longest = Math.max(longest, length);
      lengths += (border.pixels * length) / width;
      best = Math.max(best, odds);
      const known = bestOf.get(group);
      if (known === undefined || odds > known) bestOf.set(group, odds);
    }
    let [sum, worst, doubts] = [0, Number.POSITIVE_INFINITY, 0];
    for (const odds of bestOf.values()) {
      sum += odds;
      worst = Math.min(worst, odds);
      doubts += Math.min(0, odds);
    }
    pair.sum = sum;
    const unit = strokeWidth;
    const p = perimeter[lesser]!;
    const less = this.others(lesser, greater);
    const more = this.others(greater, lesser);
    row[0] = bestOf.size;
    row[1] = sum;
    row[2] = best;
    row[3] = worst;
    row[4] = doubts;
    row[5] = pixels / unit;
    row[6] = longest / unit;
    row[7] = lengths / pixels;
    row[8] = pixels / p;
    row[9] = (less.pixels + pixels) / p;
    row[10] = (more.pixels + pixels) / perimeter[greater]!;
    row[11] = area[lesser]! / unit / unit;
    row[12] = area[greater]! / unit / unit;
    row[13] = (4 * area[lesser]!) / p / unit;
    row[14] = (4 * area[greater]!) / perimeter[greater]! / unit;
    row[15] = outer[lesser]!;
    row[16] = outer[greater]!;
    row[17] = pairs[lesser]!.size;
    row[18] = Math.min(OTHERS, pairs[greater]!.size);
    row[19] = less.best;
    row[20] = less.worst;
    row[21] = more.worst;
    row[22] = widest / unit;
    row[23] = this.meanOdds;
    row[24] = this.facesPerGap;
    row[25] = this.sureGaps;
    row[26] = this.shareOfSureGaps;
  }

  /** Best and worst sums of the pairs of a region other than one, and their pixels. */
  private others(region: number, without: number): { best: number; worst: number; pixels: number } {
    let [best, worst, pixels, seen] = [-20, 20, 0, 0];
    for (const [other, { borders, sum }] of this.pairs[region]!) {
      if (other === without) continue;
      if (++seen > OTHERS) break;
      best = Math.max(best, sum);
      worst = Math.min(worst, sum);
      for (let k = 0; k < borders.length && k < OTHERS; k++) {
        pixels += this.task.borders[borders[k]!]!.pixels;
      }
    }
    return { best, worst, pixels };
  }
}
