import type { Tick } from '../raster/progress.ts';
import { type Pair, PairHeap } from './pair-heap.ts';
import { type GraphInput, RegionGraph } from './region-graph.ts';
import { SEEN, SEPARATION, type Separation } from './separation.ts';

/** Faces of less than this, in stroke widths squared, are joined before all others. */
const SCRAP = 1;
/** What the log-odds of a border of a scrap are lowered by. */
const FIRST = 1000;
/**
 * A border of at most these log-odds (probability .98) does not keep what no mark names from the
 * marked region beside it; chosen on drawings of the tuning half with one point a region.
 */
const CLAIMED = 4;
/** Log-odds of a probability of 0.1: a less likely border keeps no two marks apart. */
export const LEAST_FORCED: number = -2.1972245773362196;

export interface Task extends GraphInput {
  readonly separation: Separation;
  /** Least log-odds of a border that stays. */
  readonly bias: number;
  /** Per face the group of its marks, 0 for none. */
  readonly marks: Int32Array;
  /** Per face 1 where something names it that is of no group: no region claims it. */
  readonly kept?: Uint8Array | undefined;
  /** Whether marked regions claim what no mark names. */
  readonly claim?: boolean | undefined;
  /** Whether that holds for what touches the picture's border too: a mark names the ground. */
  readonly groundMarked?: boolean | undefined;
  readonly tick?: Tick | undefined;
  /** What was seen first of the same faces, borders and bridges; put down where it is not known. */
  readonly first?: FirstLook | undefined;
}

/** Of all pairs, before any two are joined, the sums of their odds, and their keys. */
export interface FirstLook {
  known?: { readonly sums: readonly number[]; readonly keys: readonly number[] };
}

/** What a marked region, or the ground beside it, has claimed. */
export interface Claim {
  /** The faces that no mark names. */
  readonly faces: readonly number[];
  /** Log-odds of the border that was passed over. */
  readonly odds: number;
}

export interface Agglomerated {
  /** Region of each face. */
  readonly region: Int32Array;
  /** Per bridge the log-odds of the last pair that it lay between, the likelier of several. */
  readonly odds: Float64Array;
  /** Per bridge 1 where it lies between regions of different marks. */
  readonly apart: Uint8Array;
  readonly claims: readonly Claim[];
  /** What the border of two regions that are left was judged by; undefined where they have none. */
  between(a: number, b: number): Verdict | undefined;
}

/** How a border was judged last. */
interface Verdict {
  readonly odds: number;
  /** Whether the two regions are of different marks. */
  readonly apart: boolean;
}

/**
 * Joins faces into regions: of all pairs of neighbors the one is joined whose border is least likely
 * meant, until every border left has log-odds above `bias`; scraps go before all others. Borders
 * are judged anew when what lies on both sides changes (learned agglomeration: Nunez-Iglesias et al.
 * 2013, "Machine learning of hierarchical clustering to segment 2D and 3D images",
 * DOI 10.1371/journal.pone.0071715; the greedy order is that of Keuper et al. 2015, "Efficient
 * decomposition of image and mesh graphs by lifted multicuts", DOI 10.1109/ICCV.2015.204).
 *
 * Marked faces are seeds: regions of different marks are joined only at the end, and only where the
 * border between them is hardly likely at all. With `claim`, an unmarked region goes to the marked
 * one across its least certain border even where that is likelier meant than not, unless it is kept
 * or the ground, unmarked paper that touches the picture's border; to the ground across a less
 * certain border than to any marked region. Where marks name the ground, they alone say what it is.
 *
 * Regions are named by their least face. Near O(borders · log borders).
 */
export function agglomerate(task: Task): Agglomerated {
  return new Agglomeration(task).run();
}

/** The joining of faces; training derives from it to look on. */
export class Agglomeration {
  protected readonly task: Task;
  private readonly graph: RegionGraph;
  private readonly marks: Int32Array;
  private readonly kept: Uint8Array;
  private readonly heap: PairHeap = new PairHeap();
  private readonly row: Float64Array = new Float64Array(SEPARATION.length);
  private readonly odds: Float64Array;
  private readonly apart: Uint8Array;
  private readonly claims: Claim[] = [];
  private looked = 0;

  constructor(task: Task) {
    this.task = task;
    this.graph = new RegionGraph(task);
    this.marks = task.marks.slice();
    this.kept = task.kept?.slice() ?? new Uint8Array(task.faces.count + 1);
    this.apart = new Uint8Array(task.bridges.length);
    this.odds = new Float64Array(task.bridges.length).fill(Number.NEGATIVE_INFINITY);
  }

  run(): Agglomerated {
    const { graph } = this;
    this.lookFirst(this.task.first ?? {});
    this.takeAll((pair, odds) => this.decide(pair, odds));
    for (const pair of graph.all()) if (this.isMarkedApart(pair)) this.offer(pair);
    this.takeAll((pair, odds) => {
      if (!this.isMarkedApart(pair)) return;
      // A person says that something parts the two: the gap itself may speak for it, too.
      const likelier = Math.max(odds, this.row[SEEN.worstOdds]!);
      this.settle(pair, likelier);
      if (likelier < LEAST_FORCED) this.join(pair);
      else for (const i of pair.borders) this.apart[this.task.borders[i]!.bridge] = 1;
    });
    const { odds, apart, claims } = this;
    const region = graph.regions();
    const between = (a: number, b: number): Verdict | undefined => {
      const pair = graph.pairOf(a, b);
      return pair && { odds: pair.odds, apart: this.isMarkedApart(pair) };
    };
    return { region, odds, apart, claims, between };
  }

