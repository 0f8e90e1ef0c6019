import fc from 'fast-check';
import type { NdArray } from 'ndarray';
import { describe, expect, it } from 'vitest';
import { floodFill } from '../../src/fill/flood-fill.ts';
import { edgeHardness } from '../../src/fringe/edge-hardness.ts';
import { type FringePair, findFringe } from '../../src/fringe/find-fringe.ts';
import { hardenEdges } from '../../src/fringe/harden-edges.ts';
import { paintFlats } from '../../src/palette/paint-flats.ts';
import { selectSwatch } from '../../src/palette/select-swatch.ts';
import { raster } from '../../src/raster/raster.ts';
import { grid, literal, pixelViews, symmetries } from '../support/grids.ts';
import { seeded } from '../support/random.ts';

type Rgb = readonly [number, number, number];
const BLACK: Rgb = [0, 0, 0];
const WHITE: Rgb = [255, 255, 255];

/** RGB pixels of a picture of letters. */
function picture(text: string, colors: Record<string, Rgb>): NdArray<Uint8Array> {
  const rows = literal(text).split('\n');
  const [w, h] = [rows[0]!.length, rows.length];
  return raster(Uint8Array.from([...rows.join('')].flatMap((c) => [...colors[c]!])), [w, h, 3]);
}

const byColors = (p: FringePair, q: FringePair): number =>
  `${p.a} ${p.b}` < `${q.a} ${q.b}` ? -1 : 1;

const mixOf = (a: Rgb, b: Rgb, t: number): Rgb =>
  [0, 1, 2].map((c) => Math.round(a[c]! + t * (b[c]! - a[c]!))) as unknown as Rgb;

/** Discs and half-planes of flat colors, each pixel the mean of n × n samples. */
function scene(w: number, h: number, n: number, seed: number): NdArray<Uint8Array> {
  const random = seeded(seed);
  const shapes = Array.from({ length: 6 }, () => ({
    x: random() * w,
    y: random() * h,
    r: 4 + random() * 12,
    color: [0, 1, 2].map(() => 32 * Math.floor(random() * 8)) as unknown as Rgb,
  }));
  const data = new Uint8Array(3 * w * h);
  for (let i = 0; i < w * h; i++) {
    const sum = [0, 0, 0];
    for (let s = 0; s < n * n; s++) {
      const x = (i % w) + ((s % n) + 0.5) / n;
      const y = Math.floor(i / w) + (Math.floor(s / n) + 0.5) / n;
      const top = shapes.findLast((d) => (x - d.x) ** 2 + (y - d.y) ** 2 < d.r ** 2);
      (top?.color ?? WHITE).forEach((v, c) => {
        sum[c]! += v;
      });
    }
    for (let c = 0; c < 3; c++) data[3 * i + c] = Math.round(sum[c]! / (n * n));
  }
  return raster(data, [w, h, 3]);
}

/** The same picture with noise on every sample of up to `most` levels. */
function noisy(art: NdArray<Uint8Array>, most: number, seed: number): NdArray<Uint8Array> {
  const random = seeded(seed);
  const data = art.data.map((v) => {
    const moved = v + Math.round((2 * random() - 1) * most);
    return Math.min(255, Math.max(0, moved));
  });
  return raster(data, art.shape);
}

/** Each sample the mean of those up to `reach` pixels from it, as a box blur makes it. */
function blurred(art: NdArray<Uint8Array>, reach: number): NdArray<Uint8Array> {
  const [w, h] = art.shape as [number, number];
  const inside = (v: number, size: number) => Math.min(size - 1, Math.max(0, v));
  const side = 2 * reach + 1;
  const data = art.data.map((_, k) => {
    const x = Math.floor(k / 3) % w;
    const y = Math.floor(k / 3 / w);
    let sum = 0;
    for (let s = 0; s < side * side; s++) {
      const u = inside(x + (s % side) - reach, w);
      const v = inside(y + Math.floor(s / side) - reach, h);
      sum += art.get(u, v, k % 3);
    }
    return Math.round(sum / (side * side));
  });
  return raster(data, [w, h, 3]);
}

