import ndarray from 'ndarray';
import { describe, expect, it } from 'vitest';
import { applyPlan } from '../../src/flats/apply-plan.ts';
import type { LayProgress } from '../../src/flats/grow-regions.ts';
import { type LayFlatsOptions, layFlats } from '../../src/flats/lay-flats.ts';
import type { Plan } from '../../src/flats/plan.ts';
import { studyGaps } from '../../src/gaps/study.ts';
import { inkCoverage } from '../../src/ink/coverage.ts';
import { paintFlats } from '../../src/palette/paint-flats.ts';
import { raster } from '../../src/raster/raster.ts';
import type { Mask, Pixels, PixelsLike } from '../../src/raster/types.ts';
import { absorbRegions } from '../../src/regions/absorb.ts';
import { grid, literal, mask, otherViews, symmetries } from '../support/grids.ts';
import { drawing } from './drawings.ts';

const SIZE = 96;
const rgba: Pixels<Uint8Array> = drawing('1F3E8', SIZE);
const gray: Pixels<Uint8Array> = raster(
  new Uint8Array(SIZE * SIZE).map((_, i) => rgba.data[4 * i]!),
  [SIZE, SIZE],
);
const blank = (w: number, h: number, value: number): Pixels<Uint8Array> =>
  raster(new Uint8Array(w * h).fill(value), [w, h]);