  /** Offers all pairs as they are before any two are joined. */
  private lookFirst(first: FirstLook): void {
    const { graph, row } = this;
    const pairs = [...graph.all()];
    const { known } = first;
    if (known === undefined) {
      // Sums of all pairs come first: a row looks at those of the neighbors.
      for (const pair of pairs) {
        graph.describe(pair, row);
        this.look();
      }
      const keys = pairs.map((pair) => {
        const key = this.keyOf(pair);
        this.put(pair, key);
        this.look();
        return key;
      });
      first.known = { sums: pairs.map(({ sum }) => sum), keys };
      return;
    }
    for (const [i, pair] of pairs.entries()) pair.sum = known.sums[i]!;
    for (const [i, pair] of pairs.entries()) this.put(pair, known.keys[i]!);
  }

  /** Takes pairs, least likely border first, as they are by then, until no changed one is left. */
  private takeAll(take: (pair: Pair, odds: number) => void): void {
    for (let entry = this.heap.pop(); entry !== undefined; entry = this.heap.pop()) {
      const { pair, state, key } = entry;
      if (!pair.alive || pair.state !== state) continue;
      // What lies behind the two may have changed since.
      const now = this.keyOf(pair);
      if (now > key + 1e-9) this.heap.push({ pair, state, key: now });
      else take(pair, now);
    }
  }

  private decide(pair: Pair, odds: number): void {
    if (this.isMarkedApart(pair)) return;
    this.settle(pair, odds);
    if (odds < this.task.bias) this.join(pair);
    else if (this.task.claim === true && odds < CLAIMED) this.claim(pair, odds);
  }

  /** Gives the unmarked region of a pair to the marked one. */
  private claim(pair: Pair, odds: number): void {
    const { marks, kept, graph } = this;
    const [named, other] = marks[pair.a]! > 0 ? [pair.a, pair.b] : [pair.b, pair.a];
    if (marks[named] === 0 || marks[other]! > 0 || kept[other] === 1) return;
    if (this.isGround(other)) return;
    for (const [beside, rival] of graph.pairs[other]!) {
      if (!this.isGround(beside)) continue;
      const less = this.keyOf(rival);
      if (less >= odds) continue;
      this.claims.push({ faces: graph.members(other), odds: less });
      this.join(rival);
      return;
    }
    this.claims.push({ faces: graph.members(other), odds });
    this.join(pair);
  }

  /** Unmarked paper that touches the picture's border, unless a mark says where the ground is. */
  private isGround(region: number): boolean {
    const { groundMarked = false } = this.task;
    return !groundMarked && this.graph.outer[region] === 1 && this.marks[region] === 0;
  }

  private isMarkedApart({ a, b }: Pair): boolean {
    return this.marks[a]! > 0 && this.marks[b]! > 0 && this.marks[a] !== this.marks[b];
  }

  /** Writes down what was decided by for the bridges of a pair. */
  private settle(pair: Pair, key: number): void {
    const odds = key < -FIRST / 2 ? key + FIRST : key;
    pair.odds = odds;
    for (const i of pair.borders) {
      const { bridge } = this.task.borders[i]!;
      this.odds[bridge] = Math.max(this.odds[bridge]!, odds);
    }
  }

  private offer(pair: Pair): void {
    this.put(pair, this.keyOf(pair));
    this.look();
  }

  private put(pair: Pair, key: number): void {
    pair.state++;
    this.heap.push({ pair, state: pair.state, key });
  }

  /** Counts the pairs that are looked at. */
  private look(): void {
    if (++this.looked % 16 !== 0) return;
    this.task.tick?.(Math.min(1, this.looked / (5 * this.task.borders.length)));
  }

  private keyOf(pair: Pair): number {
    const { strokeWidth } = this.task;
    const { area } = this.graph;
    this.graph.describe(pair, this.row);
    const isScrap = Math.min(area[pair.a]!, area[pair.b]!) < SCRAP * strokeWidth * strokeWidth;
    return isScrap ? this.task.separation(this.row) - FIRST : this.judge(pair, this.row);
  }

  /** Log-odds that the two regions of a pair are to stay apart, by what is seen at their border. */
  protected judge(_pair: Pair, row: Float64Array): number {
    return this.task.separation(row);
  }

  private join(pair: Pair): void {
    const { marks, kept, graph } = this;
    const { keep, drop, changed } = graph.join(pair);
    const becomesNamed = (marks[keep] === 0) !== (marks[drop] === 0);
    marks[keep] ||= marks[drop]!;
    kept[keep]! |= kept[drop]!;
    this.joined(keep, drop);
    // A region that a mark names from now on may claim whatever it borders on.
    const anew =
      this.task.claim === true && becomesNamed ? [...graph.pairs[keep]!.values()] : changed;
    for (const one of anew) this.offer(one);
  }

  /** Told that one region has become a part of another. */
  protected joined(_keep: number, _drop: number): void {}
}
