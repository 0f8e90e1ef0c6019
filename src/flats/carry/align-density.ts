import type { Tick } from '../../raster/progress.ts';
import { type InkDensity, inkSamples } from './ink-density.ts';
import type { Similarity } from './similarity.ts';

/** Cells of the first picture that are looked at. */
const SAMPLES = 20_000;
const ROUNDS = 16;
/** Steps that move the picture's rim by less than this, in cells, end the rounds. */
const STILL = 0.003;
/** Differences of density from here on count for little: lines that only one picture has. */
const CLEAR = 0.2;

/**
 * A transform made better by the densities of both inks (Lucas, Kanade 1981, "An iterative image
 * registration technique"): each round solves the linear least squares problem for the four numbers
 * of a similarity that makes the second picture, where the transform leads, agree with the first.
 *
 * A line that the second picture lacks has no slope there and pulls at nothing; a line that only it
 * has differs much, and a difference r counts (c² / (c² + r²))² (Geman, McClure 1987). Strokes that
 * have become wider pull to both sides alike. O(samples · rounds).
 */
export function alignDensity(
  from: InkDensity,
  to: InkDensity,
  start: Similarity,
  tick?: Tick,
): Similarity {
  const points = inkSamples(from, SAMPLES);
  const radius = (Math.max(from.width, from.height) * from.cell) / 2;
  const [cx, cy] = [(from.width * from.cell) / 2, (from.height * from.cell) / 2];
  const sums = new Float64Array(20);
  let now = start;
  for (let round = 0; round < ROUNDS; round++) {
    tick?.(round / ROUNDS);
    gather(points, to, now, cx, cy, radius, sums);
    const step = solve(sums);
    if (step === undefined) return now;
    const [a, b] = [step[0]! / radius, step[1]! / radius];
    now = {
      a: now.a + a,
      b: now.b + b,
      dx: now.dx + step[2]! - (a * cx - b * cy),
      dy: now.dy + step[3]! - (b * cx + a * cy),
    };
    const turn = Math.sqrt(step[0]! * step[0]! + step[1]! * step[1]!);
    const shift = Math.sqrt(step[2]! * step[2]! + step[3]! * step[3]!);
    if (turn + shift < STILL * to.cell) break;
  }
  return now;
}

/** The normal equations: ten sums of products of the slopes by row of the upper triangle, then four with the difference. */
function gather(
  points: Float64Array,
  { data, width, height, cell }: InkDensity,
  { a, b, dx, dy }: Similarity,
  cx: number,
  cy: number,
  radius: number,
  sums: Float64Array,
): void {
  sums.fill(0);
  const j = new Float64Array(4);
  for (let k = 0; k < points.length; k += 3) {
    const [x, y] = [points[k]!, points[k + 1]!];
    const u = (a * x - b * y + dx) / cell - 0.5;
    const v = (b * x + a * y + dy) / cell - 0.5;
    const [column, row] = [Math.floor(u), Math.floor(v)];
    if (column < 0 || row < 0 || column + 1 >= width || row + 1 >= height) continue;
    const at = row * width + column;
    const [s, t] = [u - column, v - row];
    const [p, q] = [data[at]!, data[at + 1]!];
    const [m, n] = [data[at + width]!, data[at + width + 1]!];
    const gx = ((q - p) * (1 - t) + (n - m) * t) / cell;
    const gy = ((m - p) * (1 - s) + (n - q) * s) / cell;
    if (gx === 0 && gy === 0) continue;
    const value = p * (1 - s) * (1 - t) + q * s * (1 - t) + m * (1 - s) * t + n * s * t;
    const r = points[k + 2]! - value;
    const ratio = (CLEAR * CLEAR) / (CLEAR * CLEAR + r * r);
    const [rx, ry] = [(x - cx) / radius, (y - cy) / radius];
    j[0] = gx * rx + gy * ry;
    j[1] = gy * rx - gx * ry;
    j[2] = gx;
    j[3] = gy;
    for (let e = 0, c = 0; e < 4; e++) {
      const weighted = ratio * ratio * j[e]!;
      for (let f = e; f < 4; f++) sums[c++]! += weighted * j[f]!;
      sums[10 + e]! += weighted * r;
    }
  }
}

/** Solves the four equations by elimination with pivots; undefined where they are not enough. */
function solve(sums: Float64Array): number[] | undefined {
  const rows = [0, 1, 2, 3].map((e) => [0, 0, 0, 0, sums[10 + e]!]);
  for (let e = 0, c = 0; e < 4; e++) {
    for (let f = e; f < 4; f++, c++) {
      rows[e]![f] = sums[c]!;
      rows[f]![e] = sums[c]!;
    }
  }
  const scale = Math.max(rows[0]![0]!, rows[1]![1]!, rows[2]![2]!, rows[3]![3]!);
  for (let e = 0; e < 4; e++) {
    let pivot = e;
    for (let f = e + 1; f < 4; f++) {
      if (Math.abs(rows[f]![e]!) > Math.abs(rows[pivot]![e]!)) pivot = f;
    }
    if (!(Math.abs(rows[pivot]![e]!) > 1e-9 * scale)) return undefined;
    [rows[e], rows[pivot]] = [rows[pivot]!, rows[e]!];
    for (let f = 0; f < 4; f++) {
      if (f === e) continue;
      const factor = rows[f]![e]! / rows[e]![e]!;
      for (let c = e; c < 5; c++) rows[f]![c]! -= factor * rows[e]![c]!;
    }
  }
  return rows.map((row, e) => row[4]! / row[e]!);
}
