import { findRoot, singleSets } from '../runs/union.ts';
import type { Border } from './borders.ts';
import type { FaceMeasures } from './face-map.ts';
import type { Pair } from './pair-heap.ts';
import { SEEN } from './separation.ts';

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

/** What is known before any two faces are joined. */
export interface GraphInput {
  readonly faces: FaceMeasures;
  readonly borders: readonly Border[];
  readonly bridges: readonly Weighed[];
  /**
   * The bridges as they are where a person asks for nothing, which show how leaky the drawing is: a
   * correction here weighs nothing there. Left out, `bridges`.
   */
  readonly unasked?: readonly Pick<Weighed, 'odds' | 'group'>[] | undefined;
  /** Median and ninth decile of the stroke width, in pixels. */
  readonly strokeWidth: number;
  readonly widest: number;
}

/** Log-odds of a gap that counts as one of those that show how leaky the drawing is. */
const SURE = 1.5;
/** Looked at, at most, of the other borders of a region. */
const OTHERS = 32;

/** Regions of faces, with the pairs that border on one another, as faces are joined. */
export class RegionGraph {
  readonly count: number;
  readonly area: Float64Array;
  /** 1 where a region touches the border of the picture. */
  readonly outer: Uint8Array;
  /** Pairs of each region, by the other one; regions that never had one share a map that stays empty. */
  readonly pairs: Map<number, Pair>[];
  private readonly none: Map<number, Pair> = new Map();
  private readonly input: GraphInput;
  private readonly parent: Int32Array;
  private readonly least: Int32Array;
  private readonly perimeter: Float64Array;
  /** The faces of a region as a chain from the root on: the next one, 0 behind the last. */
  private readonly nextFace: Int32Array;
  private readonly lastFace: Int32Array;
  private readonly bestOf: Map<number, number> = new Map();
  private readonly meanOdds: number;
  private readonly facesPerGap: number;
  private readonly sureGaps: number;
  private readonly shareOfSureGaps: number;

