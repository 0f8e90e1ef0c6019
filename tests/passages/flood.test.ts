import fc from 'fast-check';
import type { NdArray } from 'ndarray';
import { describe, expect, it } from 'vitest';
import { ContactFinder } from '../../src/passages/contacts.ts';
import { floodPaper } from '../../src/passages/flood.ts';
import { measureLevels, radiusOf } from '../../src/passages/levels.ts';
import { loopsRoundInk } from '../../src/passages/loops.ts';
import { PathForest } from '../../src/passages/path-forest.ts';
import { raster } from '../../src/raster/index.ts';
import { packMask } from '../../src/raster/pack.ts';
import { labelRegions } from '../../src/regions/index.ts';
import { blots } from '../gaps/blots.ts';
import { worstCases } from '../support/grids.ts';

function study({ data, shape }: NdArray<Uint8Array>) {
  const [w, h] = shape as [number, number];
  const levels = measureLevels(data, w, h);
  return { w, h, levels, flood: floodPaper(levels) };
}

/** 4-connected components of the pixels of at least a level. */
function above(levels: Uint16Array, least: number, w: number, h: number) {
  const data = Uint8Array.from({ length: w * h }, (_, i) => {
    const cell = (Math.floor(i / w) + 1) * (w + 1) + (i % w);
    return levels[cell]! >= least ? 1 : 0;
  });
  return labelRegions(raster(data, [w, h]));
}

const scenes = fc.record({
  w: fc.integer({ min: 1, max: 34 }),
  h: fc.integer({ min: 1, max: 34 }),
  seed: fc.nat(),
});

describe('measureLevels', () => {
  it('keeps squares up to 181 pixels, whole pixels beyond, and the farthest alike', () => {
    const n = 40_000;
    const ink = raster(new Uint8Array(n), [n, 1]);
    ink.data[0] = 1;
    const { level, stride } = study(ink).levels;
    for (const x of [0, 1, 2, 180, 181, 182, 183, 5000, 32_947, 32_948]) {
      expect(radiusOf(level[stride + x]!)).toBe(x);
    }
    expect(level[stride + 32_949]).toBe(level[stride + 32_948]);
    expect(level[stride + n - 1]).toBe(65_535);
  });
});

