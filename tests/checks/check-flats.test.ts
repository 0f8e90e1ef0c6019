import fc from 'fast-check';
import type { NdArray } from 'ndarray';
import { describe, expect, it } from 'vitest';
import {
  type CheckFlatsOptions,
  type CheckName,
  checkFlats,
  type Finding,
} from '../../src/checks/index.ts';
import { findFringe } from '../../src/fringe/find-fringe.ts';
import { paintFlats } from '../../src/palette/paint-flats.ts';
import type { Flats, IndexRaster, Swatch } from '../../src/palette/types.ts';
import { raster } from '../../src/raster/raster.ts';
import type { Mask } from '../../src/raster/types.ts';
import { mask, otherViews, symmetries } from '../support/grids.ts';
import { seeded } from '../support/random.ts';
import { openSeams, pixelsOf, places } from './oracle.ts';

const SWATCHES: Swatch[] = [
  { name: 'bare', color: '#000000' },
  { name: 'sky', color: '#a0c8f0' },
  { name: 'fur', color: '#8a5d42' },
  { name: 'eye', color: '#101010' },
];

const flatsOf = (indices: IndexRaster): Flats => ({ indices, palette: SWATCHES });
const flats = (grid: string): Flats => flatsOf(mask(grid));
const rowsOf = (r: NdArray<Uint8Array>): number[][] =>
  Array.from({ length: r.shape[1]! }, (_, y) =>
    Array.from({ length: r.shape[0]! }, (_, x) => r.get(x, y)!),
  );
const only = (...checks: CheckName[]): CheckFlatsOptions => ({
  checks,
});

function random(w: number, h: number, values: number, seed: number): Mask {
  const next = seeded(seed);
  return raster(
    Uint8Array.from({ length: w * h }, () => Math.floor(next() * values)),
    [w, h],
  );
}

/** A finding holds together: its spans give its bounds, its first pixel, and its count. */
function expectSound(found: readonly Finding[]): void {
  for (const { area, bounds, at, spans } of found) {
    const pixels = pixelsOf(spans!).map((text) => text.split(',').map(Number) as [number, number]);
    const [xs, ys] = [pixels.map(([x]) => x), pixels.map(([, y]) => y)];
    expect(bounds).toEqual([
      Math.min(...xs),
      Math.min(...ys),
      Math.max(...xs) + 1,
      Math.max(...ys) + 1,
    ]);
    expect(at).toEqual([xs[0]! + 0.5, ys[0]! + 0.5]);
    expect(area).toBe(pixels.length);
  }
  expect(JSON.parse(JSON.stringify(found))).toEqual(found);
}

describe('bare', () => {
  it('is one finding for each place, corners included', () => {
    const found = checkFlats(
      flats(`
        1 . 1 1
        . 1 1 1
        1 1 1 .
      `),
      only('bare'),
    );
    expect(found).toEqual([
      {
        check: 'bare',
        severity: 'error',
        message: '2 pixels bare at [1, 0]',
        area: 2,
        bounds: [0, 0, 2, 2],
        at: [1.5, 0.5],
        swatches: [],
        spans: [0, 1, 2, 1, 0, 1],
      },
      {
        check: 'bare',
        severity: 'error',
        message: '1 pixel bare at [3, 2]',
        area: 1,
        bounds: [3, 2, 4, 3],
        at: [3.5, 2.5],
        swatches: [],
        spans: [2, 3, 4],
      },
    ]);
  });

  it('is what flooding finds', () => {
    fc.assert(
      fc.property(
        fc.constantFrom(1, 2, 5, 11),
        fc.constantFrom(1, 3, 7),
        fc.integer(),
        (w, h, seed) => {
          const indices = random(w, h, 3, seed);
          const found = checkFlats(flatsOf(indices), only('bare'));
          const wanted = places(rowsOf(indices), (v) => v === 0, 8).map((place) => place.sort());
          expect(found.map(({ spans }) => pixelsOf(spans!).sort())).toEqual(wanted);
          expectSound(found);
        },
      ),
      { seed: 1 },
    );
  });
});

