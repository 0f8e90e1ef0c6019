import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { checkFlats } from '../../src/checks/check-flats.ts';
import { findHalo } from '../../src/halo/find-halo.ts';
import { mendHalo } from '../../src/halo/mend-halo.ts';
import { paintFlats } from '../../src/palette/paint-flats.ts';
import { raster } from '../../src/raster/raster.ts';
import { growUnderInk } from '../../src/regions/grow.ts';
import { grid, literal, mask, otherViews, symmetries } from '../support/grids.ts';
import { seeded } from '../support/random.ts';

const palette = [
  { name: 'bare', color: '#000000' },
  { name: 'sky', color: '#dde8f0' },
  { name: 'fur', color: '#8a5d42' },
  { name: 'coat', color: '#305080' },
];
const flatsOf = (text: string) => ({ indices: mask(text), palette, ground: 'sky' });

const bareAround = (text: string) => ({ indices: mask(text), palette });

/** Bare surroundings by their definition: a bare pixel asks the border and its neighbors, over and over. */
function surroundings(indices: Uint8Array, w: number, h: number): Uint8Array {
  const found = new Uint8Array(indices.length);
  for (let again = true; again; ) {
    again = false;
    for (let i = 0; i < found.length; i++) {
      if (found[i] === 1 || indices[i] !== 0) continue;
      const [x, y] = [i % w, Math.floor(i / w)];
      const onBorder = x === 0 || y === 0 || x === w - 1 || y === h - 1;
      if (!onBorder && ![i - 1, i + 1, i - w, i + w].some((j) => found[j] === 1)) continue;
      found[i] = 1;
      again = true;
    }
  }
  return found;
}

/**
 * Halo by its definition: every pixel asks for a path of rising coverage, over and over. Index 1 is
 * the ground.
 */
function oracle(indices: Uint8Array, coverage: Uint8Array, w: number, h: number): Uint8Array {
  const found = new Uint8Array(indices.length);
  for (let again = true; again; ) {
    again = false;
    for (let i = 0; i < found.length; i++) {
      const ink = coverage[i]!;
      if (found[i] === 1 || ink === 0 || ink === 255 || indices[i]! > 1) continue;
      let halo = indices[i] === 0;
      for (let v = -1; v <= 1; v++) {
        for (let u = -1; u <= 1; u++) {
          const [x, y] = [(i % w) + u, Math.floor(i / w) + v];
          if (x < 0 || y < 0 || x >= w || y >= h) continue;
          const j = y * w + x;
          const leads = indices[j]! > 1 || (indices[j] === 1 && found[j] === 1);
          if (leads && coverage[j]! < ink) halo = true;
        }
      }
      if (!halo) continue;
      found[i] = 1;
      again = true;
    }
  }
  return found;
}

/** Blots of flats, ground and bare pixels, and rough ink. */
function noise(w: number, h: number, seed: number) {
  const random = seeded(seed);
  const indices = Uint8Array.from({ length: w * h }, () => Math.floor(random() * 4));
  const levels = [0, 60, 120, 200, 255];
  const coverage = Uint8Array.from({ length: w * h }, () => levels[Math.floor(random() * 5)]!);
  return { flats: { indices: raster(indices, [w, h]), palette, ground: 'sky' }, coverage };
}

