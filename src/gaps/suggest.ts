import { measureLevels } from '../passages/levels.ts';
import type { PassageList } from '../passages/list.ts';
import { findPassages } from '../passages/tree.ts';
import { type Packed, packMask } from '../raster/pack.ts';
import { partOf, type Tick } from '../raster/progress.ts';
import type { Scratch } from '../raster/scratch.ts';
import type { Bounds, Dense } from '../raster/types.ts';
import type { StrokeEnd } from '../strokes/stroke-ends.ts';
import type { StrokeWidth } from '../strokes/stroke-width.ts';
import type { Candidate } from './bridge.ts';
import { COLUMN, type Drawing, EVIDENCE, gatherEvidence } from './evidence.ts';
import { InkPieces } from './ink-pieces.ts';
import { KnownOdds } from './known-odds.ts';
import { CLOSURE, LOCAL } from './model.ts';
import { oddsOfPale, paleInk } from './pale-ink.ts';
import { type Proposal, propose } from './proposals.ts';
import { enlargePassages, reduceInk, reductionFor } from './reduced-ink.ts';
import { SEEN, SEPARATION } from './separation.ts';
import { paperBetween } from './span-gap.ts';
import { Texture } from './texture.ts';
import { oddsOf, type Trees, unpackTrees } from './trees.ts';
import type { Looked } from './view.ts';

/** Proposals are at most so many median stroke widths long, and some pixels. */
const REACH = 8;
const MORE_REACH = 6;

/** What proposals are judged by. O(pixels). */
export function lookAtDrawing(
  ink: Dense<Uint8Array>,
  packed: Packed,
  ends: readonly StrokeEnd[],
  stroke: StrokeWidth,
  tick?: Tick,
): Drawing {
  const scale = reductionFor(stroke.median);
  const small = scale === 1 ? ink : reduceInk(packed, scale, partOf(tick, 0, 0.3));
  const levels = measureLevels(small.data, small.width, small.height, partOf(tick, 0.3, 0.9));
  const pieces = new InkPieces(packed, partOf(tick, 0.9, 1));
  return { ink, small, scale, ends, stroke, levels, pieces };
}

/** The same, and the passages of the drawing. */
function surveyDrawing(
  ink: Dense<Uint8Array>,
  packed: Packed,
  ends: readonly StrokeEnd[],
  stroke: StrokeWidth,
  tick?: Tick,
  scratch?: Scratch,
): { drawing: Drawing; passages: PassageList } {
  const scale = reductionFor(stroke.median);
  const small = scale === 1 ? ink : reduceInk(packed, scale, partOf(tick, 0, 0.07), scratch);
  const smallPacked = scale === 1 ? packed : packMask(small, 'ink', partOf(tick, 0.07, 0.14));
  const surveying = partOf(tick, 0.14, 0.95);
  const { levels, found } = findPassages(small, smallPacked, surveying, scratch);
  const passages = enlargePassages(found, ink, small, scale);
  const pieces = new InkPieces(packed, partOf(tick, 0.95, 1));
  return { drawing: { ink, small, scale, ends, stroke, levels, pieces }, passages };
}

/** All that may be a gap of a drawing but for what lies in texture, and what it is judged by. */
export function suggestBridges(
  ink: Dense<Uint8Array>,
  packed: Packed,
  ends: readonly StrokeEnd[],
  stroke: StrokeWidth,
  tick?: Tick,
  scratch?: Scratch,
): { drawing: Drawing; proposals: Proposal[]; texture: Bounds[] } {
  const surveying = partOf(tick, 0, 0.8);
  const { drawing, passages } = surveyDrawing(ink, packed, ends, stroke, surveying, scratch);
  const reach = REACH * stroke.median + MORE_REACH;
  const size = [ink.width, ink.height] as const;
  const counting = partOf(tick, 0.8, 0.85);
  const texture = new Texture(size, stroke.median, ends, passages, reach, counting);
  const proposals = propose(ink, ends, passages, reach, texture, partOf(tick, 0.85, 1));
  return { drawing, proposals, texture: texture.bounds() };
}

/** Less likely ones are no candidates. */
const PLAUSIBLE = -4;

