import { describe, expect, it } from 'vitest';
import {
  type CheckContext,
  checkFlats,
  checkSheets,
  defineCheck,
  type FlatsCheck,
  findingMask,
  summarizeFindings,
} from '../../src/checks/index.ts';
import type { Flats } from '../../src/palette/types.ts';
import { mask } from '../support/grids.ts';

const PALETTE = [
  { name: 'bare', color: '#000000' },
  { name: 'sky', color: '#a0c8f0' },
  { name: 'fur', color: '#8a5d42' },
];
const flats = (text: string): Flats => ({ indices: mask(text), palette: PALETTE });
const bareFinding = { check: 'few', severity: 'warning', swatches: [] } as const;

describe('defineCheck', () => {
  it('makes a check that sees the sheet, and completes what it finds', () => {
    const own = defineCheck('few', ({ flats: { palette }, size, ink, blended }) => {
      expect(palette).toHaveLength(3);
      expect(size).toEqual([2, 1]);
      expect(blended).toBeUndefined();
      expect(ink).toBeUndefined();
      return [{ message: 'few', at: [1.5, 0.5] }];
    });
    const whole = { ...bareFinding, message: 'few', at: [1.5, 0.5], bounds: [1, 0, 2, 1], area: 1 };
    expect(checkFlats(flats('1 1'), { checks: [own] })).toEqual([whole]);
    const all = checkFlats(flats('1 1'), { ink: mask('. .'), checks: { own: [] } });
    expect(all.map(({ check }) => check)).toEqual(['specks']);
  });

  it('offers what costs time once, and only when asked for', () => {
    const seen: CheckContext[] = [];
    const look = (name: string) =>
      defineCheck(name, (context) => {
        seen.push(context);
        const { labels, regions, regionSwatch, adjacency, squaredInkDistance } = context;
        expect([...labels.data]).toEqual([1, 1, 2, 0]);
        expect([...regions.area]).toEqual([0, 2, 1]);
        expect([...regionSwatch]).toEqual([0, 1, 2]);
        expect([...adjacency.borderLength]).toEqual([1]);
        expect([...squaredInkDistance.data]).toEqual([9, 4, 1, 0]);
        return [];
      });
    const checks = [look('one'), look('two')];
    const art = flats('1 1 2 .');
    expect(checkFlats(art, { ink: mask('. . . 1'), checks })).toEqual([]);
    expect(seen[0]!.labels).toBe(seen[1]!.labels);
    expect(seen[0]!.regions).toBe(seen[1]!.regions);
    expect(seen[0]!.adjacency).toBe(seen[1]!.adjacency);
    expect(seen[0]!.squaredInkDistance).toBe(seen[1]!.squaredInkDistance);
    expect(seen[0]!.places(mask('. 1 1 .'))).toEqual([
      { at: [1.5, 0.5], bounds: [1, 0, 3, 1], area: 2, spans: [0, 1, 3] },
    ]);
  });

  it('reports a check that throws, or finds something without a place, and goes on', () => {
    const failing = (name: string, found: () => unknown) =>
      defineCheck(name, found as () => []) as FlatsCheck;
    const checks = [
      failing('throws', () => {
        throw new Error('no such swatch');
      }),
      failing('nowhere', () => [{ message: 'lost' }]),
      failing('outside', () => [{ message: 'lost', at: [2, 0] }]),
      failing('silent', () => [{ at: [0, 0] }]),
      failing('nothing', () => undefined),
      failing('grave', () => [{ message: 'x', at: [0, 0], severity: 'grave' }]),
      defineCheck('good', () => [{ message: 'good', at: [0.5, 0.5] }]),
    ];
    const found = checkFlats(flats('1 1'), { checks });
    expect(
      found.map(({ check, failed, severity, message }) => [check, failed, severity, message]),
    ).toEqual([
      ['throws', true, 'error', 'the check "throws" failed: no such swatch'],
      [
        'nowhere',
        true,
        'error',
        'the check "nowhere" failed: at of finding 0 must be a point [x, y] inside the picture of 2 × 1, got undefined',
      ],
      [
        'outside',
        true,
        'error',
        'the check "outside" failed: at of finding 0 must be a point [x, y] inside the picture of 2 × 1, got [2, 0]',
      ],
      [
        'silent',
        true,
        'error',
        'the check "silent" failed: message of finding 0 must be a string, got undefined',
      ],
      [
        'nothing',
        true,
        'error',
        'the check "nothing" failed: what it finds must be an array of findings, got undefined',
      ],
      [
        'grave',
        true,
        'error',
        'the check "grave" failed: severity of finding 0 must be one of "error", "warning", "information", got "grave"',
      ],
      ['good', undefined, 'warning', 'good'],
    ]);
    const exceptions = [{ check: 'throws' }];
    expect(checkFlats(flats('1 1'), { checks: checks.slice(0, 1), exceptions })).toHaveLength(1);
  });

  it('takes severity, needs and thresholds', () => {
    const own = defineCheck(
      'wide',
      ({ size }, { most }) => (size[0] > most ? [{ message: 'wide', at: [0, 0] }] : []),
      { severity: 'error', needs: ['coverage'], thresholds: { most: 1 } },
    );
    expect(() => checkFlats(flats('1 1'), { checks: [own] })).toThrow(
      new RangeError('coverage must be given for the check "wide", got undefined'),
    );
    const coverage = mask('. .');
    expect(checkFlats(flats('1 1'), { coverage, checks: [own] })[0]!.severity).toBe('error');
    const tuned = checkFlats(flats('1 2'), {
      checks: { specks: { severity: 'error', maxArea: 1 } },
    });
    expect(tuned.map(({ severity }) => severity)).toEqual(['error', 'error']);
  });

  it('refuses what makes no check', () => {
    expect(() => defineCheck('', () => [])).toThrow(
      new RangeError('name must be a string that is not empty, got ""'),
    );
    expect(() => defineCheck(1 as unknown as string, () => [])).toThrow(
      new TypeError('name must be a string, got 1'),
    );
    expect(() => defineCheck('x', 'y' as unknown as () => [])).toThrow(TypeError);
    expect(() => defineCheck('x', () => [], { needs: ['inks' as 'ink'] })).toThrow(
      /did you mean "ink"/,
    );
    expect(() => defineCheck('x', () => [], { thresholds: { a: -1 } })).toThrow(RangeError);
  });
});