describe('specks', () => {
  it('are areas of one swatch of at most 8 pixels that touch by edges', () => {
    const art = flats(`
      1 1 1 1 1 1
      1 2 2 1 1 1
      1 2 2 3 1 1
      1 2 2 2 3 1
      1 2 2 1 1 1
      1 1 1 1 1 1
    `);
    const found = checkFlats(art, only('specks'));
    expect(found.map(({ message }) => message)).toEqual([
      'speck of 1 pixel of "eye" at [3, 2]',
      'speck of 1 pixel of "eye" at [4, 3]',
    ]);
    expect(found.map(({ swatches }) => swatches)).toEqual([['eye'], ['eye']]);
    const larger = checkFlats(art, {
      checks: { specks: { maxArea: 9 }, seams: false, slivers: false },
    });
    expect(larger.map(({ area }) => area)).toEqual([9, 1, 1]);
    expect(checkFlats(art, { checks: { specks: { maxArea: 0 }, slivers: false } })).toEqual([]);
    expect(checkFlats(art, { checks: { specks: false, slivers: false } })).toEqual([]);
    expect(checkFlats(art, { checks: { specks: {}, slivers: false } })).toHaveLength(2);
  });

  it('are what flooding finds', () => {
    fc.assert(
      fc.property(
        fc.constantFrom(1, 2, 5, 11),
        fc.constantFrom(1, 3, 7),
        fc.integer(),
        (w, h, seed) => {
          const indices = random(w, h, 3, seed);
          const found = checkFlats(flatsOf(indices), {
            checks: { bare: false, slivers: false, specks: { maxArea: 3 } },
          });
          const wanted = places(rowsOf(indices), (v) => v !== 0, 4).filter((p) => p.length <= 3);
          expect(found.map(({ spans }) => pixelsOf(spans!).sort())).toEqual(
            wanted.map((place) => place.sort()),
          );
          expectSound(found);
        },
      ),
      { seed: 2 },
    );
  });
});

