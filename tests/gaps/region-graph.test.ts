import { describe, expect, it } from 'vitest';
import { RegionGraph } from '../../src/gaps/region-graph.ts';
import { SEEN } from '../../src/gaps/separation.ts';
import { seeded } from '../support/random.ts';

const SIZE = Math.max(...Object.values(SEEN)) + 1;

/** Faces with borders at random; at each a bridge, some of one group. */
function scene(random: () => number) {
  const count = 3 + Math.floor(8 * random());
  const whole = (most: number) => 1 + Math.floor(most * random());
  const per = (make: () => number) => Float64Array.from({ length: count + 1 }, make);
  const faces = {
    count,
    area: per(() => whole(60)),
    perimeter: per(() => 400 + whole(100)),
    outer: Uint8Array.from({ length: count + 1 }, () => (random() < 0.2 ? 1 : 0)),
  };
  const borders: { a: number; b: number; pixels: number; bridge: number }[] = [];
  const bridges: { odds: number; length: number; width: number; group: number }[] = [];
  for (let n = 0; n < 3 * count; n++) {
    const [a, b] = [whole(count), whole(count)].sort((p, q) => p - q) as [number, number];
    if (a === b) continue;
    const odds = Math.round(80 * random() - 40) / 8;
    bridges.push({ odds, length: whole(20), width: whole(4), group: whole(9) });
    borders.push({ a, b, pixels: whole(5), bridge: bridges.length - 1 });
  }
  return { faces, borders, bridges, strokeWidth: 2.5, widest: 6 };
}

