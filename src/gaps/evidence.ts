import type { StrokeEnd } from '../ink/stroke-ends.ts';
import type { StrokeWidth } from '../ink/stroke-width.ts';
import type { Dense } from '../raster/types.ts';
import { type Contact, ContactReader } from './contacts.ts';
import type { InkPieces } from './ink-pieces.ts';
import { connectsNearby } from './local-ink.ts';
import { type Levels, radiusOf } from './passage-levels.ts';
import { type Proposal, turnsBetween } from './proposals.ts';

/**
 * What is seen at a proposal, none of it in pixels. Columns in pairs are of both contacts: first the
 * one at a stroke's end, of two such or none the one with less ink around.
 */
export const EVIDENCE = [
  'lengthInStrokes',
  'lengthInWidthsA',
  'lengthInWidthsB',
  'widthMatch',
  'widthA',
  'widthB',
  'turnA',
  'turnB',
  'leanA',
  'leanB',
  'sizeOfLeanA',
  'sizeOfLeanB',
  'nearA',
  'nearB',
  'farA',
  'farB',
  'otherA',
  'otherB',
  'taperA',
  'taperB',
  'reachA',
  'reachB',
  'rankA',
  'rankB',
  'ratioA',
  'ratioB',
  'onePiece',
  'lesserPiece',
  'connectsNearby',
  'opensLess',
  'opensMore',
  'around',
  'clearance',
  'widestStrokes',
  'finestStrokes',
  'endsPerLength',
  'border',
] as const;

/** What is known of a drawing when its proposals are looked at. */
export interface Drawing {
  readonly ink: Dense<Uint8Array>;
  readonly ends: readonly StrokeEnd[];
  readonly stroke: StrokeWidth;
  readonly levels: Levels;
  readonly pieces: InkPieces;
}

/** Stands for what a contact without a stroke's end does not have. */
const NONE = -2;
/** Half widths of a proposal at which the paper beside its middle is looked at. */
const STEPS = [1, 1.5, 2, 3, 4, 6];

/** One row of columns per proposal. O(proposals · stroke width²). */
export function gatherEvidence(drawing: Drawing, proposals: readonly Proposal[]): Float64Array {
  const { ink, ends, stroke, pieces, levels } = drawing;
  const { width, height } = ink;
  const reader = new ContactReader(ink, stroke.median);
  const ranks = rankRivals(proposals, ends.length);
  const unit = Math.max(1, stroke.median);
  const drawnLength = Math.max(1, pieces.inkPixels / unit / unit);
  const rows = new Float64Array(proposals.length * EVIDENCE.length);
  let at = 0;
  proposals.forEach((proposal, k) => {
    const { from, to, length, passage } = proposal;
    const [fromX, fromY] = [from % width, Math.floor(from / width)];
    const [toX, toY] = [to % width, Math.floor(to / width)];
    const [ux, uy] = [(toX - fromX) / length, (toY - fromY) / length];
    const one = side(drawing, reader, proposal, true, ux, uy);
    const two = side(drawing, reader, proposal, false, -ux, -uy);
    one.rank = ranks.rank[2 * k]!;
    one.ratio = ranks.ratio[2 * k]!;
    two.rank = ranks.rank[2 * k + 1]!;
    two.ratio = ranks.ratio[2 * k + 1]!;
    const swap = two.atEnd !== one.atEnd ? two.atEnd : two.contact.near < one.contact.near;
    const [a, b] = swap ? [two, one] : [one, two];
    const half = Math.max(0.5, length / 2);
    const [midX, midY] = [(fromX + toX) / 2, (fromY + toY) / 2];
    const left = opening(levels, midX, midY, -uy, ux, half);
    const right = opening(levels, midX, midY, uy, -ux, half);
    const piece = pieces.of(fromX, fromY);
    const other = pieces.of(toX, toY);
    const lesser = Math.min(pieces.area(piece), pieces.area(other));
    const radius = Math.ceil(Math.min(1.5 * length + unit, 8 * unit));
    const edge = Math.min(midX, midY, width - 1 - midX, height - 1 - midY);
    const values: number[] = [
      length / unit,
      length / a.contact.width,
      length / b.contact.width,
      Math.min(a.contact.width, b.contact.width) / Math.max(a.contact.width, b.contact.width),
      a.contact.width / unit,
      b.contact.width / unit,
      a.turn,
      b.turn,
      a.lean,
      b.lean,
      a.sizeOfLean,
      b.sizeOfLean,
      a.contact.near,
      b.contact.near,
      a.contact.far,
      b.contact.far,
      a.contact.other,
      b.contact.other,
      a.taper,
      b.taper,
      a.reach,
      b.reach,
      a.rank,
      b.rank,
      a.ratio,
      b.ratio,
      piece === other ? 1 : 0,
      lesser / unit / unit,
      piece === other && connectsNearby(ink, from, to, radius) ? 1 : 0,
      Math.min(left, right),
      Math.max(left, right),
      passage === undefined ? NONE : passage.around / Math.max(1, passage.width),
      clearanceAt(levels, midX, midY) / half,
      stroke.p90 / unit,
      stroke.p10 / unit,
      ends.length / drawnLength,
      Math.min(10, edge / half),
    ];
    rows.set(values, at);
    at += EVIDENCE.length;
  });
  return rows;
}

