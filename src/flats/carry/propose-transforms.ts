import { partOf, type Tick } from '../../raster/progress.ts';
import { boxMean, type InkDensity, inkDensity, inkSamples } from './ink-density.ts';
import type { Similarity } from './similarity.ts';

/** Cells along the longer side of a picture while all transforms are tried. */
export const COARSE: number = 64;
/** Scales are tried in steps of this ratio: half a step is a cell at the rim of the picture. */
const SCALE_STEP = 1.07;
/** Steps up and down: to about 0.44 and 2.25. */
const SCALE_STEPS = 12;
/** Rotations that are tried, as tangents: steps of a 24th, to about 7 degrees. */
const TURNS = [0, 1, -1, 2, -2, 3, -3].map((k) => k / 24);
/** How far beyond the centers of the ink the shift is sought, in cells. */
const REACH = 16;
/** Cells of ink of the first picture that are looked at, evenly over its rows. */
const SAMPLES = 500;
/** Shifts that reach less than that share of the best score are not proposed. */
const RIVAL = 0.6;
/** Shifts are another's neighbors up to so many cells aside. */
const APART = 3;

/**
 * Transforms that take one ink about to another, the best first: every scale and rotation with its
 * best shifts.
 *
 * Both are reduced to cells of a 64th of the longer side. The score is the correlation of the first
 * with the second less its local mean, so that what speaks is where the lines are, not how much ink
 * there is; times the scale, so that shrinking onto dense ink does not pay. Ties go to the earlier
 * scale and turn: the expected ones, then by how far they are from none.
 *
 * @param scales - Those that are likely, tried without rotation. With none, all are.
 * @param most - Shifts of one scale and rotation, of those that reach 0.6 of its best score.
 */
export function proposeTransforms(
  from: InkDensity,
  to: InkDensity,
  scales: readonly number[],
  most: number,
  tick?: Tick,
): Similarity[] {
  const a = coarsen(from, partOf(tick, 0, 0.2));
  const b = coarsen(to, partOf(tick, 0.2, 0.4));
  const points = inkSamples(a, SAMPLES);
  const seek: Seek = { points, fromCenter: center(a), toCenter: center(b), map: contrast(b) };
  const tried = scales.length > 0 ? scales : allScales();
  const turns = scales.length > 0 ? [0] : TURNS;
  const found: Proposal[] = [];
  tried.forEach((scale, i) => {
    for (const turn of turns) {
      tick?.(0.4 + (0.6 * i) / tried.length);
      const cosine = scale / Math.sqrt(1 + turn * turn);
      found.push(...bestShifts(seek, cosine, cosine * turn, most));
    }
  });
  return found.sort((p, q) => q.score - p.score).map(({ transform }) => transform);
}

function coarsen(density: InkDensity, tick: Tick | undefined): InkDensity {
  const { width, height } = density;
  return inkDensity(density, Math.ceil(Math.max(width, height) / COARSE), tick);
}

function allScales(): number[] {
  const scales = [1];
  let scale = 1;
  for (let k = 0; k < SCALE_STEPS; k++) {
    scale *= SCALE_STEP;
    scales.push(scale, 1 / scale);
  }
  return scales;
}

interface Proposal {
  readonly transform: Similarity;
  readonly score: number;
}

interface Seek {
  /** Centers of cells with ink in pixels and their densities: x, y, density. */
  readonly points: Float64Array;
  readonly fromCenter: readonly [number, number];
  readonly toCenter: readonly [number, number];
  readonly map: InkDensity;
}

/** Correlation at every shift of one scale and rotation: the best ones that are no neighbors. */
function bestShifts(
  { points, fromCenter, toCenter, map }: Seek,
  a: number,
  b: number,
  most: number,
): Proposal[] {
  const { data, width, height, cell } = map;
  const count = points.length / 3;
  const columns = new Int32Array(count);
  const rows = new Int32Array(count);
  const [cx, cy] = fromCenter;
  for (let k = 0; k < count; k++) {
    const [x, y] = [points[3 * k]! - cx, points[3 * k + 1]! - cy];
    columns[k] = Math.floor((a * x - b * y + toCenter[0]) / cell);
    rows[k] = Math.floor((b * x + a * y + toCenter[1]) / cell);
  }
  const shifts: { u: number; v: number; sum: number }[] = [];
  for (let v = -REACH; v <= REACH; v++) {
    for (let u = -REACH; u <= REACH; u++) {
      let sum = 0;
      for (let k = 0; k < count; k++) {
        const [x, y] = [columns[k]! + u, rows[k]! + v];
        if (x < 0 || y < 0 || x >= width || y >= height) continue;
        sum += points[3 * k + 2]! * data[y * width + x]!;
      }
      shifts.push({ u, v, sum });
    }
  }
  shifts.sort((p, q) => q.sum - p.sum || p.u * p.u + p.v * p.v - q.u * q.u - q.v * q.v);
  const chosen: typeof shifts = [];
  for (const shift of shifts) {
    if (chosen.length === most || shift.sum < RIVAL * shifts[0]!.sum) break;
    const { u, v } = shift;
    if (chosen.some((one) => Math.abs(one.u - u) <= APART && Math.abs(one.v - v) <= APART))
      continue;
    chosen.push(shift);
  }
  return chosen.map(({ u, v, sum }) => {
    const dx = toCenter[0] + u * cell - (a * cx - b * cy);
    const dy = toCenter[1] + v * cell - (b * cx + a * cy);
    return { transform: { a, b, dx, dy }, score: sum * Math.sqrt(a * a + b * b) };
  });
}

/** Mean place of the ink, in pixels; the picture's middle without any. */
function center({ data, width, height, cell }: InkDensity): readonly [number, number] {
  let [sum, sx, sy] = [0, 0, 0];
  for (let i = 0; i < data.length; i++) {
    sum += data[i]!;
    sx += data[i]! * ((i % width) + 0.5);
    sy += data[i]! * (Math.floor(i / width) + 0.5);
  }
  if (sum === 0) return [(width * cell) / 2, (height * cell) / 2];
  return [(sx / sum) * cell, (sy / sum) * cell];
}

/** Density over the next cells less that over a wider square. */
function contrast(density: InkDensity): InkDensity {
  const near = boxMean(density, 1);
  const wide = boxMean(density, 4);
  for (let i = 0; i < near.data.length; i++) near.data[i]! -= wide.data[i]!;
  return near;
}
