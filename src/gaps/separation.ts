import { placesOf } from './columns.ts';

/** What is seen at the common border of two regions; `Lesser` is the one of less paper. */
export const SEPARATION = [
  'groups',
  'sumOfOdds',
  'bestOdds',
  'worstOdds',
  'sumOfDoubts',
  'bridgedInStrokes',
  'longestInStrokes',
  'meanLengthInWidths',
  'shareOfLesserPerimeter',
  'openLesser',
  'openGreater',
  'areaLesser',
  'areaGreater',
  'thicknessLesser',
  'thicknessGreater',
  'outerLesser',
  'outerGreater',
  'bordersLesser',
  'bordersGreater',
  'otherBestLesser',
  'otherWorstLesser',
  'otherWorstGreater',
  'widestStrokes',
  'meanOdds',
  'facesPerGap',
  'sureGaps',
  'shareOfSureGaps',
] as const;

/** Place of each of them in a row. */
export const SEEN: Readonly<Record<(typeof SEPARATION)[number], number>> =
  /* @__PURE__ */ placesOf(SEPARATION);

/** Log-odds that two regions are to stay apart, by a row of `SEPARATION`. */
export type Separation = (row: Float64Array) => number;