describe('layFlats, input', () => {
  const { flats, labels, ink, sealed } = layFlats(rgba);
  const inkPixels = ink.data.reduce((sum, v) => sum + v, 0);
  /** Pixels that differ from the ink's, as a share of it. */
  const apart = (other: Mask): number =>
    other.data.reduce((sum, v, i) => sum + (v ^ ink.data[i]!), 0) / inkPixels;

  it('is the same as gray, RGB, 16 bit, plain and clamped', () => {
    const rgb = new Uint8Array(3 * SIZE * SIZE).map((_, i) => gray.data[Math.floor(i / 3)]!);
    const forms: PixelsLike[] = [
      gray,
      raster(rgb, [SIZE, SIZE, 3]),
      raster(
        Uint16Array.from(gray.data, (v) => 257 * v),
        [SIZE, SIZE],
      ),
      { data: gray.data, width: SIZE, height: SIZE },
      { data: new Uint8ClampedArray(rgba.data), width: SIZE, height: SIZE },
      structuredClone({ ...rgba }),
    ];
    for (const form of forms) expect(layFlats(form).flats).toEqual(flats);
  });

  it('is the same behind any view', () => {
    for (const view of otherViews(gray)) expect(layFlats(view).labels.data).toEqual(labels.data);
    const planes = ndarray(new Uint8Array(4 * SIZE * SIZE), [4, SIZE, SIZE]).transpose(2, 1, 0);
    for (let y = 0; y < SIZE; y++) {
      for (let x = 0; x < SIZE; x++) {
        for (let c = 0; c < 4; c++) planes.set(x, y, c, rgba.get(x, y, c));
      }
    }
    expect(layFlats(planes).labels.data).toEqual(labels.data);
  });

  it('finds the paper, or takes the one given', () => {
    const tinted = raster(
      new Uint8Array(3 * SIZE * SIZE).map((_, k) =>
        Math.round((gray.data[Math.floor(k / 3)]! * [236, 224, 190][k % 3]!) / 255),
      ),
      [SIZE, SIZE, 3],
    );
    const found = layFlats(tinted);
    expect(found.report.paper).toBe('#ece0be');
    // Pixels at half coverage may fall to either side of it after two roundings.
    expect(apart(found.ink)).toBeLessThan(0.03);
    const given = layFlats(tinted, { coverage: { paper: '#ece0be' } });
    expect(given.flats).toEqual(found.flats);
    expect(layFlats(gray).report.paper).toBe('#ffffff');
    const floating = new Uint8Array(4 * SIZE * SIZE).map((_, k) =>
      k % 4 === 3 ? 255 - gray.data[k >> 2]! : 0,
    );
    const over = layFlats(raster(floating, [SIZE, SIZE, 4]));
    expect(over.report.paper).toBe('transparent');
    expect(over.flats).toEqual(flats);
  });

  it('drops under-drawing on request', () => {
    // Dark blue pencil over every seventh row: without the request it counts as ink.
    const blue = raster(
      new Uint8Array(3 * SIZE * SIZE).map((_, k) => {
        const i = Math.floor(k / 3);
        const pencil = Math.floor(i / SIZE) % 7 === 3 ? [40, 90, 170][k % 3]! : 255;
        return Math.round((gray.data[i]! * pencil) / 255);
      }),
      [SIZE, SIZE, 3],
    );
    expect(layFlats(blue).report.inkPixels).toBeGreaterThan(1.5 * inkPixels);
    const clean = layFlats(blue, { coverage: { dropHue: true } });
    expect(apart(clean.ink)).toBeLessThan(0.03);
  });

  it('finds as many regions in the eight symmetries', () => {
    const { report } = layFlats(gray);
    for (const view of symmetries(gray)) {
      expect(layFlats(view, { maxGap: 0 }).report.regions).toBe(
        layFlats(gray, { maxGap: 0 }).report.regions,
      );
      expect(layFlats(view).report.inkPixels).toBe(report.inkPixels);
    }
  });

  it('takes ink and the coverage it was made of, with the same outcome, and a study', () => {
    const coverage = inkCoverage(rgba);
    const given = layFlats({ ink, coverage });
    expect(given.flats).toEqual(flats);
    expect(given.labels.data).toEqual(labels.data);
    expect(given.ink.data).toEqual(ink.data);
    expect(given.ink.data.buffer).not.toBe(ink.data.buffer);
    expect(given.report.threshold).toBeUndefined();
    for (const study of [studyGaps(ink), given.study]) {
      const studied = layFlats({ ink, coverage }, { study });
      expect(studied.sealed.data).toEqual(sealed.data);
      expect(studied.flats).toEqual(flats);
      expect(studied.study).toBe(study);
    }
    expect(layFlats({ ink }).sealed.data).toEqual(sealed.data);
    expect(layFlats({ ink, coverage: undefined }).flats).toEqual(layFlats({ ink }).flats);
  });

  it('takes settings from the plan; an option beside it wins', () => {
    const plan: Plan = {
      version: 1,
      size: [SIZE, SIZE],
      palette: [],
      marks: [],
      settings: {
        threshold: { level: 60 },
        maxGap: 0,
        unnamed: 'shared',
        ground: { name: 'sky', color: '#aabbcc' },
      },
    };
    const planned = layFlats(rgba, { plan });
    const optional = layFlats(rgba, plan.settings);
    expect(planned.flats).toEqual(optional.flats);
    expect(planned.report.threshold).toMatchObject({ level: 60 });
    expect(planned.flats.palette.map(({ name }) => name)).toEqual(['bare', 'sky', 'unnamed']);
    const both = layFlats(rgba, { plan, ground: 'paper', threshold: { level: 127 } });
    expect(both.report.threshold).toMatchObject({ level: 127 });
    expect(both.flats.ground).toBe('paper');
    expect(layFlats({ ink }, { plan }).report.notes).toContainEqual({
      why: "the plan's setting of threshold has no use: the ink was given",
    });
    const applied = applyPlan(labels, plan);
    expect(applied.flats.palette.map(({ name }) => name)).toEqual(['bare', 'sky', 'unnamed']);
  });

  it('lists the regions at the border, whatever names them', () => {
    const palette = [{ name: 'sky', color: '#cfe0e8' }];
    const plan: Plan = {
      version: 1,
      size: [SIZE, SIZE],
      palette,
      marks: [{ point: [0, 0], swatch: 'sky' }],
    };
    expect(layFlats(rgba).report.border).toEqual([{ region: 1, swatch: 'ground' }]);
    const named = layFlats(rgba, { plan });
    expect(named.report.border).toEqual([{ region: 1, swatch: 'sky' }]);
    expect(named.flats.ground).toBeUndefined();
    const ground = named.report.border[0]!.swatch;
    const shown = paintFlats({ ...named.flats, ground }, { transparentGround: true });
    expect(shown.get(0, 0, 3)).toBe(0);
  });

  it('leaves its argument alone', () => {
    const copy = rgba.data.slice();
    layFlats(rgba, { absorb: 50 });
    expect(rgba.data).toEqual(copy);
  });

  it('works on a blank page, on a page all ink, and on one pixel', () => {
    const paper = layFlats(blank(7, 5, 255));
    expect(paper.flats.palette.map(({ name }) => name)).toEqual(['bare', 'ground']);
    expect(new Set(paper.flats.indices.data)).toEqual(new Set([1]));
    const black = layFlats(blank(7, 5, 0));
    expect(black.flats.palette.map(({ name }) => name)).toEqual(['bare']);
    expect(black.flats.ground).toBeUndefined();
    expect(black.report).toMatchObject({ regions: 0, inkPixels: 35, absorbed: 0 });
    expect(layFlats(blank(1, 1, 255)).report).toMatchObject({ regions: 1, ground: 1 });
    expect(layFlats(blank(1, 1, 0)).report).toMatchObject({ regions: 0, inkPixels: 1 });
  });

  it('works on a strip longer than 65,535 pixels', () => {
    const width = 70_001;
    const strip = blank(width, 3, 0);
    for (let x = 1; x < width - 1; x++) if (x !== 66_000) strip.set(x, 1, 255);
    const laid = layFlats(strip, { maxGap: 0 });
    expect(laid.report.regions).toBe(2);
    expect(laid.labels.get(65_999, 1)).toBe(1);
    expect(laid.labels.get(66_001, 1)).toBe(2);
    expect(laid.labels.get(width - 1, 2)).toBe(2);
  });
});

