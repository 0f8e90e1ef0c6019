import { formatColor, parseColor } from './color.ts';
import { ciede2000 } from './color-difference.ts';
import { labOf } from './lab.ts';

/** Neighbours of each node in one list: those of node i are `items[offsets[i]]` to `offsets[i + 1]`. */
export interface Neighbors {
  readonly offsets: Int32Array;
  readonly items: Int32Array;
}

/**
 * Colors far apart from one another (CIEDE2000 of any two is above 27), chosen by farthest points in
 * the part of sRGB with lightness 40 to 93 and chroma 8 to 66.
 */
export const ANCHORS: readonly string[] = [
  '#82b446',
  '#a03296',
  '#1eaaf0',
  '#f08246',
  '#f0bef0',
  '#1e6e64',
  '#785a1e',
  '#1ef0e6',
  '#b42828',
  '#1e5abe',
  '#f0e6d2',
];

/** Neighbours are kept so far apart: 20 asked for, and room for the variations of an anchor. */
const APART = 23;

/**
 * Colors for the nodes that have none: all different, from the given colors too, and neighbours at
 * least 20 apart in CIEDE2000 wherever the anchors allow it.
 *
 * Nodes are colored greedily in smallest-last order (Matula, Beck 1983, "Smallest-last ordering and
 * clustering and graph coloring algorithms", DOI 10.1145/2402.322385), so that the planar adjacency
 * of regions needs 6 anchors at most; of the free anchors the least used is taken, ties to the
 * first. Where given colors leave no anchor free, the one farthest from all neighbours is taken.
 * Nodes of one anchor get small variations of it. O(nodes + adjacency).
 *
 * @param known - Color of each node, `#rrggbb`, or null where one is sought.
 */
export function placeholderColors(
  { offsets, items }: Neighbors,
  known: readonly (string | null)[],
): string[] {
  const blockedBy = new Map<number, number>();
  const anchorOf = new Int32Array(known.length).fill(-1);
  const used = new Int32Array(ANCHORS.length);
  const order = smallestLast({ offsets, items }, known);
  for (let k = order.length - 1; k >= 0; k--) {
    const node = order[k]!;
    let blocked = 0;
    for (let e = offsets[node]!; e < offsets[node + 1]!; e++) {
      const other = items[e]!;
      const color = known[other]!;
      if (color === null) blocked |= anchorOf[other]! < 0 ? 0 : 1 << anchorOf[other]!;
      else {
        const near = blockedBy.get(other) ?? anchorsNear(color);
        blockedBy.set(other, near);
        blocked |= near;
      }
    }
    const anchor = leastUsed(used, blocked) ?? farthest(node, { offsets, items }, known, anchorOf);
    anchorOf[node] = anchor;
    used[anchor]! += 1;
  }
  return vary(known, anchorOf);
}

/** Nodes that need a color, each of the smallest degree among those after it. */
function smallestLast(
  { offsets, items }: Neighbors,
  known: readonly (string | null)[],
): Int32Array {
  const open = Int32Array.from(known.keys()).filter((node) => known[node] === null);
  const degree = new Int32Array(known.length);
  let highest = 0;
  for (const node of open) {
    for (let e = offsets[node]!; e < offsets[node + 1]!; e++) {
      if (known[items[e]!] === null) degree[node]! += 1;
    }
    highest = Math.max(highest, degree[node]!);
  }
  const next = new Int32Array(known.length).fill(-1);
  const previous = new Int32Array(known.length).fill(-1);
  const head = new Int32Array(highest + 1).fill(-1);
  const insert = (node: number): void => {
    const first = head[degree[node]!]!;
    next[node] = first;
    previous[node] = -1;
    if (first >= 0) previous[first] = node;
    head[degree[node]!] = node;
  };
  const remove = (node: number): void => {
    if (previous[node]! >= 0) next[previous[node]!] = next[node]!;
    else head[degree[node]!] = next[node]!;
    if (next[node]! >= 0) previous[next[node]!] = previous[node]!;
  };
  for (let k = open.length - 1; k >= 0; k--) insert(open[k]!);
  const order = new Int32Array(open.length);
  const done = new Uint8Array(known.length);
  let lowest = 0;
  for (let k = 0; k < order.length; k++) {
    while (head[lowest]! < 0) lowest++;
    const node = head[lowest]!;
    remove(node);
    done[node] = 1;
    order[k] = node;
    for (let e = offsets[node]!; e < offsets[node + 1]!; e++) {
      const other = items[e]!;
      if (known[other] !== null || done[other] === 1) continue;
      remove(other);
      degree[other]! -= 1;
      insert(other);
    }
    lowest = Math.max(0, lowest - 1);
  }
  return order;
}

/** Bits of the anchors that a given color leaves no room for. */
function anchorsNear(color: string): number {
  const lab = labOf(color, 'color');
  let near = 0;
  ANCHORS.forEach((anchor, k) => {
    if (ciede2000(lab, labOf(anchor, 'anchor')) < APART) near |= 1 << k;
  });
  return near;
}

function leastUsed(used: Int32Array, blocked: number): number | undefined {
  let best: number | undefined;
  for (let k = 0; k < used.length; k++) {
    if ((blocked >> k) & 1) continue;
    if (best === undefined || used[k]! < used[best]!) best = k;
  }
  return best;
}

/** The anchor whose nearest neighbour is farthest; ties to the first. */
function farthest(
  node: number,
  { offsets, items }: Neighbors,
  known: readonly (string | null)[],
  anchorOf: Int32Array,
): number {
  const nearest = new Float64Array(ANCHORS.length).fill(Number.POSITIVE_INFINITY);
  for (let e = offsets[node]!; e < offsets[node + 1]!; e++) {
    const other = items[e]!;
    const color = known[other] ?? ANCHORS[anchorOf[other]!];
    if (color === undefined) continue;
    const lab = labOf(color, 'color');
    ANCHORS.forEach((anchor, k) => {
      nearest[k] = Math.min(nearest[k]!, ciede2000(lab, labOf(anchor, 'anchor')));
    });
  }
  return nearest.reduce((best, distance, k) => (distance > nearest[best]! ? k : best), 0);
}

/** Each node its own shade of its anchor: steps off it in order of their length. */
function vary(known: readonly (string | null)[], anchorOf: Int32Array): string[] {
  const taken = new Set(known.filter((color) => color !== null));
  const steps = stepsByLength(known.length);
  const at = new Int32Array(ANCHORS.length);
  return known.map((color, node) => {
    if (color !== null) return color;
    const anchor = anchorOf[node]!;
    const [r, g, b] = parseColor(ANCHORS[anchor]!, 'anchor');
    for (;;) {
      const step = steps[at[anchor]!++]!;
      const [red, green, blue] = [r + step[0], g + step[1], b + step[2]];
      if (Math.min(red, green, blue) < 0 || Math.max(red, green, blue) > 255) continue;
      const shade = formatColor(red, green, blue);
      if (taken.has(shade)) continue;
      taken.add(shade);
      return shade;
    }
  });
}

type Step = readonly [number, number, number];

/** Steps in RGB, shortest first, enough for so many nodes of one anchor and all they may skip. */
function stepsByLength(count: number): Step[] {
  let reach = 1;
  while (reach ** 3 < count) reach++;
  const steps: Step[] = [];
  for (let r = -reach; r <= reach; r++) {
    for (let g = -reach; g <= reach; g++) {
      for (let b = -reach; b <= reach; b++) steps.push([r, g, b]);
    }
  }
  const length = ([r, g, b]: Step): number => r * r + g * g + b * b;
  return steps.sort((p, q) => length(p) - length(q));
}
