import { describe, expect, it } from 'vitest';
import {
  type CheckFlatsOptions,
  type CheckName,
  checkFlats,
  type Finding,
  findingMask,
  type LaidReport,
} from '../../src/checks/index.ts';
import { ciede2000 } from '../../src/color/color-difference.ts';
import { labOf } from '../../src/color/lab.ts';
import { layFlats } from '../../src/flats/lay-flats.ts';
import type { Flats } from '../../src/palette/types.ts';
import { raster } from '../../src/raster/raster.ts';
import { grid, literal, mask, symmetries } from '../support/grids.ts';
import { seeded } from '../support/random.ts';

const PALETTE = [
  { name: 'bare', color: '#000000' },
  { name: 'sky', color: '#a0c8f0' },
  { name: 'fur', color: '#8a5d42' },
  { name: 'coat', color: '#8a5d43' },
];
const flats = (text: string): Flats => ({ indices: mask(text), palette: PALETTE });
const messages = (found: readonly Finding[]) => found.map(({ message }) => message);
const run = (art: Flats, check: CheckName, options: CheckFlatsOptions = {}) =>
  checkFlats(art, { ...options, checks: [check] });

/** Blots of swatches 1 to 3 on a picture, and ink. */
function noise(w: number, h: number, seed: number) {
  const next = seeded(seed);
  const indices = new Uint8Array(w * h).fill(1);
  for (let k = 0; k < (w * h) / 12; k++) {
    const [x0, y0] = [Math.floor(next() * w), Math.floor(next() * h)];
    const [dx, dy] = [1 + Math.floor(next() * 5), 1 + Math.floor(next() * 5)];
    const value = Math.floor(next() * 4);
    for (let y = y0; y < Math.min(h, y0 + dy); y++)
      indices.fill(value, y * w + x0, y * w + Math.min(w, x0 + dx));
  }
  const ink = Uint8Array.from(indices, () => (next() < 0.3 ? 1 : 0));
  return { indices: raster(indices, [w, h]), ink: raster(ink, [w, h]) };
}

describe('every check', () => {
  it('finds as much in all symmetries, with places inside what they name', () => {
    const tally = (found: readonly Finding[]) =>
      found.map((f) => `${f.check} ${f.area} ${f.length} ${f.swatches}`).sort();
    for (const [w, h, seed] of [
      [13, 9, 1],
      [1, 30, 2],
      [30, 1, 3],
      [24, 24, 4],
    ] as const) {
      const { indices, ink } = noise(w, h, seed);
      const coverage = raster(
        ink.data.map((v, i) => (v === 1 ? 200 : (37 * i) % 100)),
        [w, h],
      );
      const names: CheckName[] = ['bare', 'specks', 'slivers', 'seams', 'halo', 'alike'];
      const checks: CheckName[] = [...names, 'unused', 'lookalikes'];
      const find = (k: number) =>
        checkFlats(
          { indices: symmetries(indices)[k]!, palette: PALETTE },
          { ink: symmetries(ink)[k]!, coverage: symmetries(coverage)[k]!, checks },
        );
      const wanted = find(0);
      for (let k = 1; k < 8; k++) expect(tally(find(k))).toEqual(tally(wanted));
      for (const finding of wanted) {
        const [x, y] = finding.at.map(Math.floor) as [number, number];
        expect(finding.at).toEqual([x + 0.5, y + 0.5]);
        expect(findingMask(finding, [w, h]).get(x, y)).toBe(1);
        expect(finding).toEqual(JSON.parse(JSON.stringify(finding)));
      }
    }
  });
});

