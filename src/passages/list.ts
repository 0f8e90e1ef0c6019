import { IntList } from '../raster/int-list.ts';
import { orderOf } from '../raster/order.ts';
import type { Packed } from '../raster/pack.ts';
import { partOf, type Tick } from '../raster/progress.ts';
import type { Dense } from '../raster/types.ts';
import { ContactFinder } from './contacts.ts';
import { type Flood, type Meetings, TICK_MEETINGS } from './flood.ts';
import { type Levels, radiusOf } from './levels.ts';
import { loopsRoundInk } from './loops.ts';
import { PathForest } from './path-forest.ts';

/** Paper that opens by less than this, in half widths of the passage to it, is part of the passage. */
export const LEAST_RATIO = 1.25;

/** A narrow place between two basins. */
export interface Found {
  /** Number of the meeting. */
  readonly meeting: number;
  /** Pixel of the meeting, as an index of the picture. */
  readonly at: number;
  /** Its contacts, as indices of the ink. */
  readonly from: number;
  readonly to: number;
  readonly width: number;
  /** How far the paper opens on both sides, the lesser first. */
  readonly opens: readonly [number, number];
  readonly around: number;
}

/** Passages in the order of the flood; each is made when it is asked for, and takes 20 bytes till then. */
export class FoundList {
  readonly length: number;
  private readonly levels: Levels;
  private readonly meetings: Meetings;
  private readonly columns: Columns;

  constructor(levels: Levels, meetings: Meetings, columns: Columns, length: number) {
    this.length = length;
    this.levels = levels;
    this.meetings = meetings;
    this.columns = columns;
  }

  get(i: number): Found {
    const { meetings, columns } = this;
    const { level, stride, width } = this.levels;
    const meeting = columns.meeting[i]!;
    const from = columns.from[i]!;
    const to = columns.to[i]!;
    const cell = meetings.at[meeting]!;
    const y = Math.floor(cell / stride) - 1;
    const clear = clearWidth(from, to, width);
    const narrowest = columns.narrowest[i]!;
    const round = narrowest < 0 ? 0 : 2 * radiusOf(level[meetings.at[narrowest]!]!) - 1;
    return {
      meeting,
      at: y * width + cell - (y + 1) * stride,
      from,
      to,
      width: clear,
      opens: opensOf(meetings, columns.parting[i]!),
      around: Math.max(clear, round),
    };
  }

  all(): Found[] {
    return Array.from({ length: this.length }, (_, i) => this.get(i));
  }
}

/** Passages that are made when they are asked for. */
export type PassageList = Pick<FoundList, 'length' | 'get'>;

/** What tells a passage, by its place in the list. */
interface Columns {
  readonly meeting: Int32Array;
  /** Its contacts. */
  readonly from: Int32Array;
  readonly to: Int32Array;
  /** The meeting that parts its two sides best: its own, but for one that closes a loop. */
  readonly parting: Int32Array;
  /** The narrowest meeting on the other way from side to side; -1 where there is none. */
  readonly narrowest: Int32Array;
}

/**
 * The passages among the meetings of a flood, in the order of the flood. Those of the merge tree
 * open out by what lies on their two sides. One that closes a loop round ink joins sides that are
 * joined another way, too; they are looked at with that way closed where this parts them best.
 *
 * O((meetings + basins) · log) and the rings of the contacts, which do not overlap much.
 */