describe('seams', () => {
  const art = flats(`
    1 1 1 2 2
    1 1 1 2 2
    1 1 1 2 2
    3 3 3 3 3
  `);

  it('are open where neither side is ink, one finding for each pair and place, longest first', () => {
    const ink = mask(`
      . . . . .
      . . 1 . .
      . . . . .
      . . . . .
    `);
    const found = checkFlats(art, { ink, ...only('seams') });
    expect(found.map(({ message }) => message)).toEqual([
      'open seam of 3 pixel edges between "sky" and "eye" at [0, 2]',
      'open seam of 2 pixel edges between "fur" and "eye" at [3, 2]',
      'open seam of 1 pixel edge between "sky" and "fur" at [2, 0]',
      'open seam of 1 pixel edge between "sky" and "fur" at [2, 2]',
    ]);
    expect(found[0]).toEqual({
      check: 'seams',
      severity: 'warning',
      message: 'open seam of 3 pixel edges between "sky" and "eye" at [0, 2]',
      length: 3,
      area: 6,
      bounds: [0, 2, 3, 4],
      at: [0.5, 2.5],
      swatches: ['sky', 'eye'],
      spans: [2, 0, 3, 3, 0, 3],
    });
    expectSound(found);
  });

  it('are closed under ink on either side', () => {
    const ink = mask(`
      . . 1 . .
      . . . 1 .
      1 1 1 1 1
      . . . . .
    `);
    expect(checkFlats(art, { ink, ...only('seams') })).toEqual([]);
  });

  it('of bare pixels are none', () => {
    const ink = mask('. . . .');
    expect(checkFlats(flats('1 . 2 .'), { ink, ...only('seams') })).toEqual([]);
  });

  it('are what comparing all edges finds', () => {
    fc.assert(
      fc.property(
        fc.constantFrom(1, 2, 5, 9),
        fc.constantFrom(1, 3, 7),
        fc.integer(),
        (w, h, seed) => {
          const indices = random(w, h, 4, seed);
          const ink = raster(
            random(w, h, 4, seed + 1).data.map((v) => (v === 0 ? 1 : 0)),
            [w, h],
          );
          const found = checkFlats(flatsOf(indices), { ink, ...only('seams') });
          expectSound(found);
          const seen = found.map(({ swatches, length, spans }) => ({
            pair: swatches.map((s) => SWATCHES.findIndex(({ name }) => name === s)).join(' '),
            length,
            pixels: pixelsOf(spans!).sort(),
          }));
          const wanted = openSeams(rowsOf(indices), rowsOf(ink)).map((seam) => ({
            ...seam,
            pixels: seam.pixels.sort(),
          }));
          const key = (v: object) => JSON.stringify(v);
          expect(seen.map(key).sort()).toEqual(wanted.map(key).sort());
          const lengths = found.map(({ length }) => length!);
          expect(lengths).toEqual([...lengths].sort((a, b) => b - a));
        },
      ),
      { seed: 3, numRuns: 200 },
    );
  });

  it('take coverage above 127 for ink', () => {
    const coverage = raster(new Uint8Array([0, 127, 128, 255]), [4, 1]);
    const ink = mask('. . 1 1');
    for (const grid of ['1 2 2 2', '1 1 2 2', '1 1 1 2']) {
      expect(checkFlats(flats(grid), { coverage })).toEqual(checkFlats(flats(grid), { ink }));
    }
    expect(checkFlats(flats('1 2 2 2'), { coverage, ...only('seams') })).toHaveLength(1);
  });

  it('need ink', () => {
    expect(() => checkFlats(art, only('seams'))).toThrow(
      new RangeError('ink must be given for the check "seams", got undefined'),
    );
    expect(() => checkFlats(art, { checks: { seams: true } })).toThrow(RangeError);
    expect(checkFlats(art).filter(({ check }) => check === 'seams')).toEqual([]);
    const ink = raster(new Uint8Array(20), [5, 4]);
    expect(checkFlats(art, { ink }).filter(({ check }) => check === 'seams')).toHaveLength(3);
    expect(checkFlats(art, { ink, checks: { seams: false, specks: false } })).toEqual([]);
  });

  it('may run past 65,535 pixels', () => {
    const row = new Uint8Array(140_000).fill(1, 0, 70_000).fill(2, 70_000);
    const ink = new Uint8Array(140_000);
    for (const shape of [
      [70_000, 2],
      [2, 70_000],
    ]) {
      const indices = raster(shape[0] === 2 ? row.map((_, i) => 1 + (i & 1)) : row, shape);
      const [seam] = checkFlats(flatsOf(indices), { ink: raster(ink, shape), ...only('seams') });
      expect(seam!.length).toBe(70_000);
      expect(seam!.bounds).toEqual([0, 0, ...shape]);
    }
  });

  it('name swatches past 256', () => {
    const palette = Array.from({ length: 65_536 }, (_, i) => ({
      name: i === 0 ? 'bare' : `s${i}`,
      color: '#123456',
    }));
    const indices = raster(new Uint16Array([65_535, 65_534]), [2, 1]);
    const [seam] = checkFlats({ indices, palette }, { ink: mask('. .'), ...only('seams') });
    expect(seam!.swatches).toEqual(['s65534', 's65535']);
  });
});