describe('progress and signal', () => {
  const art = flats('1 . 2');

  it('tell which check runs', () => {
    const seen: { check: string; done: number }[] = [];
    checkFlats(art, {
      checks: ['bare', 'specks'],
      onProgress: (progress) => seen.push(progress),
    });
    const sheets: { sheet: string; check: string; done: number }[] = [];
    checkSheets([{ name: 'one', flats: art }], {
      checks: ['bare', 'specks'],
      onProgress: (progress) => sheets.push(progress),
    });
    expect(new Set(sheets.map(({ sheet }) => sheet))).toEqual(new Set(['one']));
    for (const told of [seen, sheets]) {
      const order = told.map(({ check }) => check);
      expect(order.filter((check, i) => check !== order[i - 1])).toEqual(['bare', 'specks']);
      for (const name of ['bare', 'specks']) {
        const shares = told.filter(({ check }) => check === name).map(({ done }) => done);
        expect(shares[0]).toBe(0);
        expect(shares.at(-1)).toBe(1);
        expect(shares).toEqual([...shares].sort((p, q) => p - q));
      }
    }
  });

  it('end the call, within a check as well, and are no failure of it', () => {
    const stop = new Error('enough');
    const onProgress = ({ done }: { done: number }) => {
      if (done === 0.5) throw stop;
    };
    const own = defineCheck('long', ({ tick }) => {
      tick(0.5);
      return [];
    });
    expect(() => checkFlats(art, { checks: [own], onProgress })).toThrow(stop);
    const controller = new AbortController();
    controller.abort(stop);
    expect(() => checkFlats(art, { signal: controller.signal })).toThrow(stop);
  });
});

describe('findingMask and summarizeFindings', () => {
  it('read findings back from JSON', () => {
    const found = checkFlats(flats('1 . . 1'), { checks: ['bare', 'specks'] });
    const again = JSON.parse(JSON.stringify(found));
    expect([...findingMask(again[0], [4, 1]).data]).toEqual([0, 1, 1, 0]);
    expect(() => findingMask(found[0]!, [2, 1])).toThrow(RangeError);
    expect(() => findingMask({} as never, [2, 1])).toThrow(TypeError);
    expect(summarizeFindings(again)).toEqual({
      total: 3,
      bySeverity: { error: 1, warning: 2, information: 0 },
      byCheck: { bare: 1, specks: 2 },
      bySheet: {},
    });
    const sheets = checkSheets([{ name: 'one', flats: flats('1') }]);
    expect(summarizeFindings(sheets).bySheet).toEqual({ one: 1 });
    expect(() => summarizeFindings({} as never)).toThrow(TypeError);
  });
});
