import { KeyHeap } from '../runs/key-heap.ts';
import type { BorderArcs } from './border-arcs.ts';
import { CornerGrid } from './corner-grid.ts';

/**
 * Removes corners of arcs, smallest triangle first, ties by place, as long as
 *
 * - the error stays within the limit: the removed corner's distance from the new segment, and the
 *   larger error of the two old ones, added up, since what lay that near to them lies no farther
 *   than the sum from it;
 * - no other corner lies in or on the triangle, so that no border is crossed or touched;
 * - no two arcs become the same segment, and an arc that ends where it begins keeps an area.
 *
 * Ends of arcs stay. All corners are whole, so areas are exact up to sides of 2^26. A corner that could
 * not be removed is tried again when a neighbor is. O(corners · log corners) beside the corners that lie
 * near the triangles.
 */
export function simplifyArcs(
  arcs: BorderArcs,
  width: number,
  height: number,
  limit: number,
): BorderArcs {
  const { points, start, from, to } = arcs;
  const count = points.length / 2;
  const previous = new Int32Array(count).fill(-1);
  const next = new Int32Array(count).fill(-1);
  const arcOf = new Int32Array(count);
  const inner = new Int32Array(start.length - 1);
  const direct = new Set<number>();
  const pairOf = (arc: number): number =>
    Math.min(from[arc]!, to[arc]!) * 2 ** 26 + Math.max(from[arc]!, to[arc]!);
  for (let arc = 0; arc + 1 < start.length; arc++) {
    const [begin, end] = [start[arc]!, start[arc + 1]! - 1];
    inner[arc] = end - begin - 1;
    if (inner[arc] === 0) direct.add(pairOf(arc));
    for (let i = begin; i <= end; i++) {
      arcOf[i] = arc;
      if (i > begin && i < end) [previous[i], next[i]] = [i - 1, i + 1];
    }
  }
  const grid = new CornerGrid(points, width, height);
  /** Error of the segment that begins at a corner. */
  const error = new Float64Array(count);
  const heap = new KeyHeap();
  /** Area of each corner's triangle when it was last offered; -1 when it is not on offer. */
  const offered = new Float64Array(count).fill(-1);
  const offer = (i: number): void => {
    if (previous[i]! < 0) return;
    offered[i] = areaOf(points, previous[i]!, i, next[i]!);
    heap.push(offered[i]!, i);
  };
  for (let i = 0; i < count; i++) offer(i);
  while (heap.size > 0) {
    const area = heap.leastKey;
    const i = heap.pop();
    if (offered[i] !== area) continue;
    offered[i] = -1;
    const [a, b, arc] = [previous[i]!, next[i]!, arcOf[i]!];
    const closed = from[arc] === to[arc];
    if (inner[arc]! <= (closed ? 2 : 0)) continue;
    const last = inner[arc] === 1;
    if (last && direct.has(pairOf(arc))) continue;
    const far = distanceTo(points, i, a, b) + Math.max(error[a]!, error[i]!);
    if (far > limit || !grid.isEmpty(a, i, b)) continue;
    error[a] = far;
    if (last) direct.add(pairOf(arc));
    inner[arc]! -= 1;
    grid.remove(i);
    previous[i] = -1;
    // At an end of an arc, neighbors are not kept.
    if (previous[a]! >= 0) next[a] = b;
    if (next[b]! >= 0) previous[b] = a;
    offer(a);
    offer(b);
  }
  return keep(arcs, previous);
}

/** The arcs without the inner corners that have no neighbor any more. */
function keep(arcs: BorderArcs, previous: Int32Array): BorderArcs {
  const kept: number[] = [];
  const start = new Int32Array(arcs.start.length);
  for (let arc = 0; arc + 1 < start.length; arc++) {
    const [begin, end] = [arcs.start[arc]!, arcs.start[arc + 1]! - 1];
    for (let i = begin; i <= end; i++) {
      const inner = i > begin && i < end;
      if (!inner || previous[i]! >= 0) kept.push(arcs.points[2 * i]!, arcs.points[2 * i + 1]!);
    }
    start[arc + 1] = kept.length / 2;
  }
  return { ...arcs, points: Int32Array.from(kept), start };
}

/** Twice the area of a triangle of corners. */
function areaOf(points: Int32Array, a: number, b: number, c: number): number {
  const [ax, ay] = [points[2 * a]!, points[2 * a + 1]!];
  const [bx, by] = [points[2 * b]!, points[2 * b + 1]!];
  const [cx, cy] = [points[2 * c]!, points[2 * c + 1]!];
  return Math.abs((bx - ax) * (cy - ay) - (by - ay) * (cx - ax));
}

/** Distance of corner i from the segment a–b. */
function distanceTo(points: Int32Array, i: number, a: number, b: number): number {
  const [ax, ay] = [points[2 * a]!, points[2 * a + 1]!];
  const [dx, dy] = [points[2 * b]! - ax, points[2 * b + 1]! - ay];
  const [px, py] = [points[2 * i]! - ax, points[2 * i + 1]! - ay];
  const square = dx * dx + dy * dy;
  const t = square === 0 ? 0 : Math.min(1, Math.max(0, (px * dx + py * dy) / square));
  const [ex, ey] = [px - t * dx, py - t * dy];
  return Math.sqrt(ex * ex + ey * ey);
}