describe('blended', () => {
  /** Pictures as letters: fur, sky, white paper, black ink, mixed gray, half-transparent, clear. */
  const RGBA: Record<string, number[]> = {
    f: [138, 93, 66, 255],
    s: [160, 200, 240, 255],
    w: [255, 255, 255, 255],
    k: [0, 0, 0, 255],
    g: [128, 128, 128, 255],
    h: [138, 93, 66, 128],
    '.': [0, 0, 0, 0],
  };
  const picture = (text: string) => {
    const rows = text.trim().split(/\s+/);
    const data = Uint8Array.from([...rows.join('')].flatMap((letter) => RGBA[letter]!));
    return raster(data, [rows[0]!.length, rows.length, 4]);
  };

  it('are what the finder of fringe takes for it: lines that bend are solid, mixes on edges are not', () => {
    const lash = picture('sssssss sssffss ssfssfs sfssssf sssssss');
    expect(checkFlats(lash, only('blended'))).toEqual([]);
    const edge = picture('wwwwkkkk wwwgkkkk wwwggkkk wwwwgkkk wwwwkkkk wwwwkkkk');
    expect(checkFlats(edge, only('blended')).map(({ area }) => area)).toEqual([4]);
    for (const art of [lash, edge]) {
      const found = checkFlats(art, only('blended'));
      expect(found.reduce((sum, { area }) => sum + area, 0)).toBe(findFringe(art).count);
    }
  });

  it('are partial alpha and colors without an area', () => {
    const found = checkFlats(picture('ffgss ffgss ffhss ff.ss'), { checks: ['blended', 'bare'] });
    expect(found.map(({ message }) => message)).toEqual([
      '3 pixels blended at [2, 0]',
      '1 pixel bare at [2, 3]',
    ]);
    expectSound(found);
  });

  it('or off the palette, however large their area, where one is given', () => {
    const art = picture('ffss ffss ffgg ffgg');
    expect(checkFlats(art, only('blended'))).toEqual([]);
    const palette = SWATCHES.slice(1);
    const found = checkFlats(art, { palette, ...only('off') });
    expect(found.map(({ message }) => message)).toEqual(['4 pixels off the palette at [2, 2]']);
    expect(checkFlats(art, { palette: SWATCHES, ...only('off') })).toEqual(found);
    expect(checkFlats(art, { palette, ...only('blended') })).toEqual([]);
  });

  it('take single pixels of a palette for what they are', () => {
    const art = picture('sfs');
    expect(checkFlats(art, only('blended'))).toHaveLength(1);
    const found = checkFlats(art, { palette: SWATCHES });
    expect(found.map(({ check, swatches }) => `${check} ${swatches}`)).toEqual([
      'specks sky',
      'specks fur',
      'specks sky',
    ]);
  });

  it('are the same in 16 bit, where a sample between two of 8 bit is blended', () => {
    const art = picture('ffgss ffgss ffhss ff.ss');
    const deep = raster(
      Uint16Array.from(art.data, (v) => v * 257),
      art.shape,
    );
    expect(checkFlats(deep)).toEqual(checkFlats(art));
    deep.set(0, 3, 2, deep.get(0, 3, 2)! + 1);
    expect(checkFlats(deep, only('blended'))).toHaveLength(2);
  });

  it('are nowhere in flats, where swatches may be off the palette', () => {
    const art = flats('1 1 2 . 3');
    expect(checkFlats(art, only('blended'))).toEqual([]);
    const palette = [SWATCHES[1]!, { name: 'iris', color: '#101010' }];
    const found = checkFlats(art, { palette, ...only('off', 'bare') });
    expect(found.map(({ message }) => message)).toEqual([
      '1 pixel off the palette at [2, 0]',
      '1 pixel bare at [3, 0]',
    ]);
    expect(found[0]!.swatches).toEqual(['fur']);
    const painted = checkFlats(paintFlats(art), { palette, ...only('off', 'bare') });
    expect(painted).toEqual(found.map((finding) => ({ ...finding, swatches: [] })));
  });

  it('read gray, RGB and RGBA alike', () => {
    const gray = random(9, 5, 3, 4);
    const copy = (c: number) =>
      raster(
        Uint8Array.from({ length: 45 * c }, (_, i) =>
          c % 2 === 0 && i % c === c - 1 ? 255 : gray.data[Math.floor(i / c)]!,
        ),
        [9, 5, c],
      );
    const wanted = checkFlats(gray);
    expect(wanted.length).toBeGreaterThan(0);
    for (const c of [1, 2, 3, 4]) expect(checkFlats(copy(c))).toEqual(wanted);
  });

  it('are not in a picture of one pixel or one line', () => {
    expect(checkFlats(picture('f'), only('blended'))).toEqual([]);
    expect(checkFlats(picture('ffgss'), only('blended'))).toHaveLength(1);
    expect(checkFlats(picture('f f g s s'), only('blended'))).toHaveLength(1);
    expect(checkFlats(picture('.'), only('blended'))).toEqual([]);
  });
});

