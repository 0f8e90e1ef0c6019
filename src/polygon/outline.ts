import { labelsArgument } from '../raster/arguments.ts';
import { checkNumber, checkOptions } from '../raster/checks.ts';
import type { LabelsLike, Point } from '../raster/types.ts';
import { type BorderArcs, traceArcs } from './border-arcs.ts';
import { simplifyArcs } from './simplify-arcs.ts';

export interface OutlineRegionsOptions {
  /**
   * Farthest that a point of the pixel border may lie from the outline, in pixels; 0 keeps every
   * corner. @default 0
   */
  readonly simplify?: number | undefined;
}

/** The outline of one region. */
export interface Outline {
  readonly label: number;
  /** Closed lines along the region's border, whole corners of pixels. */
  readonly rings: Point[][];
}

/**
 * Outlines of all regions, along pixel edges (contour tracing, vectorization).
 *
 * Rings hold the corners where the border turns. Outer ones run clockwise on the screen (y down), so
 * that their shoelace area is positive, holes the other way; pixels of a region that touch at a corner
 * only are kept apart. So the areas sum up to the region's pixels, outer rings less holes are its
 * Euler number for 4 neighbors (Gray 1971, DOI 10.1109/T-C.1971.223289), and the rings rasterized
 * again give the region under either rule. A ring starts at its topmost, then leftmost corner; rings come
 * in the order of these, row by row. Outlines come by label; label 0 has none.
 *
 * Borders that two regions share are traced once. With `simplify`, each is simplified once, between the
 * corners where borders meet, which stay; outlines then still tile the plane, and no border crosses or
 * touches another. Corners are removed smallest triangle first (Visvalingam and Whyatt 1993, DOI
 * 10.1179/000870493786962263, ties by place) as long as the error stays within `simplify` and no
 * other corner lies in the triangle.
 *
 * O(pixels + corners · log corners); about 40 bytes per corner of the borders.
 *
 * @param labels - `[w, h]` Int32 ids.
 * @throws TypeError or RangeError for bad arguments.
 * @example
 * ```ts
 * import { outlineRegions, raster } from 'underink';
 * const labels = raster(new Int32Array([1, 1, 1, 2]), [2, 2]);
 * const [first] = outlineRegions(labels);
 * console.log(JSON.stringify(first?.rings)); // [[[0,0],[2,0],[2,1],[1,1],[1,2],[0,2]]]
 * ```
 */
export function outlineRegions(labels: LabelsLike, options?: OutlineRegionsOptions): Outline[] {
  const { simplify = 0 } = checkOptions(options, 'outlineRegions', ['simplify']);
  checkNumber(simplify, 'simplify', { unit: 'pixels' });
  const { data, width, height } = labelsArgument(labels, 'labels');
  const arcs = traceArcs(data, width, height);
  const rings = assembleRings(simplify > 0 ? simplifyArcs(arcs, width, height, simplify) : arcs);
  rings.sort(
    (p, q) => p.label - q.label || p.ring[0]![1] - q.ring[0]![1] || p.ring[0]![0] - q.ring[0]![0],
  );
  const outlines: { label: number; rings: Point[][] }[] = [];
  for (const { label, ring } of rings) {
    const last = outlines.at(-1);
    if (last?.label === label) last.rings.push(ring);
    else outlines.push({ label, rings: [ring] });
  }
  return outlines;
}

/** Joins half arcs to rings, each with its region on the right. */
function assembleRings(arcs: BorderArcs): { label: number; ring: Point[] }[] {
  const { left, right, to, from, leaving, arrives } = arcs;
  const used = new Uint8Array(2 * left.length);
  const rings: { label: number; ring: Point[] }[] = [];
  for (let first = 0; first < used.length; first++) {
    const label = (first & 1) === 0 ? right[first >> 1]! : left[first >> 1]!;
    if (label === 0 || used[first] === 1) continue;
    const points: Point[] = [];
    let half = first;
    do {
      used[half] = 1;
      addPoints(arcs, half, points);
      const node = (half & 1) === 0 ? to[half >> 1]! : from[half >> 1]!;
      if (node < 0) break;
      half = nextHalf(leaving, node, arrives[half]!);
    } while (half !== first);
    rings.push({ label, ring: startAtTop(withoutCollinear(points)) });
  }
  return rings;
}

/** The corners of a half arc but its last. */
function addPoints({ points, start }: BorderArcs, half: number, to: Point[]): void {
  const begin = start[half >> 1]!;
  const end = start[(half >> 1) + 1]! - 1;
  if ((half & 1) === 0)
    for (let i = begin; i < end; i++) to.push([points[2 * i]!, points[2 * i + 1]!]);
  else for (let i = end; i > begin; i--) to.push([points[2 * i]!, points[2 * i + 1]!]);
}

/** Turning right first keeps to the own pixel where pixels of a region touch at a corner only. */
function nextHalf(leaving: Int32Array, node: number, direction: number): number {
  for (const by of [1, 0]) {
    const half = leaving[4 * node + ((direction + by) & 3)]!;
    if (half >= 0) return half;
  }
  return leaving[4 * node + ((direction + 3) & 3)]!;
}

function withoutCollinear(points: readonly Point[]): Point[] {
  return points.filter((p, i) => {
    const a = points[(i + points.length - 1) % points.length]!;
    const b = points[(i + 1) % points.length]!;
    return (p[0] - a[0]) * (b[1] - p[1]) !== (p[1] - a[1]) * (b[0] - p[0]);
  });
}

function startAtTop(ring: readonly Point[]): Point[] {
  let first = 0;
  ring.forEach(([x, y], i) => {
    const [u, v] = ring[first]!;
    if (y < v || (y === v && x < u)) first = i;
  });
  return [...ring.slice(first), ...ring.slice(0, first)];
}
