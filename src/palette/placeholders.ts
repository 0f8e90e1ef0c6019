import { ciede2000 } from '../color/color-difference.ts';
import { parseColor } from '../color/hex.ts';
import { type Lab, labOfRgb } from '../color/lab.ts';
import type { Tick } from '../raster/progress.ts';
import { scatter } from '../raster/scatter.ts';
import { samples, shadeOf, takeShades } from './shades.ts';

/**
 * Soft colors, any two of them 26 and more apart in CIEDE2000: found by local search among those of
 * lightness 45 to 95 and chroma up to 52 as the largest such set, of several the one of least
 * chroma. A twelfth of the most nodes there may be, 5462 shades round each, stays 20 from another's.
 */
export const ANCHORS: readonly string[] = [
  '#6ea0fa',
  '#faa082',
  '#a0fabe',
  '#b4505a',
  '#fadc8c',
  '#6e6496',
  '#6ee6fa',
  '#966428',
  '#fa8cc8',
  '#648c64',
  '#f2eefa',
  '#00788c',
];

/** From a given color; 20 is asked for, and shades of an anchor lie less than 3 off it. */
const APART = 23;

/** From a color that has shades itself; less than any two anchors are apart. */
const BOTH_APART = 26;

/** Nodes colored between two ticks. */
const TICK_NODES = 4096;

/** Neighbors of each node in one list: those of node i are `items[offsets[i]]` to `offsets[i + 1]`. */
export interface Neighbors {
  readonly offsets: Int32Array;
  readonly items: Int32Array;
}

/** How nodes choose their colors. */
export interface Choosing {
  /** The nodes that have no color, in the order in which they choose. */
  readonly order: ArrayLike<number>;
  /** 32 bits for each node: what it prefers. */
  readonly seeds: ArrayLike<number>;
  /** Colors `0xrrggbb` that none may take. */
  readonly reserved: Iterable<number>;
}

/**
 * Colors for the nodes that have none: all different, from the given colors too, and neighbors at
 * least 20 apart in CIEDE2000 wherever there is such a color.
 *
 * In their order, nodes take the anchor that they prefer of those far from all neighbors that have
 * a color, then a shade of it that is still free. What a node prefers is in its seed alone, so a
 * change of one node reaches those after it only where it took from them what they preferred. Where
 * neighbors leave no anchor, a node takes the color farthest from its nearest neighbor among anchors
 * and a coarse choice of others, ties to the first. O(nodes + adjacency).
 *
 * @param neighbors - Symmetric, over all nodes.
 * @param known - Color of each node, `0xrrggbb`, or -1 where one is sought.
 * @returns A color for each node, the known ones as they came.
 */
export function placeholderColors(
  neighbors: Neighbors,
  known: Int32Array,
  { order, seeds, reserved }: Choosing,
  tick?: Tick,
): Int32Array {
  const { offsets, items } = neighbors;
  const choice = new Choice();
  const bases = known.slice();
  for (let k = 0; k < order.length; k++) {
    if (tick !== undefined && k % TICK_NODES === 0) tick((0.5 * k) / order.length);
    const node = order[k]!;
    choice.start();
    for (let e = offsets[node]!; e < offsets[node + 1]!; e++) {
      const other = items[e]!;
      if (bases[other]! >= 0) choice.avoid(bases[other]!, known[other]! >= 0);
    }
    bases[node] = choice.take(seeds[node]!);
  }
  const taken = new Set(reserved);
  for (const color of known) if (color >= 0) taken.add(color);
  const colors = known.slice();
  for (let k = 0; k < order.length; k++) {
    if (tick !== undefined && k % TICK_NODES === 0) tick(0.5 + (0.4 * k) / order.length);
    const node = order[k]!;
    if (choice.isAnchor(bases[node]!)) colors[node] = shadeOf(bases[node]!, seeds[node]!, taken);
  }
  takeNearest(order, bases, colors, taken, tick);
  return colors;
}