/**
 * Common practice, no source: an area filled straight up to an antialiased line keeps a fringe of
 * pixels that are neither paper, ink nor flat; flats laid under the line have none.
 */
describe('a fill up to an antialiased line', () => {
  const [size, radius, half] = [64, 22, 1.5];
  const fill = [138, 93, 66];
  const coverage = Float64Array.from({ length: size * size }, (_, i) => {
    const [x, y] = [(i % size) + 0.5 - size / 2, Math.floor(i / size) + 0.5 - size / 2];
    const off = Math.abs(Math.sqrt(x * x + y * y) - radius) - half;
    return Math.min(1, Math.max(0, 0.5 - off));
  });
  const inside = (i: number) => {
    const [x, y] = [(i % size) + 0.5 - size / 2, Math.floor(i / size) + 0.5 - size / 2];
    return x * x + y * y < radius * radius;
  };
  const filled = Uint8Array.from({ length: size * size * 3 }, (_, k) => {
    const i = Math.floor(k / 3);
    const paper = Math.round(255 * (1 - coverage[i]!));
    return paper === 255 && inside(i) ? fill[k % 3]! : paper;
  });
  const mixed = coverage.filter((c) => Math.round(255 * c) % 255 !== 0).length;
  const palette = [
    { name: 'paper', color: '#ffffff' },
    { name: 'ink', color: '#000000' },
    { name: 'fur', color: '#8a5d42' },
  ];

  it('leaves a fringe all along the line', () => {
    const art = raster(filled, [size, size, 3]);
    for (const options of [only('blended'), { palette, ...only('off') }]) {
      const found = checkFlats(art, options);
      expect(found.reduce((sum, { area }) => sum + area, 0)).toBe(mixed);
      expect(found[0]!.bounds).toEqual([8, 8, 56, 56]);
    }
    expect(mixed).toBeGreaterThan(200);
  });

  it('has none where the flats meet under the line', () => {
    const indices = Uint8Array.from(coverage, (_, i) => (inside(i) ? 2 : 1));
    const art = { indices: raster(indices, [size, size]), palette: SWATCHES };
    const ink = raster(
      Uint8Array.from(coverage, (c) => (c > 0.5 ? 1 : 0)),
      [size, size],
    );
    expect(checkFlats(art, { ink })).toEqual([]);
    expect(checkFlats(paintFlats(art), { ink, palette: SWATCHES })).toEqual([]);
    const blank = raster(new Uint8Array(size * size), [size, size]);
    expect(checkFlats(art, { ink: blank }).map(({ check }) => check)).toEqual(['seams']);
  });
});