/** All samples of a view of pixels, row by row. */
function samplesOf(view: NdArray<Uint8Array | Uint8ClampedArray>): number[] {
  const [w, h, c] = view.shape as [number, number, number];
  return Array.from({ length: w * h * c }, (_, k) => {
    const i = Math.floor(k / c);
    return view.get(i % w, Math.floor(i / w), k % c);
  });
}

describe('findFringe', () => {
  it('finds mixes and says of what', () => {
    const colors = {
      k: BLACK,
      w: WHITE,
      a: mixOf(BLACK, WHITE, 0.25),
      b: mixOf(BLACK, WHITE, 0.75),
    };
    const found = findFringe(
      picture(
        `kkkkwwwww
         kkkkawwww
         kkkkbwwww
         kkkkkwwww`,
        colors,
      ),
    );
    expect(grid(found.mask)).toBe(
      literal(`. . . . . . . . .
               . . . . 1 . . . .
               . . . . 1 . . . .
               . . . . . . . . .`),
    );
    expect(found.pairs).toEqual([
      { a: '#000000', b: '#ffffff', count: 2, mix: expect.closeTo(0.5, 2) },
    ]);
    expect(found.worst).toEqual([{ at: [4.5, 1.5], count: 2, bounds: [4, 1, 5, 3] }]);
    expect(found.unexplained).toBe(0);
  });

  it('leaves a bent line of one pixel, and a straight one inside an area', () => {
    const colors = { k: BLACK, w: WHITE, c: [200, 40, 90] as const };
    const bent = picture(
      `wwwwwwwwww
       wwwcccwwww
       wwcwwwcwww
       wcwwwwwcww
       wcwwwwwcww
       wwwwwwwwww`,
      colors,
    );
    expect(findFringe(bent).count).toBe(0);
    const straight = picture(
      `wwwwwwwwww
       wwwwwwwwww
       wccccccccw
       wwwwwwwwww
       wwwwwwwwww`,
      colors,
    );
    expect(findFringe(straight).count).toBe(0);
  });

  it('reports a rim between two areas, of a color that has none', () => {
    const colors = { k: BLACK, w: WHITE, r: [200, 40, 90] as const };
    const rim = picture(
      `wwwwwwwwww
       wwwwwwwwww
       wwwwwwwwww
       rrrrrrrrrr
       kkkkkkkkkk
       kkkkkkkkkk
       kkkkkkkkkk`,
      colors,
    );
    const found = findFringe(rim);
    expect(found.count).toBe(10);
    expect(found.unexplained).toBe(10);
  });

  it('counts partial alpha as a mix with what is transparent', () => {
    const rows = Array.from({ length: 4 }, () => [255, 255, 255, 128, 0, 0, 0, 0]);
    const data = Uint8Array.from(rows.flat().flatMap((alpha) => [200, 100, 50, alpha]));
    const { count, pairs } = findFringe(raster(data, [8, 4, 4]));
    expect(count).toBe(4);
    expect(pairs).toEqual([{ a: 'bare', b: '#c86432', count: 4, mix: 128 / 255 }]);
  });

  it('tells linear light from sRGB samples', () => {
    const linear = (v: number) => (v <= 0.04045 ? v / 12.92 : ((v + 0.055) / 1.055) ** 2.4);
    const encoded = (v: number) => (v <= 0.0031308 ? 12.92 * v : 1.055 * v ** (1 / 2.4) - 0.055);
    const [a, b]: [Rgb, Rgb] = [
      [230, 40, 20],
      [20, 90, 240],
    ];
    const mixed = (t: number) =>
      a.map((v, c) =>
        Math.round(255 * encoded((1 - t) * linear(v / 255) + t * linear(b[c]! / 255))),
      );
    const row = (t: number) => [a, a, a, mixed(t), b, b, b].flat();
    const data = Uint8Array.from([0.2, 0.3, 0.4, 0.6, 0.7].flatMap(row));
    const { count, pairs } = findFringe(raster(data, [7, 5, 3]));
    expect(count).toBe(5);
    expect(pairs.length).toBe(1);
    expect(pairs[0]!.mix).toBeCloseTo(0.56, 2);
  });

  it('sees the same pixels in all symmetries and views, and in all kinds of samples', () => {
    const art = scene(61, 43, 4, 5);
    const mask = findFringe(art).mask;
    const [w, h] = [61, 43];
    expect(findFringe(art).count).toBeGreaterThan(100);
    const turnedMasks = symmetries(mask);
    const pairs = (view: NdArray<Uint8Array>) => findFringe(view).pairs.toSorted(byColors);
    pixelViews(art).forEach((view, k) => {
      expect(grid(findFringe(view).mask)).toBe(grid(turnedMasks[k] ?? mask));
      expect(pairs(view)).toEqual(
        pairs(art).map((pair) => ({ ...pair, mix: expect.closeTo(pair.mix, 9) })),
      );
    });
    const deep = raster(
      Uint16Array.from(art.data, (v) => 257 * v),
      [w, h, 3],
    );
    expect(grid(findFringe(deep).mask)).toBe(grid(mask));
  });

  it('takes pictures of one pixel, of one row, and wider than 65,535', () => {
    expect(findFringe(raster(new Uint8Array([9]), [1, 1])).count).toBe(0);
    const long = new Uint8Array(70_001).fill(255, 40_000);
    long[40_000] = 100;
    const found = findFringe(raster(long, [70_001, 1]));
    expect(found.worst).toEqual([
      { at: [40_000.5, 0.5], count: 1, bounds: [40_000, 0, 40_001, 1] },
    ]);
    expect(findFringe(raster(long, [1, 70_001])).count).toBe(1);
  });

  it('refuses what is no picture or option, by name', () => {
    const art = scene(8, 8, 1, 1);
    // @ts-expect-error no such option
    expect(() => findFringe(art, { place: 3 })).toThrow(/findFringe has no option "place"/);
    expect(() => findFringe(art, { places: -1 })).toThrow(/places must be a whole number >= 0/);
    // @ts-expect-error no such light
    expect(() => findFringe(art, { light: 'dark' })).toThrow(/light must be one of/);
    expect(() => findFringe({ data: new Uint8Array(5), width: 2, height: 2 })).toThrow(/pixels/);
  });
});