describe('findHalo', () => {
  it('finds ground on the side of a flat and bare pixels, under partial ink', () => {
    const coverage = mask(`0 90 200 255 200 90 0 0 40 255`);
    const found = findHalo(flatsOf(`2 1 1 1 1 1 1 0 0 0`), coverage);
    expect(grid(found.mask)).toBe('. 1 1 . . . . . 1 .');
    expect(found.count).toBe(3);
    expect(found.widest).toEqual({ width: 1, at: [1.5, 0.5] });
  });

  it('leaves ground beyond the ridge of pale ink', () => {
    const coverage = mask(`0 90 200 90 0`);
    expect(findHalo(flatsOf(`2 2 2 1 1`), coverage).count).toBe(0);
    expect(grid(findHalo(flatsOf(`2 2 1 1 1`), coverage).mask)).toBe('. . 1 . .');
  });

  it('measures where it is widest', () => {
    const coverage = mask(
      literal(`9 9 9 9 9
                                   0 0 9 9 9
                                   0 0 9 9 9`),
    );
    const { widest } = findHalo(
      flatsOf(`0 0 0 0 0
                                         2 2 0 0 0
                                         2 2 0 0 0`),
      coverage,
    );
    expect(widest).toEqual({ width: 3, at: [2.5, 0.5] });
  });

  it('is what its definition says, in all symmetries and views', () => {
    for (const [w, h] of [
      [1, 1],
      [13, 7],
      [31, 29],
    ] as const) {
      const { flats, coverage } = noise(w, h, w);
      const found = findHalo(flats, raster(coverage, [w, h])).mask;
      expect([...found.data]).toEqual([...oracle(flats.indices.data, coverage, w, h)]);
      const inks = symmetries(raster(coverage, [w, h]));
      const turned = symmetries(found);
      symmetries(flats.indices).forEach((indices, k) => {
        expect(grid(findHalo({ ...flats, indices }, inks[k]!).mask)).toBe(grid(turned[k]!));
      });
      for (const indices of otherViews(flats.indices)) {
        const again = findHalo({ ...flats, indices }, raster(coverage, [w, h]));
        expect(grid(again.mask)).toBe(grid(found));
      }
    }
  });

  it('takes bare surroundings for the ground of flats without one, and no enclosed bare pixel', () => {
    const coverage = mask(`. 40 40 40 40 40 40 40 .
                           40 90 90 90 90 90 90 90 40
                           40 90  .  .  .  .  . 90 40
                           40 90  . 60 60 60  . 90 40
                           40 90  . 60 60 60  . 90 40
                           40 90 90 90 90 90 90 90 40`);
    const flats = bareAround(`0 0 0 0 0 0 0 0 0
                              0 2 2 0 0 2 2 0 0
                              0 2 2 2 2 2 2 0 0
                              0 2 2 2 0 0 2 2 0
                              0 2 2 2 2 2 2 2 0
                              0 2 2 2 2 2 2 2 0`);
    expect(grid(findHalo(flats, coverage).mask)).toBe(
      literal(`. . . . . . . . .
               . . . 1 1 . . 1 .
               . . . . . . . 1 .
               . . . . 1 1 . . .
               . . . . . . . . .
               . . . . . . . . .`),
    );
    const mended = mendHalo(flats, coverage);
    expect(grid(mended.indices)).toBe(
      literal(`. . . . . . . . .
               . 2 2 2 2 2 2 2 .
               . 2 2 2 2 2 2 2 .
               . 2 2 2 2 2 2 2 .
               . 2 2 2 2 2 2 2 .
               . 2 2 2 2 2 2 2 .`),
    );
    expect(mended.ground).toBe(undefined);
    expect(findHalo(mended, coverage).count).toBe(0);
  });

  it('leaves bare surroundings beyond the ridge', () => {
    const coverage = mask(`0 0 90 200 255 200 90 0 0`);
    const found = (text: string) => grid(findHalo(bareAround(text), coverage).mask);
    expect(found(`0 0 0 0 0 2 2 2 2`)).toBe('. . . . . . . . .');
    expect(found(`0 0 0 0 0 0 0 2 2`)).toBe('. . . . . 1 1 . .');
    expect(found(`0 2 0 0 0 0 0 2 2`)).toBe('. . 1 1 . 1 1 . .');
  });

  it('is what its definition says without a ground, in all symmetries and views', () => {
    for (const [w, h, seed] of [
      [1, 1, 1],
      [1, 40, 2],
      [40, 1, 3],
      [13, 7, 4],
      [31, 29, 5],
      [67, 41, 6],
    ] as const) {
      const { flats, coverage } = noise(w, h, seed);
      const indices = flats.indices.data.map((index) => (index === 1 ? 0 : index));
      const around = surroundings(indices, w, h);
      const marked = indices.map((index, i) => (around[i] === 1 ? 1 : index));
      const bare = { indices: raster(indices, [w, h]), palette };
      const found = findHalo(bare, raster(coverage, [w, h])).mask;
      expect([...found.data]).toEqual([...oracle(marked, coverage, w, h)]);
      const inks = symmetries(raster(coverage, [w, h]));
      const turned = symmetries(found);
      symmetries(bare.indices).forEach((view, k) => {
        expect(grid(findHalo({ palette, indices: view }, inks[k]!).mask)).toBe(grid(turned[k]!));
      });
      for (const view of otherViews(bare.indices)) {
        const again = findHalo({ palette, indices: view }, raster(coverage, [w, h]));
        expect(grid(again.mask)).toBe(grid(found));
      }
    }
  });

  it('is the same whether the surroundings are bare or a ground of the same pixels', () => {
    for (const w of [1, 30, 31, 32, 33, 70_001]) {
      const { flats, coverage } = noise(w, 2, w); // in two rows every pixel is on the border
      const ink = raster(coverage, [w, 2]);
      const swap = (from: number, to: number) =>
        raster(
          flats.indices.data.map((index) => (index === from ? to : index)),
          [w, 2],
        );
      const bare = findHalo({ indices: swap(1, 0), palette }, ink);
      expect(bare).toEqual(findHalo({ ...flats, indices: swap(0, 1) }, ink));
      if (w > 30) expect(bare.count).toBeGreaterThan(0);
    }
  });

  it('refuses rasters of other sizes and no coverage', () => {
    const { flats } = noise(4, 4, 1);
    expect(() => findHalo(flats, raster(new Uint8Array(12), [4, 3]))).toThrow(
      /coverage must have the size of flats, 4 × 4, got 4 × 3/,
    );
    expect(() => mendHalo(flats, raster(new Uint8Array(12), [4, 3]))).toThrow(/coverage must/);
  });
});

