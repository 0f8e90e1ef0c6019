import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { checkFlats } from '../../src/checks/check-flats.ts';
import { layFlats } from '../../src/flats/lay-flats.ts';
import { findHalo } from '../../src/halo/find-halo.ts';
import { groundMask } from '../../src/halo/ground-mask.ts';
import { haloMask } from '../../src/halo/halo.ts';
import { mendHalo } from '../../src/halo/mend-halo.ts';
import { paintFlats } from '../../src/palette/paint-flats.ts';
import { raster } from '../../src/raster/raster.ts';
import { growUnderInk } from '../../src/regions/grow.ts';
import { grid, literal, mask, otherViews, symmetries } from '../support/grids.ts';
import { seeded } from '../support/random.ts';
import { expectTicks } from '../support/ticks.ts';

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
 * Halo by its definition: every pixel asks for a path of rising coverage, over and over, from the
 * clear paper of a flat (coverage up to 8), and then for one through the ground from where its clear
 * paper meets a flat on that flat's side, if it is no halo there. Index 1 is the ground.
 */
function oracle(
  indices: Uint8Array,
  coverage: Uint8Array,
  w: number,
  h: number,
  sealed?: Uint8Array,
): Uint8Array {
  const around = (i: number) => every8(i).filter((j) => !between(j, i));
  /** A diagonal step between two pixels that are darker than its end. */
  const between = (from: number, to: number) => {
    const corners = [
      Math.floor(from / w) * w + (to % w),
      Math.floor(to / w) * w + (from % w),
    ].filter((j) => j !== from && j !== to);
    return corners.length === 2 && corners.every((j) => coverage[j]! > coverage[to]!);
  };
  const every8 = (i: number) =>
    [-1, 0, 1].flatMap((v) =>
      [-1, 0, 1].flatMap((u) => {
        const [x, y] = [(i % w) + u, Math.floor(i / w) + v];
        return x < 0 || y < 0 || x >= w || y >= h ? [] : [y * w + x];
      }),
    );
  const side = Array.from(indices, (index, i) => index > 1 && coverage[i]! < 9);
  for (let again = true; again; ) {
    again = false;
    side.forEach((known, i) => {
      if (known || indices[i]! < 2) return;
      if (!around(i).some((j) => side[j] && coverage[j]! < coverage[i]!)) return;
      side[i] = true;
      again = true;
    });
  }
  const found = new Uint8Array(indices.length);
  for (let again = true; again; ) {
    again = false;
    for (let i = 0; i < found.length; i++) {
      const ink = coverage[i]!;
      if (found[i] === 1 || ink === 0 || ink === 255 || indices[i]! > 1) continue;
      const leads = (j: number) => side[j] || (indices[j] === 1 && found[j] === 1);
      if (indices[i] !== 0 && !around(i).some((j) => leads(j) && coverage[j]! < ink)) continue;
      found[i] = 1;
      again = true;
    }
  }
  const isOpen = (i: number) =>
    indices[i] === 1 &&
    coverage[i]! < 9 &&
    found[i] === 0 &&
    around(i).some((j) => side[j] && coverage[j]! < 255);
  /** Clear paper that closes a gap, and clear paper of the ground, lie within a pixel. */
  const isClosed = (i: number) => {
    const clear = every8(i).filter((j) => coverage[j]! < 9);
    return (
      sealed !== undefined &&
      indices[i] === 1 &&
      coverage[i] !== 255 &&
      clear.some((j) => sealed[j] === 1) &&
      clear.some((j) => sealed[j] === 0 && indices[j] === 1)
    );
  };
  const shared = Array.from(indices, (_, i) => isOpen(i) || isClosed(i));
  for (let again = true; again; ) {
    again = false;
    shared.forEach((known, i) => {
      if (known || indices[i] !== 1 || coverage[i] === 255) return;
      if (!around(i).some((j) => shared[j] && coverage[j]! < coverage[i]!)) return;
      shared[i] = true;
      again = true;
    });
  }
  return found.map((halo, i) => (shared[i] ? 0 : halo));
}