describe('hardenEdges', () => {
  it.each([
    ['few levels', scene(61, 43, 2, 5)],
    ['many levels', scene(61, 43, 8, 6)],
    ['hard edges', scene(61, 43, 1, 7)],
    ['a little noise', noisy(scene(61, 43, 4, 8), 4, 1)],
    ['much noise', noisy(scene(61, 43, 4, 9), 12, 2)],
    ['nothing but noise', noisy(scene(61, 43, 1, 10), 255, 3)],
  ])('lays the same colors in all symmetries and views: %s', (_, art) => {
    const laid = paintFlats(hardenEdges(art));
    const turnedLaid = symmetries(laid);
    pixelViews(art).forEach((view, k) => {
      const found = samplesOf(paintFlats(hardenEdges(view)));
      expect(found).toEqual(samplesOf(turnedLaid[k] ?? laid));
    });
  });

  it('gives equal shares to the first in the order of colors, whichever way the picture lies', () => {
    const colors = { k: [8, 0, 0] as const, r: [0, 200, 0] as const, x: [4, 100, 0] as const };
    const art = picture(
      `rrrrxkkkk
       rrrrxkkkk
       rrrrxkkkk
       rrrrxkkkk`,
      colors,
    );
    for (const view of symmetries(art)) {
      const { indices, palette } = hardenEdges(view);
      const first = palette.findIndex(({ color }) => color === '#00c800');
      expect(indices.data.filter((index) => index === first).length).toBe(20);
    }
    const palette = [
      { name: 'k', color: '#080000' },
      { name: 'r', color: '#00c800' },
    ];
    const { indices } = hardenEdges(art, { palette });
    expect(indices.data.filter((index) => index === 2).length).toBe(20);
  });

  it('gives each blend to the color that covers most of it', () => {
    for (const t of [0.1, 0.3, 0.45, 0.55, 0.7, 0.9]) {
      const colors = { k: BLACK, w: WHITE, x: mixOf(BLACK, WHITE, t) };
      const art = picture(
        `kkkkwwww
         kkkkwwww
         kkkkxwww
         kkkkwwww
         kkkkwwww`,
        colors,
      );
      expect(hardenEdges(art).indices.get(4, 2)).toBe(t < 0.5 ? 1 : 2);
    }
  });

  it('sees which way an edge runs where a rasteriser has few levels', () => {
    const levels = [1, 1, 1, 1, 0.75, 0.75, 0.75, 0.5, 0.5, 0.5, 0.5, 0.25, 0.25, 0.25, 0, 0, 0, 0];
    const gray = (t: number) => Math.round(255 * t);
    const rows = [0, 0, 0, -1, 1, 1, 1].map((v) => levels.map((t) => (v < 0 ? gray(t) : gray(v))));
    const { indices, palette } = hardenEdges(
      raster(Uint8Array.from(rows.flat()), [levels.length, 7]),
    );
    const row = levels.map((_, x) => palette[indices.get(x, 3)]!.color);
    expect(row.slice(7, 9)).toEqual(['#ffffff', '#ffffff']);
    expect(row.slice(9, 11)).toEqual(['#000000', '#000000']);
  });

  it('leaves no blend: colors are swatches, and selecting each parts the picture', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 1, max: 10_000 }),
        fc.integer({ min: 1, max: 5 }),
        (seed, n) => {
          const flats = hardenEdges(scene(37, 29, n, seed));
          const painted = paintFlats(flats);
          expect(findFringe(painted, { places: 0 }).unexplained).toBe(0);
          const words = new Uint32Array(painted.data.buffer);
          expect(new Set(words).size).toBe(flats.palette.length - 1);
          const seen = new Uint8Array(words.length);
          for (const { name } of flats.palette.slice(1)) {
            selectSwatch(flats, name).data.forEach((v, i) => {
              seen[i]! += v;
            });
          }
          expect(seen.every((v) => v === 1)).toBe(true);
        },
      ),
      { numRuns: 40 },
    );
  });

  it('finds no swatch without pixels, in noise of any strength', () => {
    for (const most of [3, 6, 9, 12]) {
      for (let seed = 1; seed <= 30; seed++) {
        const { indices, palette } = hardenEdges(noisy(scene(61, 43, 1, seed), most, seed + 1));
        const used = new Set(indices.data);
        used.add(0);
        expect([...used].sort((a, b) => a - b)).toEqual([...palette.keys()]);
      }
    }
  });

  it('keeps swatches of a given palette that have no pixels', () => {
    const palette = ['#ffffff', '#123456', '#204060'].map((color) => ({ name: color, color }));
    const art = noisy(scene(61, 43, 1, 3), 9, 4);
    expect(hardenEdges(art, { palette }).palette.slice(1)).toEqual(palette);
  });

  it.each([31, 32, 33, 8])(
    'hardens blurred edges, wide ones with a palette: drawing %i',
    (seed) => {
      const crisp = scene(120, 90, 1, seed);
      const { indices, palette } = hardenEdges(crisp);
      for (const reach of [1, 2, 3, 4]) {
        const soft = blurred(crisp, reach);
        const flats = hardenEdges(soft, { palette });
        expect(flats.palette).toEqual(palette);
        const wrong = flats.indices.data.filter((index, i) => index !== indices.data[i]).length;
        expect(9 * wrong).toBeLessThan(findFringe(soft, { places: 0 }).count);
      }
      const colors = palette.map(({ color }) => color);
      for (const { color } of hardenEdges(blurred(crisp, 1)).palette) {
        expect(colors).toContain(color);
      }
    },
  );

  it('takes a palette by name, and keeps to it', () => {
    const colors = { k: [3, 2, 1] as const, w: WHITE, x: mixOf(BLACK, WHITE, 0.3) };
    const art = picture(
      `kkkkwwww
       kkkkxwww
       kkkkwwww`,
      colors,
    );
    const palette = [
      { name: 'paper', color: '#FFFFFF' },
      { name: 'line', color: '#000000' },
    ];
    const flats = hardenEdges(art, { palette });
    expect(flats.palette.map(({ name }) => name)).toEqual(['bare', 'paper', 'line']);
    expect(grid(flats.indices)).toBe(
      literal(`2 2 2 2 1 1 1 1
               2 2 2 2 2 1 1 1
               2 2 2 2 1 1 1 1`),
    );
  });

  it('gathers near colors, says so, and nothing beyond the limit', () => {
    const colors = { a: [240, 200, 160] as const, b: [240, 200, 164] as const, w: WHITE };
    const art = picture(
      `aaaabbbwww
       aaaabbbwww
       aaaabbbwww`,
      colors,
    );
    const { palette, gathered } = hardenEdges(art);
    expect(palette.map(({ name }) => name)).toEqual(['bare', '#f0c8a0', '#ffffff']);
    expect(gathered).toEqual([
      { color: '#f0c8a4', swatch: '#f0c8a0', difference: expect.closeTo(1.33, 0), count: 9 },
    ]);
    expect(hardenEdges(art, { gather: 0 }).palette.length).toBe(4);
    expect(hardenEdges(art, { gather: 0.5 }).gathered).toEqual([]);
  });

  it('lays transparent pixels bare and rims of partial alpha by their half', () => {
    const alphas = [255, 255, 255, 200, 90, 0, 0, 0];
    const rows = Array.from({ length: 4 }, () => alphas.flatMap((alpha) => [200, 100, 50, alpha]));
    const { indices, palette } = hardenEdges(raster(Uint8Array.from(rows.flat()), [8, 4, 4]));
    expect(palette.length).toBe(2);
    expect([...indices.data.subarray(0, 8)]).toEqual([1, 1, 1, 1, 0, 0, 0, 0]);
  });

  it('lays something everywhere, whatever it gets', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 1, max: 9 }),
        fc.integer({ min: 1, max: 9 }),
        fc.uint8Array({ minLength: 81 * 4, maxLength: 81 * 4 }),
        (w, h, bytes) => {
          const data = bytes.slice(0, 4 * w * h);
          const { indices, palette } = hardenEdges(raster(data, [w, h, 4]));
          expect(indices.data.every((index) => index < palette.length)).toBe(true);
        },
      ),
    );
  });

  it('refuses a palette without a color and other wrong options, by name', () => {
    const art = scene(8, 8, 1, 1);
    expect(() => hardenEdges(art, { palette: [] })).toThrow(/palette must hold a swatch/);
    expect(() => hardenEdges(art, { gather: -1 })).toThrow(/gather must be a finite number >= 0/);
    // @ts-expect-error no such option
    expect(() => hardenEdges(art, { limit: 1 })).toThrow(/hardenEdges has no option "limit"/);
  });
});