describe('layFlats, absorb', () => {
  const input = {
    ink: mask(`
      . . . . . . . . .
      . 1 1 1 1 1 1 1 .
      . 1 . 1 . . . 1 .
      . 1 1 1 . . . 1 .
      . 1 1 1 1 1 1 1 .
      . . . . . . . . .`),
  };

  it('gives regions of so little paper to a neighbor', () => {
    const kept = layFlats(input, { maxGap: 0 });
    expect(kept.report).toMatchObject({ regions: 3, absorbed: 0 });
    const { labels, report, flats } = layFlats(input, { maxGap: 0, absorb: 1 });
    expect(report).toMatchObject({ regions: 2, absorbed: 1 });
    const areas = [0, 1e6, 1, 6];
    const expected = absorbRegions(kept.labels, { maxArea: 1, areas });
    expect(grid(labels)).toBe(grid(expected));
    expect(flats.palette.length).toBe(3);
  });

  it('keeps a region with one more pixel of paper, and never leaves fewer than one', () => {
    expect(layFlats(input, { maxGap: 0, absorb: 5 }).report.regions).toBe(2);
    const all = layFlats(input, { maxGap: 0, absorb: 1000 });
    expect(all.report).toMatchObject({ regions: 1, absorbed: 2 });
    expect(new Set(all.labels.data).size).toBe(1);
    expect(grid(all.ink)).toBe(grid(input.ink));
  });
});

describe('layFlats, progress', () => {
  const run = (options: LayFlatsOptions): LayProgress[] => {
    const seen: LayProgress[] = [];
    layFlats(rgba, { ...options, onProgress: (progress) => seen.push(progress) });
    return seen;
  };

  it('goes through the stages, each from 0 to 1 at most', () => {
    const seen = run({});
    const stages = seen.map(({ stage }) => stage).filter((s, i, list) => s !== list[i - 1]);
    expect(stages).toEqual(['ink', 'gaps', 'regions', 'grow', 'flats']);
    expect(seen.every(({ done }) => done >= 0 && done <= 1)).toBe(true);
    for (let i = 1; i < seen.length; i++) {
      const [before, after] = [seen[i - 1]!, seen[i]!];
      if (before.stage === after.stage) expect(after.done).toBeGreaterThanOrEqual(before.done);
    }
    expect(seen.at(-1)).toEqual({ stage: 'flats', done: 1 });
  });

  it.each(['ink', 'gaps', 'regions', 'grow', 'flats'])('ends where a call throws in %s', (at) => {
    const stop = new Error('stop');
    let calls = 0;
    const onProgress = ({ stage }: LayProgress): void => {
      if (stage !== at) return;
      calls++;
      throw stop;
    };
    expect(() => layFlats(rgba, { onProgress })).toThrow(stop);
    expect(calls).toBe(1);
  });
});

