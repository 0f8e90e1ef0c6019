import type { Levels } from '../passages/levels.ts';
import { partOf, type Tick } from '../raster/progress.ts';
import type { Dense } from '../raster/types.ts';
import type { StrokeEnd } from '../strokes/stroke-ends.ts';
import type { StrokeWidth } from '../strokes/stroke-width.ts';
import { placesOf } from './columns.ts';
import { type Contact, ContactReader } from './contacts.ts';
import { buildEndGrid, type EndGrid, visitNear } from './end-grid.ts';
import type { InkPieces } from './ink-pieces.ts';
import { connectsNearby } from './local-ink.ts';
import { clearanceAt, opening } from './paper-opening.ts';
import { type Proposal, turnsBetween } from './proposals.ts';
import { rankRivals } from './rank-rivals.ts';
import { reducedPixel } from './reduced-ink.ts';

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
  'looseA',
  'looseB',
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
  'facing',
  'endsNear',
  'basinLess',
  'basinMore',
] as const;

/** Place of each of them in a row. */
export const COLUMN: Readonly<Record<(typeof EVIDENCE)[number], number>> =
  /* @__PURE__ */ placesOf(EVIDENCE);

/** What is known of a drawing when its proposals are looked at. */
export interface Drawing {
  readonly ink: Dense<Uint8Array>;
  /** The ink at 1 / `scale` of its size; the surroundings of contacts are looked at there. */
  readonly small: Dense<Uint8Array>;
  readonly scale: number;
  readonly ends: readonly StrokeEnd[];
  readonly stroke: StrokeWidth;
  /** Distances to the small ink. */
  readonly levels: Levels;
  readonly pieces: InkPieces;
}

/** Stands for what a contact without a stroke's end does not have. */
const NONE = -2;
/** Widths within which ends are counted. */
const NEARBY = 6;

/**
 * Visits proposals with a row of columns on each, in storage that the next one uses again.
 * O(proposals · stroke width²).
 */
export function gatherEvidence(
  drawing: Drawing,
  proposals: readonly Proposal[],
  visit: (row: Float64Array, k: number) => void,
  tick?: Tick,
): void {
  if (proposals.length === 0) return;
  const { ink, small, scale, ends, stroke, pieces } = drawing;
  const { width, height } = ink;
  const reader = new ContactReader(small, stroke.median / scale);
  const ranks = rankRivals(proposals, ends.length, NONE, partOf(tick, 0, 0.2));
  const unit = Math.max(1, stroke.median);
  const grid = buildEndGrid(ends, width, height, NEARBY * unit);
  const drawnLength = Math.max(1, pieces.inkPixels / unit / unit);
  const row = new Float64Array(EVIDENCE.length);
  proposals.forEach((proposal, k) => {
    if (tick !== undefined && k % 16 === 0) tick(0.2 + (0.8 * k) / proposals.length);
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
    const left = opening(drawing, midX, midY, -uy, ux, half);
    const right = opening(drawing, midX, midY, uy, -ux, half);
    const piece = pieces.of(fromX, fromY);
    const other = pieces.of(toX, toY);
    const lesser = Math.min(pieces.area(piece), pieces.area(other));
    const radius = Math.ceil(Math.min(1.5 * length + unit, 8 * unit) / scale);
    const smallFrom = reducedPixel(small, fromX, fromY, scale);
    const smallTo = reducedPixel(small, toX, toY, scale);
    const edge = Math.min(midX, midY, width - 1 - midX, height - 1 - midY);
    row[COLUMN.lengthInStrokes] = length / unit;
    row[COLUMN.lengthInWidthsA] = length / a.width;
    row[COLUMN.lengthInWidthsB] = length / b.width;
    row[COLUMN.widthMatch] = Math.min(a.width, b.width) / Math.max(a.width, b.width);
    row[COLUMN.widthA] = a.width / unit;
    row[COLUMN.widthB] = b.width / unit;
    row[COLUMN.turnA] = a.turn;
    row[COLUMN.turnB] = b.turn;
    row[COLUMN.leanA] = a.lean;
    row[COLUMN.leanB] = b.lean;
    row[COLUMN.sizeOfLeanA] = a.sizeOfLean;
    row[COLUMN.sizeOfLeanB] = b.sizeOfLean;
    row[COLUMN.nearA] = a.contact.near;
    row[COLUMN.nearB] = b.contact.near;
    row[COLUMN.farA] = a.contact.far;
    row[COLUMN.farB] = b.contact.far;
    row[COLUMN.otherA] = a.contact.other;
    row[COLUMN.otherB] = b.contact.other;
    row[COLUMN.taperA] = a.taper;
    row[COLUMN.taperB] = b.taper;
    row[COLUMN.reachA] = a.reach;
    row[COLUMN.reachB] = b.reach;
    row[COLUMN.looseA] = a.loose;
    row[COLUMN.looseB] = b.loose;
    row[COLUMN.rankA] = a.rank;
    row[COLUMN.rankB] = b.rank;
    row[COLUMN.ratioA] = a.ratio;
    row[COLUMN.ratioB] = b.ratio;
    row[COLUMN.onePiece] = piece === other ? 1 : 0;
    row[COLUMN.lesserPiece] = lesser / unit / unit;
    row[COLUMN.connectsNearby] =
      piece === other && connectsNearby(small, smallFrom, smallTo, radius) ? 1 : 0;
    row[COLUMN.opensLess] = Math.min(left, right);
    row[COLUMN.opensMore] = Math.max(left, right);
    row[COLUMN.around] = passage === undefined ? NONE : passage.around / Math.max(1, passage.width);
    row[COLUMN.clearance] = clearanceAt(drawing, midX, midY) / half;
    row[COLUMN.widestStrokes] = stroke.p90 / unit;
    row[COLUMN.finestStrokes] = stroke.p10 / unit;
    row[COLUMN.endsPerLength] = ends.length / drawnLength;
    row[COLUMN.border] = Math.min(10, edge / half);
    row[COLUMN.facing] = facing(ends[proposal.a], ends[proposal.b]);
    row[COLUMN.endsNear] = countNear(grid, ends, midX, midY, NEARBY * unit);
    row[COLUMN.basinLess] = passage === undefined ? NONE : Math.min(40, passage.opens[0] / half);
    row[COLUMN.basinMore] = passage === undefined ? NONE : Math.min(40, passage.opens[1] / half);
    visit(row, k);
  });
}

