import { fillNearest } from '../distance/nearest-label.ts';
import { packMask } from '../raster/pack.ts';
import { TICK_ROWS, type Tick } from '../raster/progress.ts';
import type { Bounds } from '../raster/types.ts';
import { labelPacked } from './label.ts';

/** A region of a label raster, and what may part it. */
export interface DivideInput {
  readonly labels: Int32Array;
  readonly width: number;
  readonly bounds: Readonly<Bounds>;
  /** Region that may fall apart; all its pixels lie within the bounds. */
  readonly id: number;
  /** Whether a pixel within the bounds, by number, counts before; left out, all were connected. */
  readonly isBefore?: ((pixel: number) => boolean) | undefined;
  /** Pixels of a line that parts the region; of any place in the raster. */
  readonly line?: Int32Array | undefined;
  /** First id that is free. */
  readonly nextId: number;
}

/**
 * Renumbers the pieces into which a region falls. Changes `labels`; gives the next free id, and how
 * many parts there were before.
 *
 * Pixels are connected by their 4 neighbors; afterwards those are that still have the region's id and
 * are not on the line. Of each part before, the largest piece that is left keeps the region's id (a
 * tie goes to the one whose first pixel comes first, row by row); the other pieces get new ids in the
 * order of their first pixels. Pixels of the region that are in no piece go to the piece whose
 * nearest pixel is nearest, by Euclid, ties to the piece that comes first. So parts that were apart
 * before keep their common id.
 *
 * O(pixels of the bounds), 10 bytes for each.
 *
 * @throws RangeError, before anything is changed, where the new ids are more than Int32 holds.
 */
export function divideRegion(input: DivideInput, tick?: Tick): { nextId: number; parts: number } {
  const { labels, width, bounds, id, isBefore } = input;
  const [x0, y0, x1, y1] = bounds;
  const columns = x1 - x0;
  const { before, after, lost } = masksOf(input, tick);
  const pieces = new Int32Array(columns * (y1 - y0));
  const count = label(after, columns, pieces, tick);
  const parts = new Int32Array(isBefore === undefined ? 0 : pieces.length);
  const partCount = isBefore === undefined ? 1 : label(before, columns, parts, tick);
  const same = { nextId: input.nextId, parts: partCount };
  if (count === partCount && (isBefore === undefined || samePieces(pieces, parts))) return same;
  const named = nameThem(pieces, count, parts, partCount, id, input.nextId);
  if (named.nextId === input.nextId) return same;
  if (lost) fillNearest(pieces, columns, y1 - y0, tick);
  for (let y = y0, i = 0; y < y1; y++) {
    for (let p = y * width + x0; p < y * width + x1; p++, i++) {
      if (labels[p] === id) labels[p] = named.idOf[pieces[i]!]!;
    }
  }
  return { nextId: named.nextId, parts: partCount };
}

/**
 * 1 where pixels counted before, and where they still do, by place within the bounds; `lost` where a
 * pixel of the region is in no piece.
 */
function masksOf(
  { labels, width, bounds, id, isBefore, line = EMPTY }: DivideInput,
  tick: Tick | undefined,
): { before: Uint8Array; after: Uint8Array; lost: boolean } {
  const [x0, y0, x1, y1] = bounds;
  const columns = x1 - x0;
  const after = new Uint8Array(columns * (y1 - y0));
  const before = isBefore === undefined ? after : new Uint8Array(after.length);
  let lost = false;
  for (let y = y0, i = 0; y < y1; y++) {
    if (tick !== undefined && (y - y0) % TICK_ROWS === 0) tick(0);
    for (let p = y * width + x0; p < y * width + x1; p++, i++) {
      const own = labels[p] === id;
      if (isBefore === undefined || isBefore(p)) {
        before[i] = 1;
        after[i] = own ? 1 : 0;
      } else if (own) lost = true;
    }
  }
  for (const p of line) {
    const [x, y] = [p % width, Math.floor(p / width)];
    if (x < x0 || x >= x1 || y < y0 || y >= y1) continue;
    const i = (y - y0) * columns + x - x0;
    if (after[i] === 1) lost = true;
    after[i] = 0;
  }
  return { before, after, lost };
}

const EMPTY = new Int32Array(0);

/** What Int32 holds. */
const HIGHEST_ID = 2 ** 31 - 1;

function label(data: Uint8Array, width: number, out: Int32Array, tick: Tick | undefined): number {
  const height = data.length / width;
  return labelPacked(packMask({ data, width, height, channels: 1 }, 'mask', tick), 1, 4, out, tick);
}

function samePieces(a: Int32Array, b: Int32Array): boolean {
  for (let i = 0; i < a.length; i++) if (a[i] !== b[i]) return false;
  return true;
}

/** The id of each piece: the region's for the largest of each part. */
function nameThem(
  pieces: Int32Array,
  count: number,
  parts: Int32Array,
  partCount: number,
  id: number,
  firstFree: number,
): { idOf: Int32Array; nextId: number } {
  const areas = new Int32Array(count + 1);
  const partOf = new Int32Array(count + 1);
  for (let i = 0; i < pieces.length; i++) {
    areas[pieces[i]!]! += 1;
    partOf[pieces[i]!] = parts.length === 0 ? 1 : parts[i]!;
  }
  const largest = new Int32Array(partCount + 1);
  areas[0] = 0;
  for (let piece = 1; piece <= count; piece++) {
    const part = partOf[piece]!;
    if (areas[piece]! > areas[largest[part]!]!) largest[part] = piece;
  }
  let nextId = firstFree;
  const idOf = new Int32Array(count + 1);
  for (let piece = 1; piece <= count; piece++) {
    idOf[piece] = largest[partOf[piece]!] === piece ? id : nextId++;
  }
  if (nextId - 1 > HIGHEST_ID) {
    throw new RangeError(
      `labels must leave ids up to ${HIGHEST_ID} for new pieces, got ${firstFree - 1} as the highest; relabel(labels) renumbers them`,
    );
  }
  return { idOf, nextId };
}