describe('layFlats, signal', () => {
  it('ends with the reason, before anything and on the way', () => {
    const reason = new Error('the pilot went ashore');
    expect(() => layFlats(rgba, { signal: AbortSignal.abort(reason) })).toThrow(reason);
    const controller = new AbortController();
    const stages: string[] = [];
    const onProgress = ({ stage }: LayProgress): void => {
      stages.push(stage);
      if (stage === 'grow') controller.abort(reason);
    };
    expect(() => layFlats(rgba, { signal: controller.signal, onProgress })).toThrow(reason);
    expect(stages.at(-1)).toBe('grow');
    expect(stages.filter((stage) => stage === 'grow').length).toBe(1);
    expect(() => layFlats(rgba, { signal: AbortSignal.abort() })).toThrow(
      expect.objectContaining({ name: 'AbortError' }),
    );
  });

  it('is looked at while marks act', () => {
    const marks = Array.from({ length: 300 }, () => ({ point: [0, 0], swatch: 'sky' }) as const);
    const palette = [{ name: 'sky', color: '#cfe0e8' }];
    const plan = { version: 1, size: [SIZE, SIZE], palette, marks } as const;
    const count = (one: Plan): number => {
      let flats = 0;
      layFlats(rgba, {
        plan: one,
        onProgress: ({ stage }) => (flats += stage === 'flats' ? 1 : 0),
      });
      return flats;
    };
    expect(count(plan)).toBeGreaterThan(count({ ...plan, marks: [] }) + 3);
  });

  it('is looked at while the leaks of a conflict are sought', () => {
    const palette = ['sky', 'sea'].map((name, i) => ({ name, color: `#cfe0e${i}` }));
    const marks = palette.map(({ name }) => ({ point: [0, 0], swatch: name }) as const);
    const reason = new Error('the pilot went ashore');
    const controller = new AbortController();
    let calls = 0;
    const options: LayFlatsOptions = {
      plan: { version: 1, size: [SIZE, SIZE], palette, marks },
      signal: controller.signal,
      onProgress({ stage, done }) {
        if (stage !== 'flats' || done < 0.95 || done === 1) return;
        calls++;
        controller.abort(reason);
      },
    };
    expect(() => layFlats(rgba, options)).toThrow(reason);
    expect(calls).toBe(1);
  });
});