describe('mendHalo', () => {
  it('lays the flat beside it', () => {
    const coverage = mask(`0 90 200 255 200 90 0`);
    const mended = mendHalo(flatsOf(`2 1 1 1 1 0 1`), coverage);
    expect(grid(mended.indices)).toBe('2 2 2 1 1 1 1');
    expect(mended.ground).toBe('sky');
  });

  it('leaves nothing to find wherever something is laid, and changes nothing else', () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 9999 }), (seed) => {
        const { flats, coverage } = noise(17, 13, seed);
        const ink = raster(coverage, [17, 13]);
        const before = flats.indices.data.slice();
        const mended = mendHalo(flats, ink);
        // What is left is bare, as is all around: nothing that is laid leads there.
        const left = findHalo(mended, ink).mask;
        const { indices } = mended;
        left.data.forEach((found, i) => {
          if (found === 0) return;
          for (let v = -1; v <= 1; v++) {
            for (let u = -1; u <= 1; u++) {
              const [x, y] = [(i % 17) + u, Math.floor(i / 17) + v];
              if (x >= 0 && y >= 0 && x < 17 && y < 13) expect(indices.get(x, y)).toBe(0);
            }
          }
        });
        expect(flats.indices.data).toEqual(before);
        mended.indices.data.forEach((index, i) => {
          if (before[i]! > 1 || coverage[i] === 0 || coverage[i] === 255)
            expect(index).toBe(before[i]);
        });
      }),
      { numRuns: 200 },
    );
  });

  it('leaves nothing to find beside what is laid without a ground either, and shrinks no flat', () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 9999 }), (seed) => {
        const { flats, coverage } = noise(17, 13, seed);
        const ink = raster(coverage, [17, 13]);
        const before = flats.indices.data.map((index) => (index === 1 ? 0 : index));
        const { indices } = mendHalo({ indices: raster(before, [17, 13]), palette }, ink);
        const left = findHalo({ indices, palette }, ink).mask;
        left.data.forEach((found, i) => {
          if (found === 0) return;
          for (const u of [-1, 0, 1]) {
            for (const v of [-1, 0, 1]) {
              const [x, y] = [(i % 17) + u, Math.floor(i / 17) + v];
              if (x >= 0 && y >= 0 && x < 17 && y < 13) expect(indices.get(x, y)).toBe(0);
            }
          }
        });
        indices.data.forEach((index, i) => {
          if (before[i] !== 0 || coverage[i] === 0 || coverage[i] === 255)
            expect(index).toBe(before[i]);
        });
      }),
      { numRuns: 200 },
    );
  });

  it('is not needed after growing with the coverage', () => {
    const size = 40;
    const coverage = Uint8Array.from({ length: size * size }, (_, i) => {
      const [x, y] = [(i % size) - 19.5, Math.floor(i / size) - 19.5];
      const d = Math.abs(Math.sqrt(x * x + y * y) - 13);
      return d < 1 ? 255 : d < 3 ? Math.round(255 * (1.5 - d / 2)) : 0;
    });
    const ink = raster(coverage, [size, size]);
    const laid = Uint8Array.from(coverage, (v, i) => {
      const [x, y] = [(i % size) - 19.5, Math.floor(i / size) - 19.5];
      return v > 0 ? 1 : x * x + y * y < 169 ? 2 : 1;
    });
    const flats = { indices: raster(laid, [size, size]), palette, ground: 'sky' };
    expect(findHalo(flats, ink).count).toBeGreaterThan(50);
    expect(findHalo(mendHalo(flats, ink), ink).count).toBe(0);
    const under = raster(
      coverage.map((v) => (v > 0 ? 1 : 0)),
      [size, size],
    );
    const grown = growUnderInk(raster(Int32Array.from(laid), [size, size]), under, {
      coverage: ink,
    });
    const indices = raster(Uint8Array.from(grown.data), [size, size]);
    expect(findHalo({ ...flats, indices }, ink).count).toBe(0);
  });
});