interface Side {
  readonly contact: Contact;
  readonly atEnd: boolean;
  readonly turn: number;
  readonly lean: number;
  readonly sizeOfLean: number;
  readonly taper: number;
  readonly reach: number;
  rank: number;
  ratio: number;
}

/** One side of a proposal, with the unit vector from its contact into the paper. */
function side(
  { ends }: Drawing,
  reader: ContactReader,
  { from, to, a, b }: Proposal,
  first: boolean,
  ux: number,
  uy: number,
): Side {
  const [mine, opposite] = first ? [a, b] : [b, a];
  const end = ends[mine];
  const contact = reader.at(first ? from : to, end?.width);
  const size = Math.sqrt(contact.leanX * contact.leanX + contact.leanY * contact.leanY);
  const lean = size === 0 ? 0 : -(contact.leanX * ux + contact.leanY * uy) / size;
  let turn = NONE;
  if (end !== undefined) {
    const facing = ends[opposite];
    if (facing !== undefined) turn = turnsBetween(end, facing)[0];
    else turn = end.direction[0] * ux + end.direction[1] * uy;
  }
  return {
    contact,
    atEnd: end !== undefined,
    turn,
    lean,
    sizeOfLean: size,
    taper: end?.taper ?? NONE,
    reach: end === undefined ? NONE : end.reach / Math.max(1, end.width),
    rank: NONE,
    ratio: NONE,
  };
}

/** How many proposals of an end are shorter, and a proposal's length beside the shortest of them. */
function rankRivals(
  proposals: readonly Proposal[],
  ends: number,
): { rank: Float64Array; ratio: Float64Array } {
  const rank = new Float64Array(2 * proposals.length).fill(NONE);
  const ratio = new Float64Array(2 * proposals.length).fill(NONE);
  const order = Int32Array.from(proposals, (_, k) => k).sort(
    (p, q) => proposals[p]!.length - proposals[q]!.length || p - q,
  );
  const seen = new Int32Array(ends);
  const shortest = new Float64Array(ends);
  for (const k of order) {
    const { a, b, length } = proposals[k]!;
    for (const [place, end] of [
      [2 * k, a],
      [2 * k + 1, b],
    ] as const) {
      if (end < 0) continue;
      if (seen[end] === 0) shortest[end] = length;
      rank[place] = seen[end]!++;
      ratio[place] = length / shortest[end]!;
    }
  }
  return { rank, ratio };
}

/** How far the paper opens on one side of a proposal, in half lengths of it. */
function opening(
  levels: Levels,
  x: number,
  y: number,
  dx: number,
  dy: number,
  half: number,
): number {
  let widest = 0;
  for (const step of STEPS) {
    const clear = clearanceAt(levels, x + step * half * dx, y + step * half * dy);
    if (clear === 0) break;
    widest = Math.max(widest, clear);
  }
  return widest / half;
}

/** Distance to ink; 0 outside the picture. */
function clearanceAt({ level, stride, width, height }: Levels, x: number, y: number): number {
  const u = Math.round(x);
  const v = Math.round(y);
  if (u < 0 || v < 0 || u >= width || v >= height) return 0;
  return radiusOf(level[(v + 1) * stride + u]!);
}