describe('layFlats, errors', () => {
  const page = blank(4, 3, 255);
  const palette = [{ name: 'fur', color: '#8a5d42' }];
  const planned = (change: object): LayFlatsOptions => {
    const plan = { version: 1, size: [4, 3], palette, marks: [], ...change };
    return { plan: plan as unknown as Plan };
  };
  const mark = (change: object) =>
    planned({ marks: [{ point: [1, 1], swatch: 'fur', ...change }] });
  const stray = { version: 1, size: [4, 3], palette: [], marks: [] };
  const bad = (options: object) => () => layFlats(page, options as LayFlatsOptions);
  const given = (input: unknown) => () => layFlats(input as PixelsLike);

  it.each([
    [
      'no raster',
      given('page.png'),
      TypeError,
      /^pixels must be .*, got "page\.png"; a file is read with readPng\(bytes\)\.pixels$/,
    ],
    ['a plan for options', bad(stray), TypeError, /got a plan; pass \{ plan \}$/],
    [
      'a plan for pixels',
      given(stray),
      TypeError,
      /got a plan; pass it as layFlats\(pixels, \{ plan/,
    ],
    [
      'what it gave',
      () => layFlats(layFlats(page) as unknown as PixelsLike),
      TypeError,
      /got what layFlats gives; pass its \{ ink \} instead$/,
    ],
    ['no signal', bad({ signal: {} }), TypeError, /^signal must be an AbortSignal, got/],
    ['nothing', given(undefined), TypeError, /^pixels must be .*, got undefined$/],
    [
      'wrong sample type',
      given(raster(new Float32Array(4), [2, 2])),
      TypeError,
      /^pixels.* must be .*Uint8.*, got Float32Array/,
    ],
    ['five channels', given(raster(new Uint8Array(5), [1, 1, 5])), RangeError, /got 5 channels$/],
    [
      'no width',
      given({ data: new Uint8Array(0), width: 0, height: 3 }),
      RangeError,
      /^pixels\.width must be a whole number >= 1, got 0$/,
    ],
    [
      'no height',
      given({ data: new Uint8Array(0), shape: [3, 0], stride: [1, 3], offset: 0 }),
      RangeError,
      /^pixels\.shape\[1\] must be a whole number >= 1, got 0$/,
    ],
    [
      'ink with three dimensions',
      given({ ink: raster(new Uint8Array(12), [2, 2, 3]) }),
      RangeError,
      /^ink must be a Uint8 mask of shape \[width, height\], got 3 channels$/,
    ],
    [
      'ink of 0 and 255',
      given({ ink: raster(new Uint8Array([0, 255]), [2, 1]) }),
      RangeError,
      /^ink must hold 0 or 1, got 255 at \[1, 0\]; .*divide it by 255$/,
    ],
    [
      'ink of another type',
      given({ ink: raster(new Int32Array(4), [2, 2]) }),
      TypeError,
      /^ink.* must be .*mask.*, got Int32Array/,
    ],
    [
      'coverage of another size',
      given({ ink: mask('. 1'), coverage: blank(1, 2, 0) }),
      RangeError,
      /^coverage must have the size of ink, 2 × 1, got 1 × 2$/,
    ],
    ['NaN', bad({ caution: Number.NaN }), RangeError, /^caution must be .* from 0 to 1, got NaN$/],
    ['a text', bad({ absorb: '8' }), TypeError, /^absorb must be .* of pixels >= 0, got "8"$/],
    ['a negative gap', bad({ maxGap: -3 }), RangeError, /^maxGap must be a finite .*, got -3$/],
    ['a gap without end', bad({ maxGap: Number.POSITIVE_INFINITY }), RangeError, /got Infinity$/],
    [
      'an unknown option',
      bad({ maxgap: 3 }),
      TypeError,
      /^layFlats has no option "maxgap"; did you mean "maxGap"\?/,
    ],
    [
      'an unknown option of the coverage',
      bad({ coverage: { papr: 'white' } }),
      TypeError,
      /has no option "papr"; did you mean "paper"\?/,
    ],
    ['paper that is no color', bad({ coverage: { paper: 'beige' } }), RangeError, /paper/],
    [
      'an unknown option of the threshold',
      bad({ threshold: { levle: 3 } }),
      TypeError,
      /has no option "levle"; did you mean "level"\?/,
    ],
    ['an unknown word', bad({ unnamed: 'shard' }), RangeError, /"shard"; did you mean "shared"\?$/],
    ['no study', bad({ study: {} }), TypeError, /^study must be /],
    ['no function', bad({ onProgress: 1 }), TypeError, /^onProgress must be a function, got 1$/],
    [
      'a ground called bare',
      bad({ ground: 'bare' }),
      RangeError,
      /^ground must be .*, got "bare"$/,
    ],
    [
      'a ground without a color',
      bad({ ground: { name: 'sky', color: 'blue' } }),
      RangeError,
      /^ground\.color must be a color '#rrggbb', got "blue"$/,
    ],
    [
      'a point outside',
      mark({ point: [4, 1] }),
      RangeError,
      /^plan\.marks\[0\]\.point must be inside the picture of 4 × 3, got \[4, 1\]$/,
    ],
    ['a point of NaN', mark({ point: [Number.NaN, 1] }), RangeError, /^plan\.marks\[0\]\.point/],
    ['a point of three', mark({ point: [1, 1, 1] }), TypeError, /^plan\.marks\[0\]\.point must be/],
    [
      'an unknown swatch',
      mark({ swatch: 'furr' }),
      RangeError,
      /^plan\.marks\[0\]\.swatch must be .*, got "furr"; did you mean "fur"\?$/,
    ],
    [
      'a mark of another kind',
      mark({ pint: 1 }),
      TypeError,
      /^plan\.marks\[0\] has no field "pint"; did you mean "point"\? It takes: point, swatch, over, note$/,
    ],
    [
      'two swatches of one name',
      planned({ palette: [...palette, ...palette] }),
      RangeError,
      /^plan\.palette\[1\]\.name must be unique in plan\.palette, got "fur"$/,
    ],
    [
      'a swatch called bare',
      planned({ palette: [{ name: 'bare', color: '#000000' }] }),
      RangeError,
      /^plan\.palette\[0\]\.name must be .*reserved "bare", got "bare"$/,
    ],
    ['another version', planned({ version: 2 }), RangeError, /^plan\.version must be 1, got 2$/],
  ] as const)('refuses %s', (_, call, kind, text) => {
    const attempt = typeof call === 'function' ? call : bad(call);
    expect(attempt).toThrow(kind);
    expect(attempt).toThrow(text);
  });

  it('refuses before anything is done', () => {
    const seen: LayProgress[] = [];
    const onProgress = (progress: LayProgress): number => seen.push(progress);
    expect(() => layFlats(page, { ...mark({ swatch: 'furr' }), onProgress })).toThrow(RangeError);
    expect(seen).toEqual([]);
  });

  it('refuses a study of ink of another size', () => {
    const study = studyGaps(mask('. 1 .'));
    expect(() => layFlats({ ink: mask('. 1') }, { study })).toThrow(/^study must be/);
  });
});

describe('labels of layFlats', () => {
  it('meet in the middle of the ink', () => {
    const ring = mask(`
      . . . . . . .
      . 1 1 1 1 1 .
      . 1 . . . 1 .
      . 1 . . . 1 .
      . 1 1 1 1 1 .
      . . . . . . .`);
    expect(grid(layFlats({ ink: ring }, { maxGap: 0 }).labels)).toBe(
      literal(`
        1 1 1 1 1 1 1
        1 1 1 1 1 1 1
        1 1 2 2 2 1 1
        1 1 2 2 2 1 1
        1 1 1 1 1 1 1
        1 1 1 1 1 1 1`),
    );
  });
});
