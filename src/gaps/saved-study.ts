import {
  checkList,
  checkNumber,
  checkPoint,
  checkRecord,
  checkSize,
  checkString,
} from '../raster/checks.ts';
import { wrongKind, wrongValue } from '../raster/errors.ts';
import { checkHead, checkInts, checkSum, withSum } from '../raster/saved-data.ts';
import type { Bounds } from '../raster/types.ts';
import type { StrokeEnd } from '../strokes/stroke-ends.ts';
import type { StrokeWidth } from '../strokes/stroke-width.ts';
import type { Candidate } from './bridge.ts';

const KIND = 'underink gap study';
const VERSION = 2;

/**
 * A study as plain data: what structured clone, `postMessage` and IndexedDB take. What it holds beside
 * the first three fields is for `restoreStudy` alone, and may differ in another version.
 */
export interface SavedStudy {
  readonly kind: typeof KIND;
  readonly version: typeof VERSION;
  /** `[width, height]` of the ink. */
  readonly size: readonly [number, number];
  /** The ink, 32 pixels a word, each row from a word of its own on. */
  readonly ink: Uint32Array;
  readonly stroke: StrokeWidth;
  readonly ends: readonly StrokeEnd[];
  readonly candidates: readonly Candidate[];
  readonly texture: readonly Bounds[];
  /** Tells data that was changed or damaged. */
  readonly sum: number;
}

/** What a study is, as plain data with its kind, its version and its sum. */
export function saveStudy(study: Omit<SavedStudy, 'kind' | 'version' | 'sum'>): SavedStudy {
  return withSum({ kind: KIND, version: VERSION, ...study });
}

/** Refuses what is no saved study, one of another version, and one that is not as it was saved. */
export function checkSavedStudy(data: SavedStudy, name: string): SavedStudy {
  checkHead(data, name, KIND, VERSION, 'what save() of a study gives');
  const [width, height] = checkSize(data.size, `${name}.size`);
  checkInk(data.ink, `${name}.ink`, width, height);
  checkStroke(data.stroke, `${name}.stroke`);
  const ends = checkList(data.ends, `${name}.ends`, 'an array of ends of strokes');
  ends.forEach((end, i) => {
    checkEnd(end, `${name}.ends[${i}]`, Math.max(width, height));
  });
  const candidates = checkList(data.candidates, `${name}.candidates`, 'an array of candidates');
  const limits = { side: Math.max(width, height), pixels: width * height, ends: ends.length };
  candidates.forEach((candidate, i) => {
    checkCandidate(candidate, `${name}.candidates[${i}]`, limits);
  });
  const texture = checkList(data.texture, `${name}.texture`, 'an array of bounds');
  texture.forEach((bounds, i) => {
    const at = `${name}.texture[${i}]`;
    const four = checkList(bounds, at, 'bounds [x0, y0, x1, y1]');
    if (four.length !== 4) throw wrongValue(at, 'bounds [x0, y0, x1, y1]', four);
    for (const edge of four) checkNumber(edge, at, { max: limits.side, integer: true });
  });
  checkSum(data, name);
  return data;
}

/** Bits past the width would be pixels of the next row. */
function checkInk(ink: Uint32Array, name: string, width: number, height: number): void {
  const stride = Math.ceil(width / 32);
  if (!(ink instanceof Uint32Array) || ink.length !== stride * height) {
    throw wrongKind(name, `a Uint32Array of ${stride * height} words`, ink);
  }
  const past = width % 32 === 0 ? 0 : -1 << (width & 31);
  for (let k = stride - 1; k < ink.length; k += stride) {
    if ((ink[k]! & past) === 0) continue;
    throw wrongValue(`${name}[${k}]`, `without bits past the width of ${width}`, ink[k]);
  }
}

function checkStroke(stroke: StrokeWidth, name: string): void {
  const { median, p10, p90 } = checkRecord(stroke, name, 'an object { median, p10, p90 }');
  for (const [key, width] of Object.entries({ median, p10, p90 })) {
    checkNumber(width, `${name}.${key}`);
  }
}

function checkEnd(end: StrokeEnd, name: string, side: number): void {
  const { x, y, direction, width, taper, reach, loose } = checkRecord(end, name, 'an end');
  checkNumber(x, `${name}.x`, { max: side });
  checkNumber(y, `${name}.y`, { max: side });
  checkPoint(direction, `${name}.direction`);
  checkNumber(width, `${name}.width`);
  checkNumber(taper, `${name}.taper`);
  checkNumber(reach, `${name}.reach`);
  if (typeof loose !== 'boolean') throw wrongKind(`${name}.loose`, 'true or false', loose);
}

function checkCandidate(
  candidate: Candidate,
  name: string,
  { side, pixels, ends }: { side: number; pixels: number; ends: number },
): void {
  const own = checkRecord(candidate, name, 'a candidate');
  for (const key of ['fromX', 'fromY', 'toX', 'toY'] as const) {
    checkNumber(own[key], `${name}.${key}`, { max: side - 1, integer: true });
  }
  checkNumber(own.length, `${name}.length`);
  checkNumber(own.width, `${name}.width`);
  checkNumber(own.odds, `${name}.odds`, { min: Number.NEGATIVE_INFINITY });
  checkString(own.seen, `${name}.seen`);
  checkNumber(own.a, `${name}.a`, { min: -1, max: ends - 1, integer: true });
  checkNumber(own.b, `${name}.b`, { min: -1, max: ends - 1, integer: true });
  checkInts(own.pixels, `${name}.pixels`, { max: pixels - 1 });
}
