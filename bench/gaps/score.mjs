// What a partition of the paper is worth beside the true regions of a case.
import {
  adjustedRandIndex,
  correctionsNeeded,
  raster,
  regionScores,
  variationOfInformation,
} from 'underink';

/** Least pixels, and least share of a true region, that make a piece of it. */
const AREA = 12;
const SHARE = 0.05;
/** Pixels from which a color of a drawing is one that its artist laid, and no blend of two. */
const LAID = 60;
/** Share of a piece that one color covers on its side of a split that is not false. */
const PURE = 0.9;

/** The columns of the results, in their order. */
export const SCORES = [
  'corrections',
  'merges',
  'splits',
  'f1',
  'f1at75',
  'rand',
  'information',
  'split',
  'merge',
  'clicked',
];

/**
 * Scores of found labels on the pixels of true regions, which are paper with and without gaps. In the
 * set `brush`, splits between two of the artist's colors are not counted, and `clicked` is the share
 * of the paper that carries the right color after one click per found region.
 */
export function scoreCase(one, labels) {
  const truth = raster(one.truth, [one.width, one.height]);
  const found = raster(labels, [one.width, one.height]);
  const piece = { minArea: AREA * one.scale ** 2, minShare: SHARE };
  const { merges, splits: all } = correctionsNeeded(truth, found, piece);
  const art = one.colors && countColors(one, labels);
  const splits = all - (art?.byColor ?? 0);
  const { split, merge, total } = variationOfInformation(truth, found);
  return {
    corrections: merges + splits,
    merges,
    splits,
    f1: regionScores(truth, found, { iou: 0.9 }).f1,
    f1at75: regionScores(truth, found, { iou: 0.75 }).f1,
    rand: adjustedRandIndex(truth, found),
    information: total,
    split,
    merge,
    clicked: art?.clicked,
  };
}

/**
 * Splits between the artist's colors: in each true region, the different colors of its pieces beyond
 * the first, of pieces that one color covers by 90 %. Blended pixels, of colors that the artist did
 * not lay, are left out; a piece that is half blended has no color.
 */
function countColors({ truth, colors }, labels) {
  const laid = laidColors(truth, colors);
  const areas = new Map();
  const pieces = new Map();
  const found = new Map();
  let paper = 0;
  for (let i = 0; i < truth.length; i++) {
    const t = truth[i];
    if (t === 0) continue;
    const f = labels[i];
    areas.set(t, (areas.get(t) ?? 0) + 1);
    const key = t * 0x100000 + f;
    let piece = pieces.get(key);
    if (piece === undefined) pieces.set(key, (piece = { t, f, area: 0, byColor: new Map() }));
    piece.area++;
    if (!laid.has(colors[i])) continue;
    paper++;
    piece.byColor.set(colors[i], (piece.byColor.get(colors[i]) ?? 0) + 1);
  }
  const ofRegion = new Map();
  for (const { t, f, area, byColor } of pieces.values()) {
    if (f === 0) continue;
    const sums = found.get(f) ?? new Map();
    found.set(f, sums);
    for (const [color, n] of byColor) sums.set(color, (sums.get(color) ?? 0) + n);
    if (area < Math.max(AREA, SHARE * areas.get(t))) continue;
    const counted = [...byColor.values()].reduce((sum, n) => sum + n, 0);
    const [color, most] = [...byColor].reduce((a, b) => (b[1] > a[1] ? b : a), [-1, 0]);
    if (2 * counted < area || most < PURE * counted) continue;
    ofRegion.set(t, (ofRegion.get(t) ?? new Set()).add(color));
  }
  let right = 0;
  for (const sums of found.values()) right += Math.max(0, ...sums.values());
  let byColor = 0;
  for (const set of ofRegion.values()) byColor += set.size - 1;
  return { byColor, clicked: paper === 0 ? undefined : right / paper };
}

function laidColors(truth, colors) {
  const counts = new Map();
  for (let i = 0; i < truth.length; i++) {
    if (truth[i] > 0) counts.set(colors[i], (counts.get(colors[i]) ?? 0) + 1);
  }
  return new Set([...counts].filter(([, n]) => n >= LAID).map(([color]) => color));
}

/** Means of rows over each score; a score that a row lacks is left out of its mean. */
export function meanScores(rows) {
  const entries = SCORES.map((name) => {
    const values = rows.map((row) => row[name]).filter((value) => value !== undefined);
    const mean = values.reduce((sum, value) => sum + value, 0) / values.length;
    return [name, values.length === 0 ? undefined : mean];
  });
  return Object.fromEntries(entries);
}