describe('the check "halo"', () => {
  it('has a finding for each place, of the ground', () => {
    const coverage = mask(`0 90 200 255 0 0 90 255`);
    const flats = flatsOf(`2 1 1 1 1 3 1 1`);
    const found = checkFlats(flats, { coverage, checks: ['halo'] });
    expect(found.map(({ message }) => message)).toEqual([
      'halo of 2 pixels at [1, 0]',
      'halo of 1 pixel at [6, 0]',
    ]);
    expect(found[0]!.swatches).toEqual(['sky']);
    expect(checkFlats(mendHalo(flats, coverage), { coverage, checks: ['halo'] })).toEqual([]);
    expect(() => checkFlats(flats, { checks: ['halo'] })).toThrow(/coverage must be given/);
  });

  it('runs without a ground, on the bare surroundings, and leaves enclosed bare pixels to "bare"', () => {
    const coverage = mask(`0 0  0  0 90
                           0 0 90  0 90
                           0 0  0  0 90`);
    const flats = bareAround(`2 2 2 2 0
                              2 2 0 2 0
                              2 2 2 2 2`);
    const found = checkFlats(flats, { coverage, checks: ['halo', 'bare'] });
    expect(found.map(({ message }) => message)).toEqual([
      'halo of 2 pixels at [4, 0]',
      '2 pixels bare at [4, 0]',
      '1 pixel bare at [2, 1]',
    ]);
    expect(found[0]!.swatches).toEqual([]);
    expect(checkFlats(mendHalo(flats, coverage), { coverage })).toEqual([]);
    expect(checkFlats(paintFlats(flats), { coverage, checks: ['halo'] })).toHaveLength(1);
  });

  it('leaves a flat drawn short of the line to "seams", and to "bare" without a ground', () => {
    const coverage = mask(`0 0 0 90 255 90 0`);
    const names = (flats: Parameters<typeof checkFlats>[0]) =>
      checkFlats(flats, { coverage, checks: ['bare', 'seams', 'halo'] }).map(({ check }) => check);
    expect(names(flatsOf(`2 2 1 1 1 1 1`))).toEqual(['seams']);
    expect(names(flatsOf(`2 2 2 1 1 1 1`))).toEqual(['seams', 'halo']);
    expect(names(bareAround(`2 2 0 0 0 0 0`))).toEqual(['bare']);
    expect(names(bareAround(`2 2 2 0 0 0 0`))).toEqual(['bare', 'halo']);
    const short = bareAround(`2 2 0 0 0 0 0`);
    expect(grid(mendHalo(short, coverage).indices)).toBe(grid(short.indices));
  });

  it('leaves blended pixels of a picture to "blended"', () => {
    const alphas = [255, 255, 255, 128, 0, 0, 0];
    const data = [0, 1, 2].flatMap(() => alphas.flatMap((alpha) => [200, 100, 50, alpha]));
    const art = raster(Uint8Array.from(data), [7, 3, 4]);
    const ink = (row: number[]) => raster(Uint8Array.from([...row, ...row, ...row]), [7, 3]);
    const checks = ['halo'] as const;
    const found = checkFlats(art, { coverage: ink([0, 0, 0, 80, 200, 80, 0]), checks });
    expect(found.map(({ message }) => message)).toEqual(['halo of 3 pixels at [4, 0]']);
    expect(checkFlats(art, { coverage: ink([0, 0, 0, 200, 80, 0, 0]), checks })).toEqual([]);
  });
});