interface Side {
  readonly contact: Contact;
  /** Of the stroke behind the contact, in pixels. */
  readonly width: number;
  readonly atEnd: boolean;
  readonly turn: number;
  readonly lean: number;
  readonly sizeOfLean: number;
  readonly taper: number;
  readonly reach: number;
  readonly loose: number;
  rank: number;
  ratio: number;
}

/** One side of a proposal, with the unit vector from its contact into the paper. */
function side(
  { ink, small, scale, ends }: Drawing,
  reader: ContactReader,
  { from, to, a, b }: Proposal,
  first: boolean,
  ux: number,
  uy: number,
): Side {
  const [mine, opposite] = first ? [a, b] : [b, a];
  const end = ends[mine];
  const pixel = first ? from : to;
  const [x, y] = [pixel % ink.width, Math.floor(pixel / ink.width)];
  const contact = reader.at(reducedPixel(small, x, y, scale), end && end.width / scale);
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
    width: contact.width * scale,
    atEnd: end !== undefined,
    turn,
    lean,
    sizeOfLean: size,
    taper: end?.taper ?? NONE,
    reach: end === undefined ? NONE : end.reach / Math.max(1, end.width),
    loose: end === undefined ? NONE : end.loose ? 1 : 0,
    rank: NONE,
    ratio: NONE,
  };
}

/** Cosine of the angle by which two ends miss running in one line. */
function facing(a: StrokeEnd | undefined, b: StrokeEnd | undefined): number {
  if (a === undefined || b === undefined) return NONE;
  return -(a.direction[0] * b.direction[0] + a.direction[1] * b.direction[1]);
}

function countNear(
  grid: EndGrid,
  ends: readonly StrokeEnd[],
  x: number,
  y: number,
  radius: number,
): number {
  let count = 0;
  visitNear(grid, x, y, (e) => {
    const [dx, dy] = [ends[e]!.x - x, ends[e]!.y - y];
    if (dx * dx + dy * dy <= radius * radius) count++;
  });
  return count;
}
