import type { Tick } from '../raster/progress.ts';
import type { Dense } from '../raster/types.ts';
import type { Packed } from '../runs/pack.ts';
import { ContactFinder } from './contacts.ts';
import type { Flood, Meetings } from './flood.ts';
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
): Found[] {
  const { meetings } = flood;
  const finder = new ContactFinder(ink);
  const found: Found[] = [];
  const loops: { meeting: number; from: number; to: number }[] = [];
  for (let i = 0; i < meetings.at.length; i++) {
    if (tick !== undefined && i % 512 === 0) tick((0.6 * i) / meetings.at.length);
    const at = meetings.at[i]!;
    const y = Math.floor(at / levels.stride) - 1;
    const x = at - (y + 1) * levels.stride;
    const radius = radiusOf(levels.level[at]!);
    const loop = meetings.highA[i] === 0;
    const opens = opensOf(meetings, i);
    if (!loop && opens[0] < LEAST_RATIO * radius) continue;
    finder.find(x, y, radius, meetings.arms[i]!);
    const { from, to } = finder;
    if (from < 0) continue;
    if (loop) loops.push({ meeting: i, from, to });
    else if (to >= 0) {
      const width = clearWidth(from, to, ink.width);
      found.push({ meeting: i, at: y * ink.width + x, from, to, width, opens, around: width });
    }
  }
  tick?.(0.6);
  const kept = loopsRoundInk(
    packed,
    loops.map((loop) => loop.from),
    loops.map((loop) => loop.to),
  );
  if (kept.length === 0) return found;
  tick?.(0.8);
  const ways = new Ways(levels, flood);
  tick?.(0.9);
  for (const k of kept) {
    const { meeting, from, to } = loops[k]!;
    const a = meetings.a[meeting]!;
    const b = meetings.b[meeting]!;
    const parting = ways.partingBetween(a, b);
    if (parting < 0) continue;
    const opens = opensOf(meetings, parting);
    const cell = meetings.at[meeting]!;
    const radius = radiusOf(levels.level[cell]!);
    if (opens[0] < LEAST_RATIO * radius) continue;
    const y = Math.floor(cell / levels.stride) - 1;
    const at = y * ink.width + cell - (y + 1) * levels.stride;
    const narrowest = radiusOf(levels.level[meetings.at[ways.narrowestBetween(a, b)]!]!);
    const width = clearWidth(from, to, ink.width);
    found.push({ meeting, at, from, to, width, opens, around: Math.max(width, 2 * narrowest - 1) });
  }
  return found.sort((p, q) => p.meeting - q.meeting);
}

function opensOf({ highA, highB }: Meetings, i: number): readonly [number, number] {
  const a = highA[i]!;
  const b = highB[i]!;
  return [radiusOf(Math.min(a, b)), radiusOf(Math.max(a, b))];
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
  private readonly opening: number[];

  constructor({ level }: Levels, { meetings, count }: Flood) {
    const { at, a, b, highA } = meetings;
    this.byWidth = new PathForest(count + 1);
    this.byOpening = new PathForest(count + 1);
    this.opening = [];
    for (let i = 0; i < a.length; i++) {
      if (highA[i] === 0) continue;
      this.byWidth.join(a[i]!, b[i]!, i);
      this.opening.push(i);
    }
    const ratios = Float64Array.from(at, (p, i) => opensOf(meetings, i)[0] / radiusOf(level[p]!));
    this.opening.sort((i, k) => ratios[i]! - ratios[k]! || i - k);
    this.opening.forEach((i, rank) => {
      this.byOpening.join(a[i]!, b[i]!, rank);
    });
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