/** Chooses the base color of one node after another. */
class Choice {
  readonly #anchors = ANCHORS.map(rgbOf);
  /** Bits of the anchors too near to a color: given colors, and those that have shades. */
  readonly #nearGiven = new Map<number, number>();
  readonly #nearShaded = new Map<number, number>();
  readonly #distances = new Map<number, Float64Array>();
  #candidates: readonly number[] = [];
  #avoided = new Set<number>();
  #blocked = 0;

  start(): void {
    this.#avoided.clear();
    this.#blocked = 0;
  }

  isAnchor(rgb: number): boolean {
    return this.#anchors.includes(rgb);
  }

  avoid(rgb: number, isGiven: boolean): void {
    this.#avoided.add(rgb);
    const near = isGiven ? this.#nearGiven : this.#nearShaded;
    let bits = near.get(rgb);
    if (bits === undefined) {
      bits = bitsNear(rgb, this.#anchors, isGiven ? APART : BOTH_APART);
      near.set(rgb, bits);
    }
    this.#blocked |= bits;
  }

  /** The anchor of the least number by seed, of those that are not too near. */
  take(seed: number): number {
    let best = -1;
    let least = 0;
    for (let k = 0; k < this.#anchors.length; k++) {
      if ((this.#blocked >> k) & 1) continue;
      const rank = scatter(seed + k);
      if (best >= 0 && rank >= least) continue;
      best = k;
      least = rank;
    }
    return best < 0 ? this.#farthest() : this.#anchors[best]!;
  }

  #farthest(): number {
    if (this.#candidates.length === 0) this.#candidates = [...this.#anchors, ...coarseColors()];
    const nearest = new Float64Array(this.#candidates.length).fill(Number.POSITIVE_INFINITY);
    for (const rgb of this.#avoided) {
      let distances = this.#distances.get(rgb);
      if (distances === undefined) {
        const lab = labOf(rgb);
        distances = Float64Array.from(this.#candidates, (c) => ciede2000(lab, labOf(c)));
        this.#distances.set(rgb, distances);
      }
      for (let k = 0; k < nearest.length; k++) {
        if (distances[k]! < nearest[k]!) nearest[k] = distances[k]!;
      }
    }
    return this.#candidates[nearest.reduce((best, d, k) => (d > nearest[best]! ? k : best), 0)]!;
  }
}

/** Bits of the colors that are less than `apart` from one. */
function bitsNear(rgb: number, colors: readonly number[], apart: number): number {
  const lab = labOf(rgb);
  return colors.reduce((bits, c, k) => bits | (ciede2000(lab, labOf(c)) < apart ? 1 << k : 0), 0);
}

/** A lattice of sRGB without what is so dark that it passes for ink. */
function coarseColors(): number[] {
  const steps = [0, 51, 102, 153, 204, 255];
  const colors = steps.flatMap((r) =>
    steps.flatMap((g) => steps.map((b) => (r << 16) | (g << 8) | b)),
  );
  return colors.filter((rgb) => labOf(rgb)[0] >= 30);
}

/** Gives the nodes that are still without a color the nearest free ones to their base, in order. */
function takeNearest(
  order: ArrayLike<number>,
  bases: Int32Array,
  colors: Int32Array,
  taken: Set<number>,
  tick: Tick | undefined,
): void {
  const members = new Map<number, number[]>();
  for (let k = 0; k < order.length; k++) {
    const node = order[k]!;
    if (colors[node]! >= 0) continue;
    const nodes = members.get(bases[node]!);
    if (nodes === undefined) members.set(bases[node]!, [node]);
    else nodes.push(node);
  }
  let done = 0;
  for (const [base, nodes] of members) {
    tick?.(0.9 + (0.1 * done++) / members.size);
    const shades = takeShades(base, nodes.length, taken);
    nodes.forEach((node, k) => {
      colors[node] = shades[k]!;
    });
  }
}

function labOf(rgb: number): Lab {
  return labOfRgb(...samples(rgb));
}

/** `0xrrggbb` of a color `#rrggbb`. */
export function rgbOf(color: string): number {
  const [r, g, b] = parseColor(color, 'color');
  return (r << 16) | (g << 8) | b;
}