describe('worst cases', () => {
  const random = seeded(5);
  const make = (value: (x: number, y: number) => number) => {
    const words = Array.from({ length: 200 * 150 }, (_, i) => value(i % 200, Math.floor(i / 200)));
    const samples = words.flatMap((word) => [word, word >> 8, word >> 16]);
    return raster(Uint8Array.from(samples), [200, 150, 3]);
  };
  it.each([
    ['noise', make(() => Math.floor(random() * 16_777_216)), 30_000, 1],
    ['a gradient', make((x, y) => x | (y << 8)), 30_000, 99],
    ['a checkerboard', make((x, y) => ((x + y) % 2 === 0 ? 0x2030c0 : 0xffffff)), 0, 2],
    ['stripes', make((x) => (x % 2 === 0 ? 0x2030c0 : 0xffffff)), 0, 2],
    ['noise of two colors', make(() => (random() < 0.5 ? 0x2030c0 : 0xffffff)), 0, 2],
  ])('are answered: %s', (_, art, most, swatches) => {
    const { count } = findFringe(art);
    expect(count).toBeLessThanOrEqual(most);
    expect(count).toBeGreaterThanOrEqual(most - 10);
    const { indices, palette } = hardenEdges(art);
    expect(palette.length - 1).toBeLessThanOrEqual(swatches);
    if (most === 0) expect(palette.length - 1).toBe(swatches);
    expect(indices.data.every((index) => index > 0)).toBe(true);
  });

  it('are answered: a row of 70,000 pixels, each of its own color', () => {
    const row = Uint8Array.from({ length: 210_000 }, (_, k) => Math.floor(k / 3) >> (8 * (k % 3)));
    expect(findFringe(raster(row, [70_000, 1, 3])).count).toBe(69_999);
    expect(hardenEdges(raster(row, [70_000, 1, 3])).palette.length).toBe(2);
  });

  it('refuse more colors with areas than there are numbers for, by name', () => {
    const rows = Array.from({ length: 3 }, () =>
      Array.from({ length: 3 * 70_000 * 3 }, (_, k) => Math.floor(k / 9) >> (8 * (k % 3))),
    );
    const art = raster(Uint8Array.from(rows.flat()), [210_000, 3, 3]);
    expect(() => findFringe(art)).toThrow(/pixels must hold at most 65534 solid colors, got more/);
    expect(() => hardenEdges(art, { gather: 0 })).toThrow(/at most 65534 solid colors/);
  });
});