  constructor(input: GraphInput) {
    const { faces, borders, bridges, unasked = bridges } = input;
    this.input = input;
    this.count = faces.count;
    this.parent = singleSets(faces.count + 1);
    this.least = this.parent.slice();
    this.lastFace = this.parent.slice();
    this.nextFace = new Int32Array(faces.count + 1);
    this.area = faces.area.slice();
    this.perimeter = faces.perimeter.slice();
    this.outer = faces.outer.slice();
    this.pairs = new Array<Map<number, Pair>>(faces.count + 1).fill(this.none);
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
      else this.link({ a, b, borders: [i], pixels: 0, sum: 0, odds: 0, state: 0, alive: true });
    });
    for (const pair of this.all()) this.measure(pair);
  }

  /** All pairs as they are, each once. */
  *all(): IterableIterator<Pair> {
    for (let region = 1; region <= this.count; region++) {
      for (const pair of this.pairs[region]!.values()) if (pair.a === region) yield pair;
    }
  }

  /** Region of each face: the least face of it. */
  regions(): Int32Array {
    return this.parent.map((_, face) => this.least[findRoot(this.parent, face)]!);
  }

  /** The pair of the regions of two faces. */
  pairOf(a: number, b: number): Pair | undefined {
    return this.pairs[findRoot(this.parent, a)]!.get(findRoot(this.parent, b));
  }

  /** Faces of a region. */
  members(region: number): number[] {
    const faces: number[] = [];
    for (let face = region; face !== 0; face = this.nextFace[face]!) faces.push(face);
    return faces;
  }

  /** Makes one region of a pair, the one with more neighbors; gives the pairs of it that changed. */
  join(pair: Pair): { keep: number; drop: number; changed: Pair[] } {
    const { pairs, parent, area, perimeter, outer, least } = this;
    const [keep, drop] =
      pairs[pair.a]!.size >= pairs[pair.b]!.size ? [pair.a, pair.b] : [pair.b, pair.a];
    pair.alive = false;
    let pixels = 0;
    for (const i of pair.borders) pixels += this.input.borders[i]!.pixels;
    parent[drop] = keep;
    least[keep] = Math.min(least[keep]!, least[drop]!);
    area[keep]! += area[drop]!;
    perimeter[keep] = Math.max(1, perimeter[keep]! + perimeter[drop]! - 2 * pixels);
    outer[keep]! |= outer[drop]!;
    this.nextFace[this.lastFace[keep]!] = drop;
    this.lastFace[keep] = this.lastFace[drop]!;
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
      this.measure(known);
      changed.push(known);
    }
    pairs[drop]!.clear();
    return { keep, drop, changed };
  }

  private link(pair: Pair): void {
    this.ownPairs(pair.a).set(pair.b, pair);
    this.ownPairs(pair.b).set(pair.a, pair);
  }

  private ownPairs(region: number): Map<number, Pair> {
    if (this.pairs[region] === this.none) this.pairs[region] = new Map();
    return this.pairs[region]!;
  }

  /** Writes what is seen at the border of a pair into a row of `SEPARATION`. */
  describe(pair: Pair, row: Float64Array): void {
    const { a, b, borders } = pair;
    const { area, perimeter, outer, pairs, bestOf } = this;
    const { strokeWidth: unit, widest, bridges } = this.input;
    const [lesser, greater] =
      area[a]! < area[b]! || (area[a] === area[b] && a < b) ? [a, b] : [b, a];
    if (bestOf.size > 0) bestOf.clear();
    let [pixels, longest, lengths, best] = [0, 0, 0, Number.NEGATIVE_INFINITY];
    for (const i of borders) {
      const border = this.input.borders[i]!;
      const { odds, group, length, width } = bridges[border.bridge]!;
      pixels += border.pixels;
      longest = Math.max(longest, length);
      lengths += (border.pixels * length) / width;
      best = Math.max(best, odds);
      if (borders.length === 1) break;
      const known = bestOf.get(group);
      if (known === undefined || odds > known) bestOf.set(group, odds);
    }
    // A border by itself is its only gap.
    let [sum, worst, doubts] =
      borders.length === 1 ? [best, best, Math.min(0, best)] : [0, Number.POSITIVE_INFINITY, 0];
    for (const odds of bestOf.values()) {
      sum += odds;
      worst = Math.min(worst, odds);
      doubts += Math.min(0, odds);
    }
    pair.sum = sum;
    const p = perimeter[lesser]!;
    const less = this.others(lesser, greater);
    const more = this.others(greater, lesser);
    row[SEEN.groups] = Math.max(1, bestOf.size);
    row[SEEN.sumOfOdds] = sum;
    row[SEEN.bestOdds] = best;
    row[SEEN.worstOdds] = worst;
    row[SEEN.sumOfDoubts] = doubts;
    row[SEEN.bridgedInStrokes] = pixels / unit;
    row[SEEN.longestInStrokes] = longest / unit;
    row[SEEN.meanLengthInWidths] = lengths / pixels;
    row[SEEN.shareOfLesserPerimeter] = pixels / p;
    row[SEEN.openLesser] = (less.pixels + pixels) / p;
    row[SEEN.openGreater] = (more.pixels + pixels) / perimeter[greater]!;
    row[SEEN.areaLesser] = area[lesser]! / unit / unit;
    row[SEEN.areaGreater] = area[greater]! / unit / unit;
    row[SEEN.thicknessLesser] = (4 * area[lesser]!) / p / unit;
    row[SEEN.thicknessGreater] = (4 * area[greater]!) / perimeter[greater]! / unit;
    row[SEEN.outerLesser] = outer[lesser]!;
    row[SEEN.outerGreater] = outer[greater]!;
    row[SEEN.bordersLesser] = pairs[lesser]!.size;
    row[SEEN.bordersGreater] = Math.min(OTHERS, pairs[greater]!.size);
    row[SEEN.otherBestLesser] = less.best;
    row[SEEN.otherWorstLesser] = less.worst;
    row[SEEN.otherWorstGreater] = more.worst;
    row[SEEN.widestStrokes] = widest / unit;
    row[SEEN.meanOdds] = this.meanOdds;
    row[SEEN.facesPerGap] = this.facesPerGap;
    row[SEEN.sureGaps] = this.sureGaps;
    row[SEEN.shareOfSureGaps] = this.shareOfSureGaps;
  }

  /** Best and worst sums of the pairs of a region other than one, and their pixels. */
  private others(region: number, without: number): { best: number; worst: number; pixels: number } {
    let [best, worst, pixels, seen] = [-20, 20, 0, 0];
    for (const pair of this.pairs[region]!.values()) {
      if (pair.a === without || pair.b === without) continue;
      if (++seen > OTHERS) break;
      best = Math.max(best, pair.sum);
      worst = Math.min(worst, pair.sum);
      pixels += pair.pixels;
    }
    return { best, worst, pixels };
  }

  /** Adds up the pixels of the first borders of a pair. */
  private measure(pair: Pair): void {
    const { borders } = pair;
    pair.pixels = 0;
    for (let k = 0; k < borders.length && k < OTHERS; k++) {
      pair.pixels += this.input.borders[borders[k]!]!.pixels;
    }
  }
}