describe('slivers', () => {
  it('are areas that are nowhere wider than two pixels', () => {
    const art = flats(`
      1 1 1 1 1 1 1 1
      1 1 1 1 1 1 1 1
      1 1 1 1 1 1 1 1
      2 2 2 2 2 2 2 2
      2 2 2 2 2 2 2 2
      3 3 3 3 3 3 3 3
      3 3 3 3 3 3 3 3
      3 3 3 3 3 3 3 3
    `);
    const found = run(art, 'slivers');
    expect(messages(found)).toEqual(['sliver of 16 pixels of "fur", at most 2 px wide, at [0, 3]']);
    expect(found[0]).toMatchObject({ bounds: [0, 3, 8, 5], area: 16, swatches: ['fur'] });
    const wider = checkFlats(art, { checks: { slivers: { maxWidth: 3 }, alike: false } });
    expect(wider.map(({ swatches }) => swatches[0])).toEqual(['sky', 'fur', 'coat']);
    expect(checkFlats(art, { checks: { slivers: { minArea: 17 }, alike: false } })).toEqual([]);
  });

  it('are found from half the threshold up to it, in every direction, and not above it by two pixels', () => {
    const [w, h] = [90, 90];
    const draw = (angle: number, wide: number) => {
      const [c, s] = [Math.cos(angle), Math.sin(angle)];
      const indices = Uint8Array.from({ length: w * h }, (_, i) => {
        const [x, y] = [(i % w) + 0.5 - w / 2, Math.floor(i / w) + 0.5 - h / 2];
        return Math.abs(x * s - y * c) < wide / 2 && Math.abs(x * c + y * s) < 30 ? 2 : 1;
      });
      return { indices: raster(indices, [w, h]), palette: PALETTE };
    };
    for (const maxWidth of [2, 4, 6]) {
      for (let k = 0; k < 24; k++) {
        const find = (wide: number) =>
          checkFlats(draw((k * Math.PI) / 24 + 0.01, wide), {
            checks: { slivers: { maxWidth }, specks: false },
          });
        for (const part of [0.75, 1]) {
          // Bands under about 1.5 px wide fall into specks, which are not slivers.
          const found = find(Math.max(1.5, part * maxWidth - 0.5));
          expect(
            found.map(({ swatches }) => swatches[0]),
            `${maxWidth} px, turn ${k}`,
          ).toContain('fur');
        }
        for (const times of [1 + 2.5 / maxWidth, 2, 4]) {
          expect(find(times * maxWidth), `${times} × ${maxWidth} px, turn ${k}`).toEqual([]);
        }
      }
    }
  });
});

describe('alike', () => {
  it('are flats beside each other of nearly one color', () => {
    const art = flats(`
      1 2 2 1
      1 2 3 3
      1 1 3 3
    `);
    const apart = ciede2000(labOf('#8a5d42', 'a'), labOf('#8a5d43', 'b')).toFixed(1);
    const found = run(art, 'alike');
    expect(messages(found)).toEqual([
      `colors too alike over 2 pixel edges between "fur" and "coat", ${apart} apart, at [2, 0]`,
    ]);
    expect(found[0]).toMatchObject({ length: 2, area: 3, swatches: ['fur', 'coat'] });
    expect(checkFlats(art, { checks: { alike: { below: 0.1 }, specks: false } })).toEqual([]);
    const far = checkFlats(art, { checks: { alike: { below: 100 }, specks: false } });
    expect(far.map(({ length }) => length)).toEqual([3, 2, 1, 1, 1]);
  });
});

describe('divided', () => {
  it('is ink between two regions of one swatch', () => {
    const art = flats(`
      2 2 2 2 2 1
      2 2 2 2 2 1
      2 2 2 2 2 1
    `);
    const ink = mask(`
      . . 1 . 1 .
      . . 1 . 1 .
      . . 1 . 1 .
    `);
    const divided = (flats: Flats, line: typeof ink, minLength = 1) =>
      checkFlats(flats, {
        ink: line,
        checks: { divided: { minLength }, specks: false, slivers: false, seams: false },
      });
    const found = divided(art, ink);
    expect(run(art, 'divided', { ink })).toEqual([]); // 3 edges, of 10 that are asked for
    expect(divided(art, ink, 3)).toEqual(found);
    expect(messages(found)).toEqual([
      'line of 3 pixel edges between two regions of "fur" at [2, 0]',
    ]);
    expect(found[0]!.severity).toBe('information');
    symmetries(art.indices).forEach((indices, k) => {
      const turned = divided({ ...art, indices }, symmetries(ink)[k]!);
      expect(turned.map(({ length, area }) => [length, area])).toEqual([[3, 6]]);
    });
    expect(
      divided(
        art,
        mask(`
      . . 1 . 1 .
      . . 1 . 1 .
      . . . . 1 .
    `),
      ),
    ).toEqual([]);
    const settings = { divided: { minLength: 4 }, specks: false, slivers: false, seams: false };
    expect(checkFlats(art, { ink, checks: settings })).toEqual([]);
    expect(checkFlats(art, { ink }).map(({ check }) => check)).not.toContain('divided');
  });
});