/**
 * The plausible ones as candidates, likeliest first; ties to the shorter, then to the first found; and
 * where there is texture.
 */
export function suggestCandidates(
  ink: Dense<Uint8Array>,
  packed: Packed,
  ends: readonly StrokeEnd[],
  stroke: StrokeWidth,
  gray: Looked | undefined,
  tick?: Tick,
  scratch?: Scratch,
): { candidates: Candidate[]; texture: Bounds[] } {
  const margin = Math.ceil(stroke.median / 2);
  const found = suggestBridges(ink, packed, ends, stroke, partOf(tick, 0, 0.8), scratch);
  const { drawing, proposals, texture } = found;
  const unit = Math.max(1, stroke.median);
  const candidates: Candidate[] = [];
  const look = (row: Float64Array, k: number): void => {
    const { from, to, length, a, b } = proposals[k]!;
    const pale = gray && paleInk(gray, from, to, paperBetween(ink, from, to), margin);
    const odds = oddsOf(local(), row, 0) + oddsOfPale(pale, length);
    if (odds < PLAUSIBLE) return;
    const [fromX, fromY] = [from % ink.width, Math.floor(from / ink.width)];
    const [toX, toY] = [to % ink.width, Math.floor(to / ink.width)];
    const width = (unit * (row[COLUMN.widthA]! + row[COLUMN.widthB]!)) / 2;
    const plain = describe(row, length / width);
    const darkness = pale === undefined ? 0 : Math.round((100 * pale.mean) / 255);
    const seen = darkness < 1 ? plain : `${plain}, pale ink of ${darkness} % between`;
    const pixels = paperBetween(ink, from, to);
    candidates.push({ fromX, fromY, toX, toY, length, width, odds, seen, a, b, pixels });
  };
  gatherEvidence(drawing, proposals, look, partOf(tick, 0.8, 1));
  candidates.sort((p, q) => q.odds - p.odds || p.length - q.length);
  return { candidates, texture };
}

/** Log-odds of proposals, whose ends are no ends of strokes, each as if it were alone. */
export function judgeProposals(
  drawing: Drawing,
  proposals: readonly Proposal[],
  tick?: Tick,
): number[] {
  const odds: number[] = [];
  gatherEvidence(drawing, proposals, (row) => odds.push(oddsOf(local(), row, 0)), tick);
  return odds;
}

/** Log-odds that a pair of regions is to stay apart. */
export function separationOf(row: Float64Array): number {
  return oddsOf(closure(), row, 0);
}

/** The same, for rows that come again, most of them as they were. */
export function knownSeparations(): KnownOdds {
  const names = [
    'areaLesser',
    'bridgedInStrokes',
    'sumOfOdds',
    'openLesser',
    'bordersLesser',
    'bordersGreater',
    'otherBestLesser',
    'otherWorstLesser',
    'otherWorstGreater',
  ] as const;
  const telling = names.map((name) => SEEN[name]);
  return new KnownOdds(closure(), SEPARATION.length, telling);
}

/** What is seen at a proposal, in plain words; it is so many widths long. */
function describe(row: Float64Array, widths: number): string {
  const rounded = Math.round(10 * widths) / 10;
  const far = `${rounded} stroke ${rounded === 1 ? 'width' : 'widths'} away`;
  const [turnA, turnB] = [row[COLUMN.turnA]!, row[COLUMN.turnB]!];
  if (turnA < -1) return `two strokes come near, ${far}`;
  if (turnB < -1) {
    return `a stroke ${far} lies ${turnA > 0.96 ? 'straight ahead' : 'aside'}`;
  }
  const worst = Math.min(turnA, turnB);
  if (worst > 0.96) return `two ends face each other, ${far}`;
  return worst > 0.7 ? `two ends bend towards each other, ${far}` : `two ends stand askew, ${far}`;
}

let [localTrees, closureTrees]: (Trees | undefined)[] = [];

/** The fitted trees, unpacked when they are first asked for. */
function local(): Trees {
  localTrees ??= unpackTrees(LOCAL, EVIDENCE);
  return localTrees;
}

function closure(): Trees {
  closureTrees ??= unpackTrees(CLOSURE, SEPARATION);
  return closureTrees;
}