describe('floodPaper', () => {
  it('knows the widest way between any two pixels', () => {
    fc.assert(
      fc.property(scenes, fc.array(fc.tuple(fc.nat(), fc.nat()), { maxLength: 6 }), (s, pairs) => {
        const { w, h, levels, flood } = study(blots(s.w, s.h, s.seed));
        const { level } = levels;
        const { at, a, b, highA } = flood.meetings;
        const tree = new PathForest(flood.count + 1);
        for (let i = 0; i < at.length; i++) if (highA[i] !== 0) tree.join(a[i]!, b[i]!, i);
        const cells = pairs.map((pair) =>
          pair.map((n) => {
            const i = n % (w * h);
            return { i, cell: (Math.floor(i / w) + 1) * (w + 1) + (i % w) };
          }),
        );
        for (const [p, q] of cells) {
          const ends = Math.min(level[p!.cell]!, level[q!.cell]!);
          // The highest level down to which both lie in one component; 0 where they never do.
          let widest = ends;
          for (; widest > 0; widest--) {
            const { data } = above(level, widest, w, h).labels;
            if (data[p!.i] === data[q!.i]) break;
          }
          const [from, to] = [flood.basins[p!.cell]!, flood.basins[q!.cell]!];
          const last = tree.lastBetween(from, to);
          const found = from === to ? ends : last < 0 ? 0 : Math.min(ends, level[at[last]!]!);
          expect(found).toBe(widest);
        }
      }),
      { numRuns: 60 },
    );
  });

  it('loses the lower of two heights at every meeting of the tree', () => {
    fc.assert(
      fc.property(scenes, ({ w, h, seed }) => {
        const { levels, flood } = study(blots(w, h, seed));
        const { level } = levels;
        const { at, highA, highB } = flood.meetings;
        const peak = new Map<number, number>();
        flood.basins.forEach((basin, p) => {
          if (basin > 0) peak.set(basin, Math.max(peak.get(basin) ?? 0, level[p]!));
        });
        const values = [...new Set(level)].filter((v) => v > 0);
        for (const v of values) {
          const { labels, count } = above(level, v, w, h);
          const tallest = new Array<number>(count + 1).fill(0);
          labels.data.forEach((id, i) => {
            const cell = (Math.floor(i / w) + 1) * (w + 1) + (i % w);
            tallest[id] = Math.max(tallest[id]!, level[cell]!);
          });
          for (const u of values.filter((value) => value >= v)) {
            const components = tallest.slice(1).filter((top) => top >= u).length;
            const born = [...peak.values()].filter((top) => top >= u).length;
            const lost = at.filter(
              (p, i) => level[p]! >= v && Math.min(highA[i]!, highB[i]!) >= u,
            ).length;
            expect(born - lost).toBe(components);
          }
        }
      }),
      { numRuns: 60 },
    );
  });

  it('gives 4-connected basins', () => {
    for (const [name, m] of Object.entries(worstCases(43, 37))) {
      const { w, h, flood } = study(m);
      const seen = new Set<number>();
      for (let basin = 1; basin <= flood.count; basin++) {
        const data = Uint8Array.from({ length: w * h }, (_, i) =>
          flood.basins[(Math.floor(i / w) + 1) * (w + 1) + (i % w)] === basin ? 1 : 0,
        );
        expect(labelRegions(raster(data, [w, h])).count, name).toBe(1);
        seen.add(basin);
      }
      expect(seen.size).toBe(flood.count);
    }
  });
});

describe('loopsRoundInk', () => {
  it('finds as many as there are pieces of ink within a frame', () => {
    fc.assert(
      fc.property(scenes, ({ w, h, seed }) => {
        const ink = blots(w + 4, h + 4, seed);
        const [width, height] = [w + 4, h + 4];
        for (let x = 0; x < width; x++) for (const y of [0, height - 1]) ink.set(x, y, 1);
        for (let y = 0; y < height; y++) for (const x of [0, width - 1]) ink.set(x, y, 1);
        const { levels, flood } = study(ink);
        const { at, arms, highA } = flood.meetings;
        const finder = new ContactFinder({ data: ink.data, width, height, channels: 1 });
        const from: number[] = [];
        const to: number[] = [];
        at.forEach((p, i) => {
          if (highA[i] !== 0) return;
          const y = Math.floor(p / levels.stride) - 1;
          finder.find(p - (y + 1) * levels.stride, y, radiusOf(levels.level[p]!), arms[i]!);
          from.push(finder.from);
          to.push(finder.to);
        });
        const packed = packMask({ data: ink.data, width, height, channels: 1 }, 'ink');
        const kept = loopsRoundInk(packed, from, to);
        expect(kept.length).toBe(labelRegions(ink, { connectivity: 8 }).count - 1);
      }),
      { numRuns: 1000, seed: 5, examples: [[{ w: 21, h: 32, seed: 91_686_429 }]] },
    );
  });
});

describe('floodPaper, progress', () => {
  it('ticks over flat paper as over any other, and forward only', () => {
    const seen: number[] = [];
    floodPaper(measureLevels(new Uint8Array(1000 * 1000), 1000, 1000), (done) => seen.push(done));
    for (let i = 1; i < seen.length; i++) expect(seen[i]).toBeGreaterThanOrEqual(seen[i - 1]!);
    expect(seen.at(-1)).toBeLessThanOrEqual(1);
    const rows = seen.filter((done) => done < 0.42).length;
    const flat = seen.filter((done) => done >= 0.42 && done < 0.6).length;
    expect(flat).toBeGreaterThanOrEqual(Math.min(rows, 12));
  });
});