describe('unused and lookalikes', () => {
  it('tell of the palette', () => {
    const art = flats('1 1 3 3');
    const found = run(art, 'unused');
    expect(messages(found)).toEqual(['"fur" #8a5d42 is not used']);
    expect(found[0]).toMatchObject({ at: [0.5, 0.5], bounds: [0, 0, 4, 1], area: 0 });
    const palette = [...PALETTE, { name: 'eye', color: '#101010' }];
    expect(messages(run(art, 'unused', { palette }))).toEqual([
      '"fur" #8a5d42 is not used',
      '"eye" #101010 is not used',
    ]);
    expect(run(art, 'lookalikes')).toEqual([]);
    const both = run(flats('1 2 3 3'), 'lookalikes');
    expect(both).toHaveLength(1);
    expect(both[0]).toMatchObject({ at: [2.5, 0.5], area: 2, swatches: ['fur', 'coat'] });
    expect(checkFlats(art, { checks: { specks: false } })).toEqual([]);
  });
});

describe('leaks', () => {
  /** Two rooms with a door `open` pixels wide between them, the fur in one or in both. */
  const rooms = (open: number, seam: boolean) => {
    const [w, h] = [61, 31];
    const ink = new Uint8Array(w * h);
    const indices = new Uint8Array(w * h).fill(2);
    for (let y = 0; y < h; y++) {
      for (let x = 0; x < w; x++) {
        const isDoor = x === 30 && Math.abs(y - 15) < open / 2;
        if (x === 0 || y === 0 || x === w - 1 || y === h - 1 || (x === 30 && !isDoor))
          ink[y * w + x] = 1;
        if (seam && x > 30) indices[y * w + x] = 1;
      }
    }
    return {
      art: { indices: raster(indices, [w, h]), palette: PALETTE },
      ink: raster(ink, [w, h]),
    };
  };

  it('are narrow openings that one swatch runs through, up to the threshold', () => {
    for (const maxWidth of [1, 3, 5]) {
      for (const open of [1, 3, 5, 7]) {
        const { art, ink } = rooms(open, false);
        for (let k = 0; k < 8; k++) {
          const found = checkFlats(
            { ...art, indices: symmetries(art.indices)[k]! },
            { ink: symmetries(ink)[k]!, checks: { leaks: { maxWidth, opens: 2 } } },
          );
          const wanted = open <= maxWidth ? [`"fur" runs through an opening of ${open} px`] : [];
          expect(messages(found).map((text) => text.replace(/ at .*/, ''))).toEqual(wanted);
        }
      }
    }
    const { art, ink } = rooms(3, false);
    expect(run(art, 'leaks', { ink })[0]).toMatchObject({
      at: [30.5, 15.5],
      bounds: [30, 13, 31, 18],
      swatches: ['fur'],
    });
  });

  it('are none where a seam closes the opening', () => {
    const { art, ink } = rooms(3, true);
    expect(run(art, 'leaks', { ink })).toEqual([]);
  });
});

describe('halo at a closed gap', () => {
  // Two soft ends of a dashed line of openmoji 1F198, and the mouth between them, which a bridge closes.
  const tones = [
    [255, 255, 255, 255, 0, 0, 0, 0],
    [255, 255, 255, 144, 0, 0, 0, 63],
    [255, 255, 192, 16, 0, 48, 207, 255],
    [160, 96, 0, 0, 16, 223, 255, 255],
    [0, 0, 0, 0, 112, 255, 255, 255],
  ];
  const coverage = raster(Uint8Array.from(tones.flat()), [8, 5]);
  const ink = mask(`
    1 1 1 1 . . . .
    1 1 1 1 . . . .
    1 1 1 . . . 1 1
    1 . . 1 . 1 1 1
    . . . . . 1 1 1
  `);
  const found = (text: string, options: CheckFlatsOptions): number => {
    const places = run({ ...flats(text), ground: 'sky' }, 'halo', { coverage, ...options });
    return places.reduce((sum, { area }) => sum + area, 0);
  };

  it('is no finding where the ground has its seam there, and one where it has no paper there', () => {
    const seam = `
      2 1 1 1 1 1 1 1
      2 2 1 1 1 1 1 1
      2 2 2 1 1 1 1 1
      2 2 2 2 1 1 1 1
      2 2 2 2 2 2 2 1
    `;
    expect(found(seam, {})).toBe(6);
    expect(found(seam, { ink })).toBe(0);
    const fault = `
      2 2 2 2 2 2 2 2
      2 2 2 1 2 2 2 2
      2 2 2 1 2 2 2 2
      2 2 2 2 2 2 2 2
      2 2 2 2 2 2 2 2
    `;
    expect(found(fault, { ink })).toBe(2);
  });
});

