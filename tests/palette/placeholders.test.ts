import { describe, expect, it } from 'vitest';
import { colorDifference } from '../../src/color/color-difference.ts';
import { formatColor } from '../../src/color/hex.ts';
import {
  ANCHORS,
  placeholderColors as colorNodes,
  type Neighbors,
  rgbOf,
} from '../../src/palette/placeholders.ts';
import { samples } from '../../src/palette/shades.ts';
import { scatter } from '../../src/raster/scatter.ts';
import { seeded } from '../support/random.ts';

function neighborsOf(nodes: number, pairs: readonly (readonly [number, number])[]): Neighbors {
  const lists = Array.from({ length: nodes }, (): number[] => []);
  for (const [a, b] of pairs) {
    lists[a]!.push(b);
    lists[b]!.push(a);
  }
  const offsets = new Int32Array(nodes + 1);
  for (const [i, list] of lists.entries()) offsets[i + 1] = offsets[i]! + list.length;
  return { offsets, items: Int32Array.from(lists.flat()) };
}

/** Colors of nodes that choose in the order of their numbers. */
function placeholderColors(
  neighbors: Neighbors,
  known: readonly (string | null)[],
  seedOf: (node: number) => number = scatter,
): string[] {
  const colors = Int32Array.from(known, (color) => (color === null ? -1 : rgbOf(color)));
  const order = [...known.keys()].filter((node) => known[node] === null);
  const seeds = Uint32Array.from(known, (_, node) => seedOf(node));
  const found = colorNodes(neighbors, colors, { order, seeds, reserved: [] });
  return Array.from(found, (rgb) => formatColor(...samples(rgb)));
}

/** A triangulated grid: planar, most nodes with six neighbors. */
function triangles(side: number): [number, number][] {
  const pairs: [number, number][] = [];
  for (let y = 0; y < side; y++) {
    for (let x = 0; x < side; x++) {
      const i = y * side + x;
      if (x + 1 < side) pairs.push([i, i + 1]);
      if (y + 1 < side) pairs.push([i, i + side]);
      if (x + 1 < side && y + 1 < side) pairs.push([i, i + side + 1]);
    }
  }
  return pairs;
}

function closest(colors: readonly string[], pairs: readonly (readonly [number, number])[]): number {
  return pairs.reduce(
    (least, [a, b]) => Math.min(least, colorDifference(colors[a]!, colors[b]!)),
    100,
  );
}