describe('RegionGraph', () => {
  it('sees at each border what its definitions say, while regions are joined', () => {
    const random = seeded(81);
    for (let n = 0; n < 60; n++) {
      const { faces, borders, bridges, strokeWidth: unit, widest } = scene(random);
      const askedFor = Math.floor(2 * random());
      const unasked = bridges.slice(askedFor);
      const graph = new RegionGraph({
        faces,
        borders,
        bridges,
        unasked,
        strokeWidth: unit,
        widest,
      } as never);
      const regionOf = Array.from({ length: faces.count + 1 }, (_, face) => face);
      const [area, perimeter] = [[...faces.area], [...faces.perimeter]];
      const outer = [...faces.outer];
      const sums = new Map<string, number>();
      const keyOf = (a: number, b: number) => `${Math.min(a, b)} ${Math.max(a, b)}`;
      /** Borders of each pair of regions. */
      const pairs = () => {
        const found = new Map<string, number[]>();
        borders.forEach(({ a, b }, i) => {
          const [p, q] = [regionOf[a]!, regionOf[b]!];
          if (p !== q) found.set(keyOf(p, q), [...(found.get(keyOf(p, q)) ?? []), i]);
        });
        return found;
      };
      const gaps = new Set(unasked.map(({ group }) => group));
      const sure = new Set(unasked.filter(({ odds }) => odds > 1.5).map(({ group }) => group));
      for (let left = faces.count; left > 1; left--) {
        const now = pairs();
        if (now.size === 0) break;
        // Roots of the graph need not be the least faces: regions are compared by their faces.
        expect([...graph.all()].length).toBe(now.size);
        const keys = [...now.keys()];
        const key = keys[Math.floor(keys.length * random())]!;
        const [a, b] = key.split(' ').map(Number) as [number, number];
        const pair = graph.pairOf(a, b)!;
        const roots = [pair.a, pair.b];
        const own = now.get(key)!;
        const byRoot = (root: number) => regionOf[graph.members(root)[0]!]!;
        expect(roots.map(byRoot).sort()).toEqual([a, b].sort());
        for (const root of roots) {
          const faceList = graph.members(root).sort((p, q) => p - q);
          const region = byRoot(root);
          expect(faceList).toEqual(
            [...regionOf.keys()].filter((f) => f > 0 && regionOf[f] === region),
          );
          expect([graph.area[root], graph.outer[root]]).toEqual([area[region], outer[region]]);
        }
        const pixels = own.reduce((sum, i) => sum + borders[i]!.pixels, 0);
        const weighed = own.map((i) => ({
          ...bridges[borders[i]!.bridge]!,
          pixels: borders[i]!.pixels,
        }));
        const best = new Map<number, number>();
        for (const { group, odds } of weighed) {
          best.set(group, Math.max(odds, best.get(group) ?? Number.NEGATIVE_INFINITY));
        }
        const sum = [...best.values()].reduce((s, odds) => s + odds, 0);
        // Of regions of one area the one that goes by the lower face is the lesser.
        const [first, second] = roots.sort((p, q) => p - q).map(byRoot) as [number, number];
        const [lesser, greater] = area[second]! < area[first]! ? [second, first] : [first, second];
        const others = (region: number, without: number) => {
          const found = [...now].filter(
            ([k]) => k.split(' ').includes(`${region}`) && k !== keyOf(region, without),
          );
          const seen = found.map(([k]) => sums.get(k) ?? 0);
          return {
            best: Math.max(-20, ...seen),
            worst: Math.min(20, ...seen),
            pixels: found.flatMap(([, list]) => list).reduce((s, i) => s + borders[i]!.pixels, 0),
            count: found.length + 1,
          };
        };
        const [less, more] = [others(lesser, greater), others(greater, lesser)];
        const row = new Float64Array(SIZE);
        graph.describe(pair, row);
        const close = (v: number) => expect.closeTo(v, 9);
        const told = Object.fromEntries(Object.entries(SEEN).map(([name, at]) => [name, row[at]]));
        expect(told).toEqual({
          groups: best.size,
          sumOfOdds: close(sum),
          bestOdds: Math.max(...weighed.map(({ odds }) => odds)),
          worstOdds: Math.min(...best.values()),
          sumOfDoubts: close([...best.values()].reduce((s, odds) => s + Math.min(0, odds), 0)),
          bridgedInStrokes: close(pixels / unit),
          longestInStrokes: close(Math.max(...weighed.map(({ length }) => length)) / unit),
          meanLengthInWidths: close(
            weighed.reduce((s, bridge) => s + (bridge.pixels * bridge.length) / bridge.width, 0) /
              pixels,
          ),
          shareOfLesserPerimeter: close(pixels / perimeter[lesser]!),
          openLesser: close((less.pixels + pixels) / perimeter[lesser]!),
          openGreater: close((more.pixels + pixels) / perimeter[greater]!),
          areaLesser: close(area[lesser]! / unit ** 2),
          areaGreater: close(area[greater]! / unit ** 2),
          thicknessLesser: close((4 * area[lesser]!) / perimeter[lesser]! / unit),
          thicknessGreater: close((4 * area[greater]!) / perimeter[greater]! / unit),
          outerLesser: outer[lesser],
          outerGreater: outer[greater],
          bordersLesser: less.count,
          bordersGreater: more.count,
          otherBestLesser: close(less.best),
          otherWorstLesser: close(less.worst),
          otherWorstGreater: close(more.worst),
          widestStrokes: widest / unit,
          meanOdds: close(
            unasked.reduce((s, { odds }) => s + odds, 0) / Math.max(1, unasked.length),
          ),
          facesPerGap: close((faces.count - askedFor) / Math.max(1, gaps.size)),
          sureGaps: Math.min(8, sure.size),
          shareOfSureGaps: close(sure.size / Math.max(1, gaps.size)),
        });
        sums.set(key, sum);
        if (random() < 0.4) continue;
        const { keep, drop, changed } = graph.join(pair);
        expect(roots).toContain(keep);
        expect(roots).toContain(drop);
        expect(changed.every(({ alive: is }) => is)).toBe(true);
        const joined = Math.min(a, b);
        const gone = Math.max(a, b);
        // What was summed up of a pair stays with the borders that were there before.
        for (const [k] of now) sums.delete(k);
        regionOf.forEach((region, face) => {
          if (region === gone) regionOf[face] = joined;
        });
        area[joined]! += area[gone]!;
        perimeter[joined] = Math.max(1, perimeter[joined]! + perimeter[gone]! - 2 * pixels);
        outer[joined]! |= outer[gone]!;
        expect([...graph.regions()].slice(1)).toEqual(
          regionOf.slice(1).map((region) => regionOf.indexOf(region, 1)),
        );
        for (const [k, list] of pairs()) {
          const [p, q] = k.split(' ').map(Number) as [number, number];
          const other = graph.pairOf(p, q)!;
          expect([...other.borders].sort()).toEqual([...list].sort());
          // As the graph keeps them.
          sums.set(k, other.sum);
        }
      }
    }
  });
});