describe('forced, conflicts and unnamed', () => {
  const art = flats(`
    1 1 1 2 2 2
    1 1 1 2 2 2
    1 1 1 2 2 2
    1 1 1 2 2 2
  `);
  const bridge = { from: [2.5, 0.5], to: [2.5, 3.5], drawn: true, forced: true } as const;
  const report = (fields: Partial<LaidReport>): LaidReport => ({
    bridges: [],
    unnamed: 0,
    ...fields,
  });

  it('tell the seams of forced bridges', () => {
    const found = run(art, 'forced', { report: report({ bridges: [bridge] }) });
    expect(messages(found)).toEqual(['forced seam of 4 pixels between "sky" and "fur" at [2, 2]']);
    expect(found[0]).toMatchObject({ at: [2.5, 2.5], bounds: [2, 0, 3, 4], area: 4 });
    const others = [
      { ...bridge, forced: false },
      { ...bridge, drawn: false },
      { ...bridge, from: [0.5, 0.5], to: [0.5, 3.5] } as const,
    ];
    expect(run(art, 'forced', { report: report({ bridges: others }) })).toEqual([]);
    expect(() => run(art, 'forced')).toThrow(
      new RangeError('report must be given for the check "forced", got undefined'),
    );
  });

  it('tell the marks of two swatches in one region', () => {
    const conflict = {
      mark: 2,
      by: 0,
      point: [4.3, 2.5],
      swatch: 'coat',
      keeps: 'fur',
    } as const;
    const leak = {
      at: [1.5, 1.5],
      width: 1.96,
      bridge: [
        [1.5, 0.5],
        [1.5, 3.5],
      ],
    } as const;
    const found = checkFlats(art, {
      report: report({ conflicts: [conflict, { ...conflict, leaks: [leak] }] }),
      checks: { slivers: false },
    });
    const said = 'marks[2] asks for "coat" at [4, 2], where marks[0] keeps "fur"';
    expect(messages(found)).toEqual([said, `${said}, open by 2 px at [1, 1]`]);
    const same = { check: 'conflicts', severity: 'error', at: [4.5, 2.5] };
    expect(found[0]).toMatchObject({ ...same, bounds: [4, 2, 5, 3], swatches: ['fur', 'coat'] });
    expect(found[1]).toMatchObject({ ...same, bounds: [1, 0, 5, 4], area: 5 });
    expect(grid(findingMask(found[1]!, [6, 4]))).toBe(
      literal(`. 1 . . . .
               . 1 . . . .
               . 1 . . 1 .
               . 1 . . . .`),
    );
    expect(run(art, 'conflicts', { report: report({}) })).toEqual([]);
    const wrong = { conflicts: 2 } as unknown as Partial<LaidReport>;
    expect(() => run(art, 'conflicts', { report: report(wrong) })).toThrow(
      new TypeError('report.conflicts must be a list of conflicts, got 2'),
    );
  });

  it('tell the conflicts of what layFlats lays, at what every mark asks for and does not get', () => {
    const ink = mask(`
      1 1 1 1 1 1 1 1 1 1 1 1 1 1 1
      1 . . . . . . 1 . . . . . . 1
      1 . . . . . . . . . . . . . 1
      1 . . . . . . . . . . . . . 1
      1 . . . . . . . . . . . . . 1
      1 . . . . . . 1 . . . . . . 1
      1 1 1 1 1 1 1 1 1 1 1 1 1 1 1
    `);
    const marks = [
      { point: [3.5, 3.5], swatch: 'fur' },
      { point: [11.5, 3.5], swatch: 'sky' },
    ] as const;
    const plan = { version: 1, size: [15, 7], palette: PALETTE.slice(1), marks } as const;
    const laid = layFlats({ ink }, { plan, maxGap: 0 });
    const [found, ...others] = run(laid.flats, 'conflicts', { report: laid.report });
    expect(others).toEqual([]);
    expect(found).toMatchObject({ at: [11.5, 3.5], swatches: ['fur', 'sky'], severity: 'error' });
    expect(found!.message).toBe(
      'marks[1] asks for "sky" at [11, 3], where marks[0] keeps "fur", open by 3 px at [7, 3]',
    );
  });

  it('tell the marks that did not do what they say', () => {
    const notes = [
      { why: 'a note on no mark' },
      { mark: 3, at: [4.5, 1.2], why: 'the cut divides no region' },
      { mark: 5, at: [-7, 90], why: 'the polygon holds no pixel of the picture' },
    ] as const;
    const found = run(art, 'notes', { report: report({ notes }) });
    expect(messages(found)).toEqual([
      'marks[3] at [4, 1]: the cut divides no region',
      'marks[5] at [0, 3]: the polygon holds no pixel of the picture',
    ]);
    expect(found[0]).toMatchObject({ at: [4.5, 1.5], bounds: [4, 1, 5, 2], severity: 'warning' });
    const wrong = report({ notes: [{ why: 'x', at: 3 }] as unknown as typeof notes });
    expect(() => run(art, 'notes', { report: wrong })).toThrow(/^report\.notes\[0\]\.at must be/);
  });

  it('tell notes of what layFlats lays, at what the mark begins with', () => {
    const ink = mask(`
      1 1 1 1 1 1 1
      1 . . . . . 1
      1 . . . . . 1
      1 1 1 1 1 1 1
    `);
    const cut = [
      [2, 1.5],
      [5, 1.5],
    ] as const;
    const plan = { version: 1, size: [7, 4], palette: [], marks: [{ cut }] } as const;
    const laid = layFlats({ ink }, { plan });
    expect(laid.report.notes.at(-1)).toMatchObject({ mark: 0, at: [2, 1.5] });
    expect(messages(run(laid.flats, 'notes', { report: laid.report }))).toEqual([
      'marks[0] at [2, 1]: the cut divides no region; draw it from ink to ink, or past it',
    ]);
    const exceptions = [{ check: 'notes', bounds: [2, 1, 3, 2] }] as const;
    const excepted = layFlats({ ink }, { plan: { ...plan, settings: { exceptions } } });
    expect(run(excepted.flats, 'notes', { report: excepted.report })).toEqual([]);
    expect(run(excepted.flats, 'notes', { report: excepted.report, exceptions: [] })).toHaveLength(
      1,
    );
  });

  it('tell a sheet without a ground', () => {
    const ink = mask(`
      . . . . . .
      . 1 1 1 1 .
      . 1 . . . .
      . 1 . . 1 .
      . 1 1 1 1 .
      . . . . . .
    `);
    const mark = { point: [2.5, 2.5], swatch: 'fur' } as const;
    const plan = { version: 1, size: [6, 6], palette: PALETTE.slice(1), marks: [mark] } as const;
    const leaky = layFlats({ ink }, { plan, maxGap: 0 });
    const [found, ...others] = run(leaky.flats, 'border', { report: leaky.report });
    expect(others).toEqual([]);
    expect(found).toMatchObject({ at: [0.5, 0.5], area: 36, swatches: ['fur'] });
    expect(found!.message).toBe(
      '"fur" reaches the picture\'s border and covers 100 % of it; no region there is the ground',
    );
    const tight = layFlats({ ink }, { plan: { ...plan, marks: [] }, maxGap: 0 });
    expect(run(tight.flats, 'border', { report: tight.report })).toEqual([]);
    const meant = layFlats({ ink }, { plan, maxGap: 0, ground: 'fur' });
    expect(run(meant.flats, 'border', { report: meant.report })).toEqual([]);
  });

  it('tell the regions that no mark names', () => {
    const unnamed = [{ id: 2, inside: [4.5, 1.5], area: 12, bounds: [3, 0, 6, 4] }] as const;
    const found = checkFlats(art, {
      report: report({
        unnamed: unnamed.map((region) => ({ ...region, bounds: [...region.bounds] })),
      }),
      checks: { slivers: false },
    });
    expect(messages(found)).toEqual(['no mark names the region of 12 pixels at [4, 1]']);
    expect(found[0]).toMatchObject({ at: [4.5, 1.5], area: 12, swatches: ['fur'] });
    expect(grid(findingMask(found[0]!, [6, 4]))).toBe(
      literal(`. . . 1 1 1
               . . . 1 1 1
               . . . 1 1 1
               . . . 1 1 1`),
    );
    expect(run(art, 'unnamed', { report: report({ unnamed: 3 }) })).toEqual([]);
  });
});