describe('placeholderColors', () => {
  it('starts from colors far apart', () => {
    const pairs = ANCHORS.flatMap((_, a) => ANCHORS.slice(0, a).map((_, b) => [a, b] as const));
    expect(pairs).toHaveLength(66);
    expect(closest(ANCHORS, pairs)).toBeGreaterThan(26);
  });

  it('tells neighbors of a planar map apart, all colors different', () => {
    const pairs = triangles(60);
    const colors = placeholderColors(neighborsOf(3600, pairs), new Array(3600).fill(null));
    expect(new Set(colors).size).toBe(3600);
    expect(closest(colors, pairs)).toBeGreaterThanOrEqual(20);
  });

  it('keeps away from given colors, which stay', () => {
    const random = seeded(9);
    const pairs = triangles(20);
    const known = Array.from({ length: 400 }, (_, i) =>
      i % 5 === 0 ? ['#f1e8d6', '#2f5d73', '#8a5d42', '#a8443a'][Math.floor(random() * 4)]! : null,
    );
    const colors = placeholderColors(neighborsOf(400, pairs), known);
    const open = pairs.filter(([a, b]) => known[a] === null || known[b] === null);
    expect(closest(colors, open)).toBeGreaterThanOrEqual(20);
    for (const [i, color] of known.entries()) if (color !== null) expect(colors[i]).toBe(color);
  });

  it('gives 65,535 different colors, and a star of 60,000 leaves', () => {
    const none = placeholderColors(neighborsOf(65_535, []), new Array(65_535).fill(null));
    expect(new Set(none).size).toBe(65_535);
    const pairs = Array.from({ length: 60_000 }, (_, i) => [0, i + 1] as const);
    const star = placeholderColors(neighborsOf(60_001, pairs), new Array(60_001).fill(null));
    expect(new Set(star).size).toBe(60_001);
    expect(closest(star, pairs)).toBeGreaterThanOrEqual(20);
  });

  it('keeps neighbors 20 apart where 65,535 regions fill a map', () => {
    const pairs = triangles(256).filter(([a, b]) => a < 65_535 && b < 65_535);
    const colors = placeholderColors(neighborsOf(65_535, pairs), new Array(65_535).fill(null));
    expect(new Set(colors).size).toBe(65_535);
    expect(closest(colors, pairs)).toBeGreaterThanOrEqual(20);
  });

  it('looks beyond the anchors where given colors leave none', () => {
    const pairs = ANCHORS.map((_, k) => [k, ANCHORS.length] as const);
    const colors = placeholderColors(neighborsOf(ANCHORS.length + 1, pairs), [...ANCHORS, null]);
    expect(colors.slice(0, -1)).toEqual(ANCHORS);
    expect(closest(colors, pairs)).toBeGreaterThanOrEqual(20);
  });

  it('takes what is farthest where no color is far enough', () => {
    const steps = ['00', '40', '80', 'c0', 'ff'];
    const all = steps.flatMap((r) => steps.flatMap((g) => steps.map((b) => `#${r}${g}${b}`)));
    const pairs = all.map((_, k) => [k, all.length] as const);
    const colors = placeholderColors(neighborsOf(all.length + 1, pairs), [...all, null]);
    expect(new Set(colors).size).toBe(all.length + 1);
    expect(closest(colors, pairs)).toBeGreaterThan(8);
  });

  it('shares the anchors out evenly', () => {
    const nodes = 12_000;
    const colors = placeholderColors(neighborsOf(nodes, []), new Array(nodes).fill(null));
    const counts = new Array<number>(ANCHORS.length).fill(0);
    for (const color of colors) {
      const far = ANCHORS.map((anchor) => colorDifference(anchor, color));
      const nearest = far.indexOf(Math.min(...far));
      expect(far[nearest]).toBeLessThan(3);
      counts[nearest]! += 1;
    }
    // A thousand each; five standard deviations of a draw at random are 151.
    for (const count of counts) expect(Math.abs(count - 1000)).toBeLessThan(151);
  });

  it('takes no color that is reserved', () => {
    const map = neighborsOf(50, triangles(5));
    const known = new Int32Array(50).fill(-1);
    const choosing = { order: [...known.keys()], seeds: Uint32Array.from(known, (_, i) => i) };
    const first = colorNodes(map, known, { ...choosing, reserved: [] });
    const second = colorNodes(map, known, { ...choosing, reserved: first.subarray(0, 25) });
    expect(new Set([...first.subarray(0, 25), ...second]).size).toBe(75);
    for (const [i, color] of [...second.subarray(25)].entries()) expect(color).toBe(first[25 + i]);
  });

  it('lets a change of one node reach few others, none that it does not neighbor but through one', () => {
    const pairs = triangles(30);
    const map = neighborsOf(900, pairs);
    const none = new Array<null>(900).fill(null);
    const before = placeholderColors(map, none);
    let beyond = 0;
    for (let node = 0; node < 900; node += 7) {
      const after = placeholderColors(map, none, (i) => scatter(i === node ? i + 1e6 : i));
      const changed = new Set([...before.keys()].filter((i) => before[i] !== after[i]));
      const near = new Set([node]);
      for (const at of near) {
        const [from, to] = [map.offsets[at]!, map.offsets[at + 1]!];
        for (const next of map.items.subarray(from, to)) if (changed.has(next)) near.add(next);
      }
      beyond += changed.size - 1;
      for (const i of changed) {
        // A far node changes only where a shade was taken twice, to another shade of its anchor.
        if (!near.has(i)) expect(colorDifference(before[i]!, after[i]!)).toBeLessThan(6);
      }
    }
    expect(beyond / 129).toBeLessThan(2);
  });

  it('tells 4 and 5 regions apart that all touch one another', () => {
    for (const nodes of [4, 5]) {
      const all = Array.from({ length: nodes }, (_, i) => i);
      const pairs = all.flatMap((a) => all.slice(0, a).map((b) => [a, b] as const));
      const colors = placeholderColors(neighborsOf(nodes, pairs), new Array(nodes).fill(null));
      expect(closest(colors, pairs)).toBeGreaterThanOrEqual(20);
    }
  });

  it('gives nothing for nothing, and known colors as they came', () => {
    expect(placeholderColors(neighborsOf(0, []), [])).toEqual([]);
    expect(placeholderColors(neighborsOf(2, [[0, 1]]), ['#abcdef', '#abcdef'])).toEqual([
      '#abcdef',
      '#abcdef',
    ]);
  });

  it('gives the same for the same map', () => {
    const map = neighborsOf(100, triangles(10));
    const once = placeholderColors(map, new Array(100).fill(null));
    expect(placeholderColors(map, new Array(100).fill(null))).toEqual(once);
  });
});