/** Blots of flats, ground and bare pixels, and rough ink. */
function noise(w: number, h: number, seed: number) {
  const random = seeded(seed);
  const indices = Uint8Array.from({ length: w * h }, () => Math.floor(random() * 4));
  const levels = [0, 8, 60, 120, 200, 255];
  const coverage = Uint8Array.from({ length: w * h }, () => levels[Math.floor(random() * 6)]!);
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

  it('leaves the ends of a seam that crosses clear paper, and dips within the ink', () => {
    // A line from the left ends; the gap behind it is closed, and the seam runs on over clear paper.
    const end = mask(`0 0   0   0   0 0
                      0 90  90  60  0 0
                      255 255 255 128 0 0
                      0 90  90  60  0 0
                      0 0   0   0   0 0`);
    const sealed = `1 1 1 1 1 1
                    1 1 1 1 1 1
                    1 1 1 1 1 1
                    2 2 2 2 1 1
                    2 2 2 2 2 2`;
    expect(findHalo(flatsOf(sealed), end).count).toBe(0);
    const short = sealed.replace('2 2 2 2 1 1', '2 1 1 2 1 1');
    expect(grid(findHalo(flatsOf(short), end).mask)).toBe(
      literal(`. . . . . .
               . . . . . .
               . . . . . .
               . 1 1 . . .
               . . . . . .`),
    );
    const dip = mask(`0 200 255 255 255 0
                      0 200 255 180 255 0
                      0 200 255 200 255 0`);
    const meeting = `2 2 2 1 1 1
                     2 2 2 2 1 1
                     2 2 2 1 1 1`;
    expect(findHalo(flatsOf(meeting), dip).count).toBe(0);
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

/** Antialiased rings with a gap, in different sizes and places, their flats laid by `layFlats`. */
function laidRing(seed: number) {
  const random = seeded(seed);
  const size = 96;
  const radius = 22 + 14 * random();
  const half = 1 + 2 * random();
  const [cx, cy] = [48 + random(), 48 + random()];
  const angle = 2 * Math.PI * random();
  const gap = 3 + 3 * random();
  const distance = (x: number, y: number) => {
    const [dx, dy] = [x - cx, y - cy];
    const across = Math.abs(Math.sqrt(dx * dx + dy * dy) - radius);
    const along = Math.abs(Math.cos(angle) * dy - Math.sin(angle) * dx);
    const inGap = Math.cos(angle) * dx + Math.sin(angle) * dy > 0 && along < gap / 2;
    return inGap ? Number.POSITIVE_INFINITY : across;
  };
  const coverage = Uint8Array.from({ length: size * size }, (_, i) => {
    let inked = 0;
    for (let k = 0; k < 16; k++) {
      const x = (i % size) + ((k & 3) + 0.5) / 4;
      const y = Math.floor(i / size) + ((k >> 2) + 0.5) / 4;
      if (distance(x, y) < half) inked++;
    }
    return Math.round((255 * inked) / 16);
  });
  const ink = raster(
    coverage.map((v) => (v > 127 ? 1 : 0)),
    [size, size],
  );
  const laid = layFlats({ ink, coverage: raster(coverage, [size, size]) }, { maxGap: 12 });
  return { laid, coverage, size, radius, center: [cx, cy] as const, angle };
}

describe('groundMask', () => {
  it('without a ground is the bare surroundings by their definition, in narrow and wide pictures', () => {
    const random = seeded(92);
    for (let n = 0; n < 120; n++) {
      const [w, h] = [1 + Math.floor(70 * random()), 1 + Math.floor(6 * random())];
      const share = random();
      const indices = Uint8Array.from({ length: w * h }, () => (random() < share ? 2 : 0));
      expect(groundMask(indices, -1, w, h)).toEqual(surroundings(indices, w, h));
    }
    expect(groundMask(new Uint8Array(120).fill(2), -1, 40, 3)).toEqual(new Uint8Array(120));
  });
});

describe('haloMask', () => {
  it('leaves the ground beside clear paper that closes a gap, as its definition says', () => {
    const random = seeded(91);
    let spared = 0;
    for (let n = 0; n < 150; n++) {
      const [w, h] = [1 + Math.floor(9 * random()), 1 + Math.floor(9 * random())];
      const { flats, coverage } = noise(w, h, n + 1);
      const indices = flats.indices.data;
      const share = random() < 0.5 ? 0.1 : 0.4;
      const sealed = coverage.map((ink) => (ink > 127 || random() < share ? 1 : 0));
      const ground = groundMask(indices, 1, w, h);
      const input = { indices, ground, coverage, width: w, height: h };
      const expected = oracle(indices, coverage, w, h, sealed);
      expect([...haloMask({ ...input, sealed })]).toEqual([...expected]);
      const open = oracle(indices, coverage, w, h);
      if (expected.some((is, i) => is !== open[i])) spared++;
    }
    expect(spared).toBeGreaterThan(10);
  });

  it('tells how far it has come', () => {
    const [width, height] = [2048, 1024];
    const indices = new Uint8Array(width * height).fill(1);
    const coverage = new Uint8Array(width * height);
    indices[9 * width + 9] = 2;
    coverage[9 * width + 10] = 100;
    const ground = groundMask(indices, 1, width, height);
    const input = { indices, ground, coverage, width, height };
    expectTicks((tick) => void haloMask(input, tick), { least: 12, step: 0.11 });
    expectTicks((tick) => void groundMask(indices, 1, width, height, tick), {
      least: 4,
      step: 0.25,
    });
    const bare = new Uint8Array(width * height);
    expectTicks((tick) => void groundMask(bare, -1, width, height, tick), { least: 4, step: 0.3 });
  });
});

describe('flats laid on antialiased ink with a closed gap', () => {
  it('have no halo', () => {
    for (let seed = 1; seed <= 60; seed++) {
      const { laid, coverage, size } = laidRing(seed);
      expect(laid.report.regions, `regions of ${seed}`).toBe(2);
      expect(laid.report.bridges.some(({ drawn }) => drawn)).toBe(true);
      expect(findHalo(laid.flats, raster(coverage, [size, size])).count, `seed ${seed}`).toBe(0);
    }
  });

  it('show the ground wherever it is laid on the flat’s side of the line, the gap’s ends included', () => {
    let seededFaults = 0;
    for (let seed = 1; seed <= 60; seed++) {
      const { laid, coverage, size, radius, center, angle } = laidRing(seed);
      const { data } = laid.flats.indices;
      const groundAt = laid.flats.palette.findIndex(({ name }) => name === 'ground');
      for (const turn of [0.35, 0.6, 1, 2, 3, 4, 5, 5.9]) {
        const indices = data.slice();
        const x0 = center[0] + radius * Math.cos(angle + turn);
        const y0 = center[1] + radius * Math.sin(angle + turn);
        const wrong = new Set<number>();
        for (let i = 0; i < data.length; i++) {
          const [x, y] = [(i % size) + 0.5, Math.floor(i / size) + 0.5];
          const [dx, dy] = [x - center[0], y - center[1]];
          if ((x - x0) ** 2 + (y - y0) ** 2 > 16 || dx * dx + dy * dy >= radius * radius) continue;
          if (coverage[i] === 0 || coverage[i] === 255 || data[i] === groundAt) continue;
          indices[i] = groundAt;
          wrong.add(i);
        }
        const { mask } = findHalo(
          { ...laid.flats, indices: raster(indices, [size, size]) },
          raster(coverage, [size, size]),
        );
        let hit = 0;
        mask.data.forEach((found, i) => {
          if (found === 0) return;
          expect(wrong.has(i)).toBe(true);
          hit++;
        });
        expect(hit, `ring ${seed}, turned ${turn}`).toBeGreaterThanOrEqual(0.75 * wrong.size);
        seededFaults++;
      }
    }
    expect(seededFaults).toBe(480);
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
    expect(names(flatsOf(`2 2 2 1 1 1 1`))).toEqual(['halo', 'seams']);
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