describe('checkFlats', () => {
  it('finds as much in every symmetry and through every view', () => {
    const indices = random(13, 7, 4, 8);
    const ink = raster(
      random(13, 7, 5, 9).data.map((v) => (v === 0 ? 1 : 0)),
      [13, 7],
    );
    const tally = (found: readonly Finding[]) =>
      found.map((f) => `${f.check} ${f.area} ${f.length} ${f.swatches}`).sort();
    const wanted = checkFlats(flatsOf(indices), { ink });
    expect(new Set(wanted.map(({ check }) => check))).toEqual(new Set(['bare', 'specks', 'seams']));
    const inks = symmetries(ink);
    symmetries(indices).forEach((view, k) => {
      expect(tally(checkFlats(flatsOf(view), { ink: inks[k]! }))).toEqual(tally(wanted));
    });
    const views = otherViews(ink);
    otherViews(indices).forEach((view, k) => {
      expect(checkFlats(flatsOf(view), { ink: views[k]! })).toEqual(wanted);
    });
  });

  it('runs the checks that are asked for, in that order, the gravest findings first', () => {
    const art = flats('1 . 2');
    expect(checkFlats(art, only('specks', 'bare')).map(({ check }) => check)).toEqual([
      'bare',
      'specks',
      'specks',
    ]);
    const ink = mask('. . .');
    const open = flats('1 2 2');
    const names = (...checks: CheckName[]) =>
      checkFlats(open, { ink, checks }).map(({ check }) => check);
    expect(names('specks', 'seams')).toEqual(['specks', 'specks', 'seams']);
    expect(names('seams', 'specks')).toEqual(['seams', 'specks', 'specks']);
    expect(checkFlats(art, { checks: [] })).toEqual([]);
    expect(checkFlats(art).map(({ check }) => check)).toEqual(['bare', 'specks', 'specks']);
  });

  it('leaves exceptions out: by check, place and swatch', () => {
    const art = flats(`
      1 1 1 1 1 1
      2 1 1 3 1 .
      1 1 1 1 1 1
    `);
    const left = (...exceptions: NonNullable<CheckFlatsOptions['exceptions']>) =>
      checkFlats(art, { exceptions, checks: { slivers: false } }).map(({ check, swatches }) =>
        [check, ...swatches].join(' '),
      );
    expect(left()).toEqual(['bare', 'specks fur', 'specks eye']);
    expect(left({ check: 'specks' })).toEqual(['bare']);
    expect(left({ check: 'specks', swatch: 'fur' })).toEqual(['bare', 'specks eye']);
    expect(left({ check: 'specks', bounds: [0, 1, 1, 2] })).toEqual(['bare', 'specks eye']);
    expect(left({ check: 'specks', bounds: [1, 0, 6, 3], swatch: 'fur' })).toEqual([
      'bare',
      'specks fur',
      'specks eye',
      'stale exception fur',
    ]);
    expect(
      left({ check: 'bare', bounds: [5, 1, 6, 2] }, { check: 'specks', swatch: 'eye' }),
    ).toEqual(['specks fur']);
    expect(left({ check: 'specks', at: [3.9, 1], note: 'a glint' })).toEqual([
      'bare',
      'specks fur',
    ]);
  });

  it('tells exceptions to which nothing belongs any more, of checks that ran', () => {
    const art = flats('1 1 1 2');
    const exceptions = [
      { check: 'specks', at: [1.5, 0.5] },
      { check: 'bare', at: [2, 0] },
      { check: 'specks', bounds: [0, 0, 1, 1] },
      { check: 'off', swatch: 'fur' },
    ] as const;
    const found = checkFlats(art, { exceptions, checks: ['bare', 'specks'] });
    expect(found.map(({ check, severity, message }) => [check, severity, message])).toEqual([
      ['specks', 'warning', 'speck of 1 pixel of "fur" at [3, 0]'],
      ['stale exception', 'information', 'no finding of "bare" at [2, 0] any more'],
      ['stale exception', 'information', 'no finding of "specks" at [0, 0] any more'],
    ]);
    expect(found[1]).toMatchObject({ at: [2.5, 0.5], bounds: [2, 0, 3, 1], area: 0 });
  });

  it('refuses options that are none', () => {
    const art = flats('1 2');
    const bad = (options: object) => () => checkFlats(art, options as CheckFlatsOptions);
    expect(bad({ check: [] })).toThrow(
      /^checkFlats has no option "check"; did you mean "checks"\?/,
    );
    expect(bad({ checks: ['speck'] })).toThrow(
      /^checks\[0\] must be one of .*did you mean "specks"\?$/,
    );
    expect(bad({ checks: [7] })).toThrow(TypeError);
    expect(bad({ checks: 'specks' })).toThrow(TypeError);
    expect(bad({ checks: { speck: true } })).toThrow(/did you mean "specks"\?/);
    expect(bad({ checks: { bare: 1 } })).toThrow(
      new TypeError('checks.bare must be true, false or settings, got 1'),
    );
    expect(bad({ checks: { bare: { maxArea: 1 } } })).toThrow(
      /^checks.bare has no option "maxArea"/,
    );
    expect(bad({ checks: { bare: { severity: 'grave' } } })).toThrow(RangeError);
    expect(bad({ checks: { specks: null } })).toThrow(TypeError);
    expect(bad({ checks: { specks: { maxArea: -1 } } })).toThrow(
      new RangeError('checks.specks.maxArea must be a finite number >= 0, got -1'),
    );
    expect(bad({ checks: { own: [{}] } })).toThrow(TypeError);
    expect(bad({ exceptions: {} })).toThrow(TypeError);
    expect(bad({ exceptions: [{}] })).toThrow(TypeError);
    expect(bad({ exceptions: [{ check: 'bare', bound: [] }] })).toThrow(/did you mean "bounds"\?/);
    expect(bad({ exceptions: [{ check: 'bare', bounds: [0, 0, 1] }] })).toThrow(RangeError);
    expect(bad({ exceptions: [{ check: 'bare', bounds: 'all' }] })).toThrow(TypeError);
    expect(bad({ exceptions: [{ check: 'bare', swatch: 1 }] })).toThrow(TypeError);
    expect(bad({ exceptions: [{ check: 'bare', at: [1] }] })).toThrow(
      /^exceptions\[0\].at must be/,
    );
    expect(bad({ exceptions: [{ check: 'bare', note: 1 }] })).toThrow(TypeError);
    expect(bad({ signal: {} })).toThrow(/^signal must be an AbortSignal/);
    expect(bad({ report: {} })).toThrow(/^report must be the report of layFlats/);
    expect(bad({ ink: mask('. . .') })).toThrow(
      new RangeError('ink must have the size of flats, 2 × 1, got 3 × 1'),
    );
    expect(bad({ ink: raster(new Uint8Array([0, 255]), [2, 1]) })).toThrow(/divide it by 255/);
    expect(bad({ coverage: mask('.') })).toThrow(/^coverage must have the size of flats/);
    expect(bad({ palette: [{ name: 'a', color: 'red' }] })).toThrow(RangeError);
    expect(() => checkFlats(null as unknown as Flats)).toThrow(TypeError);
  });

  it('puts what is beyond 10,000 places in one finding', () => {
    const indices = raster(
      Uint8Array.from({ length: 40_000 }, (_, i) => 1 + ((i + Math.floor(i / 200)) & 1)),
      [200, 200],
    );
    const ink = raster(new Uint8Array(40_000), [200, 200]);
    const found = checkFlats(flatsOf(indices), { ink, ...only('specks') });
    expect(found).toHaveLength(10_001);
    expect(found.reduce((sum, { area }) => sum + area, 0)).toBe(40_000);
    expect(found[9_999]!.message).toBe('speck of 1 pixel of "sky" at [199, 49]');
    expect(found[10_000]!.message).toBe(
      'specks of 30000 pixels at 30000 more places, the first at [0, 50]',
    );
    expect(found[10_000]!.swatches).toEqual(['sky', 'fur']);
    expectSound(found);
    const dots = raster(
      Uint8Array.from({ length: 160_000 }, (_, i) =>
        (i % 200) % 4 === 0 && Math.floor(i / 200) % 2 === 0 ? 2 : 1,
      ),
      [200, 800],
    );
    const blank = raster(new Uint8Array(160_000), [200, 800]);
    const open = checkFlats(flatsOf(dots), { ink: blank, ...only('seams') });
    expect(open).toHaveLength(10_001);
    expect(open.slice(0, 10_000).every(({ length }) => length === 3 || length === 4)).toBe(true);
    expect(open[10_000]!.message).toMatch(/^open seam of \d+ pixel edges at 10000 more places, /);
    expect(open[10_000]!.swatches).toEqual(['sky', 'fur']);
    expectSound(open);
  });

  it('leaves its arguments as they are', () => {
    const art = flats('1 . 2 3');
    const before = [...art.indices.data];
    const ink = mask('. 1 . .');
    checkFlats(art, { ink });
    expect([...art.indices.data]).toEqual(before);
    expect([...ink.data]).toEqual([0, 1, 0, 0]);
  });
});