describe('a stroke with soft edges', () => {
  /** A ring of ink, antialiased by 8 × 8 samples, in 48 × 48 pixels. */
  const size = 48;
  const ink = Uint8Array.from({ length: size * size }, (_, i) => {
    let inside = 0;
    for (let s = 0; s < 64; s++) {
      const x = (i % size) + ((s % 8) + 0.5) / 8 - 24;
      const y = Math.floor(i / size) + (Math.floor(s / 8) + 0.5) / 8 - 24;
      const d = Math.sqrt(x * x + y * y);
      if (d > 14 && d < 19) inside++;
    }
    return Math.round((255 * inside) / 64);
  });
  const onEdge = (i: number) => ink[i]! > 0 && ink[i]! < 255;

  it('leaves fringe along it where it is filled by tolerance', () => {
    // common practice, no source
    const art = raster(
      Uint8Array.from(ink, (v) => 255 - v),
      [size, size],
    );
    const rgb = raster(Uint8Array.from([...art.data].flatMap((v) => [v, v, v])), [size, size, 3]);
    floodFill(rgb, [24, 24], [240, 200, 160], { tolerance: 60 });
    const { mask } = findFringe(rgb);
    let inner = 0;
    let reported = 0;
    for (let i = 0; i < ink.length; i++) {
      if (!onEdge(i)) continue;
      const filled = rgb.data[3 * i] === 240 && rgb.data[3 * i + 2] === 160;
      if (filled) continue;
      inner++;
      reported += mask.data[i]!;
    }
    expect(inner).toBeGreaterThan(100);
    expect(reported).toBe(inner);
  });

  it('has none where the flats run under it', () => {
    // common practice, no source
    const flats = Uint8Array.from(ink, (_, i) => {
      const [x, y] = [(i % size) + 0.5 - 24, Math.floor(i / size) + 0.5 - 24];
      return x * x + y * y < 16.5 * 16.5 ? 90 : 200;
    });
    const { count } = findFringe(raster(flats, [size, size]));
    expect(count).toBe(0);
    expect(edgeHardness(raster(flats, [size, size])).hardness).toBe(1);
  });
});

describe('edgeHardness', () => {
  it('is the share of border pixels that step in one pixel', () => {
    const colors = { k: BLACK, w: WHITE, x: mixOf(BLACK, WHITE, 0.3) };
    const { hardness, count, map } = edgeHardness(
      picture(
        `kkkwwww
         kkkwwww
         kkkwwww
         kkkxwww`,
        colors,
      ),
    );
    expect(grid(map)).toBe(
      literal(`. . 1 1 . . .
               . . 1 1 . . .
               . . 1 2 . . .
               . . 2 2 2 . .`),
    );
    expect([hardness, count]).toEqual([5 / 9, 9]);
    expect(edgeHardness(raster(new Uint8Array(12), [4, 3])).hardness).toBe(1);
  });
});