export function listPassages(
  ink: Dense<Uint8Array>,
  packed: Packed,
  levels: Levels,
  flood: Flood,
  tick?: Tick,
): FoundList {
  const { level, stride } = levels;
  const { meetings } = flood;
  const finder = new ContactFinder(ink);
  const [meeting, from, to] = [new IntList(), new IntList(), new IntList()];
  const loops = new IntList();
  for (let i = 0; i < meetings.at.length; i++) {
    if (tick !== undefined && i % 512 === 0) tick((0.6 * i) / meetings.at.length);
    const at = meetings.at[i]!;
    const radius = radiusOf(level[at]!);
    const loop = meetings.highA[i] === 0;
    if (!loop && leastOpening(meetings, i) < LEAST_RATIO * radius) continue;
    const y = Math.floor(at / stride) - 1;
    finder.find(at - (y + 1) * stride, y, radius, meetings.arms[i]!);
    if (finder.from < 0 || (!loop && finder.to < 0)) continue;
    if (loop) loops.push(meeting.length);
    meeting.push(i);
    from.push(finder.from);
    to.push(finder.to);
  }
  const own = loops.trimmed();
  const round = loopsRoundInk(
    packed,
    own.map((k) => from.data[k]!),
    own.map((k) => to.data[k]!),
    partOf(tick, 0.6, 0.8),
  );
  const ways = round.length === 0 ? undefined : new Ways(levels, flood, partOf(tick, 0.8, 0.95));
  const parting = new Int32Array(meeting.length);
  const narrowest = new Int32Array(meeting.length);
  let kept = 0;
  let next = 0;
  for (let k = 0; k < meeting.length; k++) {
    if (tick !== undefined && k % 4096 === 0) tick(0.95 + (0.05 * k) / meeting.length);
    const i = meeting.data[k]!;
    let part = i;
    let narrow = -1;
    if (meetings.highA[i] === 0) {
      if (ways === undefined || next === round.length || own[round[next]!] !== k) continue;
      next++;
      const a = meetings.a[i]!;
      const b = meetings.b[i]!;
      part = ways.partingBetween(a, b);
      const radius = radiusOf(level[meetings.at[i]!]!);
      if (part < 0 || leastOpening(meetings, part) < LEAST_RATIO * radius) continue;
      narrow = ways.narrowestBetween(a, b);
    }
    meeting.data[kept] = i;
    from.data[kept] = from.data[k]!;
    to.data[kept] = to.data[k]!;
    parting[kept] = part;
    narrowest[kept++] = narrow;
  }
  const columns = { meeting: meeting.data, from: from.data, to: to.data, parting, narrowest };
  return new FoundList(levels, meetings, columns, kept);
}

function opensOf({ highA, highB }: Meetings, i: number): readonly [number, number] {
  const a = highA[i]!;
  const b = highB[i]!;
  return [radiusOf(Math.min(a, b)), radiusOf(Math.max(a, b))];
}

function leastOpening({ highA, highB }: Meetings, i: number): number {
  return radiusOf(Math.min(highA[i]!, highB[i]!));
}

/** Paper between two ink pixels: the pixels across, where they lie in one row or column. */
function clearWidth(from: number, to: number, width: number): number {
  const dx = (to % width) - (from % width);
  const dy = Math.floor(to / width) - Math.floor(from / width);
  return Math.sqrt(dx * dx + dy * dy) - 1;
}

/** The ways from basin to basin over the merge tree. */
class Ways {
  private readonly byWidth: PathForest;
  private readonly byOpening: PathForest;
  /** Meetings of the tree, by how much wider than themselves the paper gets on both sides. */
  private readonly opening: Int32Array;

  constructor({ level }: Levels, { meetings, count }: Flood, tick?: Tick) {
    const { at, a, b, highA } = meetings;
    this.byWidth = new PathForest(count + 1);
    this.byOpening = new PathForest(count + 1);
    const tree = new IntList();
    const ratios = new Float64Array(a.length);
    for (let i = 0; i < a.length; i++) {
      if (tick !== undefined && i % TICK_MEETINGS === 0) tick((0.4 * i) / a.length);
      if (highA[i] === 0) continue;
      this.byWidth.join(a[i]!, b[i]!, i);
      ratios[tree.length] = leastOpening(meetings, i) / radiusOf(level[at[i]!]!);
      tree.push(i);
    }
    const order = orderOf(ratios.subarray(0, tree.length), partOf(tick, 0.4, 0.7));
    this.opening = order.map((k) => tree.data[k]!);
    for (let rank = 0; rank < order.length; rank++) {
      if (tick !== undefined && rank % TICK_MEETINGS === 0) tick(0.7 + (0.3 * rank) / order.length);
      const i = this.opening[rank]!;
      this.byOpening.join(a[i]!, b[i]!, rank);
    }
  }

  /** The meeting on the way that parts it best; -1 within one basin. */
  partingBetween(a: number, b: number): number {
    return this.opening[this.byOpening.lastBetween(a, b)] ?? -1;
  }

  /** The narrowest meeting on the way. */
  narrowestBetween(a: number, b: number): number {
    return this.byWidth.lastBetween(a, b);
  }
}
