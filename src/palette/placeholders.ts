import { ciede2000 } from '../color/color-difference.ts';
import { formatColor, parseColor } from '../color/hex.ts';
import { type Lab, labOfRgb } from '../color/lab.ts';
import type { Tick } from '../raster/progress.ts';
import { samples, takeShades } from './shades.ts';
import { type Neighbors, smallestLast } from './smallest-last.ts';

export type { Neighbors };

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

/** From a given color; 20 is asked for, and most shades of an anchor lie less than 3 off it. */
const APART = 23;

/** From a color that has shades itself; less than any two anchors are apart. */
const BOTH_APART = 26;

/** Nodes colored between two ticks. */
const TICK_NODES = 4096;

/**
 * Colors for the nodes that have none: all different, from the given colors too, and neighbors at
 * least 20 apart in CIEDE2000 wherever there is such a color.
 *
 * Each node takes the least used anchor, ties to the first, of those that are far from all its
 * neighbors; in smallest-last order the planar adjacency of regions needs six of them. Where given
 * colors leave none, the node takes the color farthest from its nearest neighbor among anchors and
 * a coarse choice of others, ties to the first. The nodes of one color share its shades out in the
 * order of their ids. O(nodes · log + adjacency).
 *
 * @param neighbors - Symmetric, over all nodes.
 * @param known - Color of each node, `#rrggbb`, or null where one is sought.
 * @returns A color for each node, the known ones as they came.
 */
export function placeholderColors(
  neighbors: Neighbors,
  known: readonly (string | null)[],
  tick?: Tick,
): string[] {
  const { offsets, items } = neighbors;
  const given = known.map((color) => (color === null ? -1 : rgbOf(color)));
  const order = smallestLast(
    neighbors,
    Uint8Array.from(given, (rgb) => (rgb < 0 ? 1 : 0)),
  );
  const choice = new Choice();
  const bases = Int32Array.from(given);
  let done = 0;
  for (const node of order) {
    if (tick !== undefined && done++ % TICK_NODES === 0) tick((0.3 * done) / order.length);
    choice.start();
    for (let e = offsets[node]!; e < offsets[node + 1]!; e++) {
      const other = items[e]!;
      if (bases[other]! >= 0) choice.avoid(bases[other]!, given[other]! >= 0);
    }
    bases[node] = choice.take();
  }
  return shareShades(known, given, bases, tick);
}

/** Chooses the color of one node after another. */
class Choice {
  readonly #anchors = ANCHORS.map(rgbOf);
  readonly #used = new Int32Array(ANCHORS.length);
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

  take(): number {
    let best = -1;
    for (let k = 0; k < this.#anchors.length; k++) {
      if ((this.#blocked >> k) & 1) continue;
      if (best < 0 || this.#used[k]! < this.#used[best]!) best = k;
    }
    if (best < 0) return this.#farthest();
    this.#used[best]! += 1;
    return this.#anchors[best]!;
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

function shareShades(
  known: readonly (string | null)[],
  given: readonly number[],
  bases: Int32Array,
  tick: Tick | undefined,
): string[] {
  const members = new Map<number, number[]>();
  bases.forEach((base, node) => {
    if (known[node] !== null) return;
    const nodes = members.get(base);
    if (nodes === undefined) members.set(base, [node]);
    else nodes.push(node);
  });
  const colors = [...known] as string[];
  const taken = new Set(given);
  let done = 0;
  for (const [base, nodes] of members) {
    tick?.(0.3 + (0.7 * done++) / members.size);
    const shades = takeShades(base, nodes.length, taken);
    nodes.forEach((node, k) => {
      colors[node] = formatColor(...samples(shades[k]!));
    });
  }
  return colors;
}

function labOf(rgb: number): Lab {
  return labOfRgb(...samples(rgb));
}

function rgbOf(color: string): number {
  const [r, g, b] = parseColor(color, 'color');
  return (r << 16) | (g << 8) | b;
}
