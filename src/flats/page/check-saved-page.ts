import { checkSavedStudy } from '../../gaps/saved-study.ts';
import { checkPalette } from '../../palette/swatches.ts';
import { pixelsArgument } from '../../raster/arguments.ts';
import {
  checkList,
  checkNumber,
  checkOneOf,
  checkPoint,
  checkRecord,
  checkSize,
  checkString,
} from '../../raster/checks.ts';
import { wrongKind, wrongValue } from '../../raster/errors.ts';
import { checkInts, checkSum } from '../../raster/saved-data.ts';
import { checkPlan, checkPlanSize } from '../check-plan.ts';
import type { SavedPage, SavedRows } from './saved-page.ts';

/**
 * Refuses a saved page of which a part is not what it must be, or that was changed since it was saved.
 * Its kind and version have been checked. O(bytes).
 */
export function checkSavedPage(saved: SavedPage, name: string): void {
  const [width, height] = checkSize(saved.size, `${name}.size`);
  checkInputs(saved, name);
  checkPlanSize(checkPlan(saved.plan), width, height);
  checkOneOf(saved.outside, `${name}.outside`, ['error', 'report']);
  checkSavedStudy(saved.study, `${name}.study`);
  checkSameSize(saved.study.size, `${name}.study.size`, saved.size);
  const { inkPixels, notes } = checkRecord(saved.found, `${name}.found`, 'an object');
  checkNumber(inkPixels, `${name}.found.inkPixels`, { max: width * height, integer: true });
  checkList(notes, `${name}.found.notes`, 'an array of notes');
  checkString(saved.asked, `${name}.asked`);
  checkDecided(saved, `${name}.decided`);
  checkRows(saved.grown, `${name}.grown`, saved.size, width * height);
  checkRegions(saved, name);
  checkConflicts(saved, `${name}.report`);
  checkSum(saved, name);
}

/** Rows of labels up to `most`, each from column 0 to the width. O(runs). */
export function checkRows(
  rows: SavedRows,
  name: string,
  [width, height]: SavedPage['size'],
  most: number,
): void {
  const { lengths, data } = checkRecord(rows, name, 'an object { lengths, data }');
  checkInts(lengths, `${name}.lengths`, { length: height, min: 2, max: 2 * width });
  const length = lengths.reduce((sum, own) => sum + own, 0);
  checkInts(data, `${name}.data`, { length, max: Math.max(width, most) });
  let k = 0;
  for (let y = 0; y < height; y++) {
    const end = k + lengths[y]!;
    for (let before = -1; k < end; before = data[k]!, k += 2) {
      const [start, label] = [data[k]!, data[k + 1]!];
      const follows = before < 0 ? start === 0 : start > before && start < width;
      if (!follows || label > most || k + 1 === end) {
        const allowed = `runs from column 0 to ${width} of labels up to ${most}`;
        throw wrongValue(`row ${y} of ${name}`, allowed, [start, label]);
      }
    }
  }
}

function checkInputs({ pixels, coverage, size }: SavedPage, name: string): void {
  const [width, height] = size;
  if (pixels !== undefined) {
    const { width: w, height: h } = pixelsArgument(pixels, `${name}.pixels`);
    checkSameSize([w, h], `${name}.pixels`, size);
  }
  if (coverage === undefined) return;
  if (!(coverage instanceof Uint8Array) || coverage.length !== width * height) {
    throw wrongKind(`${name}.coverage`, `a Uint8Array of ${width * height} bytes`, coverage);
  }
}

function checkSameSize(own: readonly number[], name: string, size: SavedPage['size']): void {
  if (own[0] === size[0] && own[1] === size[1]) return;
  throw wrongValue(name, `of the page's size, ${size[0]} × ${size[1]}`, own);
}

function checkDecided({ decided, study, size: [width, height] }: SavedPage, name: string): void {
  const { closed, bridges, claims, unmet } = checkRecord(decided, name, 'an object');
  checkInts(closed, `${name}.closed`, { max: width * height - 1, ascending: true });
  const stride = Math.ceil(width / 32);
  closed.forEach((p, i) => {
    const [x, y] = [p % width, Math.floor(p / width)];
    const word = study.ink[y * stride + (x >>> 5)]!;
    if (((word >>> (x & 31)) & 1) === 1)
      throw wrongValue(`${name}.closed[${i}]`, 'a pixel of paper', p);
  });
  checkList(bridges, `${name}.bridges`, 'an array of bridges');
  checkList(claims, `${name}.claims`, 'an array of claims');
  checkList(unmet, `${name}.unmet`, 'an array of places of marks');
}

/** What belongs to regions: numbers of runs lead to ids, ids to all the rest. */
function checkRegions(saved: SavedPage, name: string): void {
  const { ids, nextId, measured, discs, placeholders, assigned, size } = saved;
  const pixels = size[0] * size[1];
  checkNumber(nextId, `${name}.nextId`, { min: 1, max: 2 ** 31 - 1, integer: true });
  checkInts(ids, `${name}.ids`, { max: nextId - 1 });
  checkRows(saved.rows, `${name}.rows`, size, ids.length - 1);
  const { areas, bounds } = checkRecord(measured, `${name}.measured`, 'an object');
  checkInts(areas, `${name}.measured.areas`, { length: nextId, max: pixels });
  checkInts(bounds, `${name}.measured.bounds`, { length: 4 * nextId, max: Math.max(...size) });
  checkPairs(discs, `${name}.discs`, nextId, ({ center, square }, at) => {
    checkNumber(center, `${at}.center`, { max: pixels - 1, integer: true });
    checkNumber(square, `${at}.square`);
  });
  checkPairs(placeholders, `${name}.placeholders`, nextId, (swatch, at) => {
    checkPalette([swatch], at, 'never');
  });
  const { palette, indexOf, ground } = checkRecord(assigned, `${name}.assigned`, 'an object');
  checkPalette(palette, `${name}.assigned.palette`, 'first');
  checkInts(indexOf, `${name}.assigned.indexOf`, { length: nextId, max: palette.length - 1 });
  if (ground !== undefined) checkString(ground, `${name}.assigned.ground`);
}

/** The points of conflicts lead to leaks. */
function checkConflicts({ report, size }: SavedPage, name: string): void {
  const { conflicts } = checkRecord(report, name, 'an object');
  const at = `${name}.conflicts`;
  checkList(conflicts, at, 'an array of conflicts').forEach((conflict, i) => {
    const { point, by } = checkRecord(conflict, `${at}[${i}]`, 'a conflict');
    const [x, y] = checkPoint(point, `${at}[${i}].point`);
    checkNumber(x, `${at}[${i}].point`, { max: size[0] });
    checkNumber(y, `${at}[${i}].point`, { max: size[1] });
    checkNumber(by, `${at}[${i}].by`, { integer: true });
  });
}

/** `[id, value]` each. */
function checkPairs<T extends object>(
  pairs: readonly (readonly [number, T])[],
  name: string,
  nextId: number,
  check: (value: T, name: string) => void,
): void {
  checkList(pairs, name, 'an array of [id, value]').forEach((pair, i) => {
    const at = `${name}[${i}]`;
    const two = checkList(pair as readonly unknown[], at, 'a pair [id, value]');
    checkNumber(two[0], `${at}[0]`, { max: nextId - 1, integer: true });
    check(checkRecord(two[1] as T, `${at}[1]`, 'an object'), `${at}[1]`);
  });
}
