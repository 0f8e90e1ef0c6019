import { runInNewContext } from 'node:vm';
import { describe, expect, it } from 'vitest';
import {
  absorbRegions,
  applyPlan,
  clearPaper,
  indexFlats,
  inkCoverage,
  layFlats,
  otsuLevel,
  raster,
  studyGaps,
} from '../../src/index.ts';
import { labels } from '../support/grids.ts';

const page = raster(new Uint8Array(100).fill(255), [10, 10]);

describe('the palette', () => {
  it('that leaves no index for the ground is refused', () => {
    const palette = Array.from({ length: 65_535 }, (_, i) => ({
      name: `s${i}`,
      color: `#${(i + 1).toString(16).padStart(6, '0')}`,
    }));
    const ring = labels(`
      1 1 1
      1 2 1
      1 1 1`);
    const marks = [{ point: [1.5, 1.5], swatch: 's0' }] as const;
    const plan = { version: 1, size: [3, 3], palette, marks } as const;
    expect(() => applyPlan(ring, plan)).toThrow(/room for the ground among 65535 swatches/);
    const shorter = { ...plan, palette: palette.slice(1), marks: [] };
    expect(applyPlan(ring, shorter, { unnamed: 'shared', ground: 's1' }).flats.palette.length).toBe(
      65_536,
    );
  });

  it('above 65,535 placeholders suggests what helps', () => {
    const side = 260;
    const many = raster(
      Int32Array.from({ length: side * side }, (_, i) => i + 1),
      [side, side],
    );
    const plan = { version: 1, size: [side, side], palette: [], marks: [] } as const;
    expect(() => applyPlan(many, plan)).toThrow(/unnamed: 'shared'.*absorb/);
    expect(applyPlan(many, plan, { unnamed: 'shared' }).flats.palette.length).toBe(3);
  });

  it('of one result does not reach another', () => {
    const { palette } = layFlats(page).flats;
    expect(() => {
      (palette[0] as { color: string }).color = '#ff0000';
    }).toThrow(TypeError);
    expect(indexFlats(raster(new Uint8Array([1]), [1, 1])).palette[0]!.color).toBe('#000000');
  });

  it('keeps the name of the ground from placeholders', () => {
    const plan = {
      version: 1,
      size: [3, 3],
      palette: [{ name: 'sky', color: '#112233' }],
    } as const;
    const marks = [{ point: [0.5, 0.5], swatch: 'sky' }] as const;
    const ring = labels(`
      1 1 1
      1 2 1
      1 1 1`);
    const { flats } = applyPlan(ring, { ...plan, marks }, { ground: 'region 1,1' });
    expect(flats.ground).toBeUndefined();
  });
});

describe('bad input', () => {
  it('with holes in its lists is named', () => {
    const plan = { version: 1, size: [10, 10], palette: [], marks: [] } as const;
    expect(() => layFlats(page, { plan: { ...plan, palette: new Array(1) } })).toThrow(
      /^plan\.palette\[0\] must be a swatch/,
    );
    expect(() => layFlats(page, { plan: { ...plan, marks: new Array(2) } })).toThrow(
      /^plan\.marks\[0\] must be a mark/,
    );
    expect(() => raster(new Uint8Array(4), new Array(2))).toThrow(RangeError);
  });

  it('with a misspelt or useless field is refused', () => {
    const plan = { version: 1, size: [10, 10], palette: [], marks: [], grund: 'x' };
    expect(() => layFlats(page, { plan: plan as never })).toThrow(/plan has no option "grund"/);
    const ink = raster(new Uint8Array(100), [10, 10]);
    expect(() => layFlats({ ink, covrage: ink } as never)).toThrow(/did you mean "coverage"/);
    expect(() => layFlats({ ink }, { threshold: { level: 3 } })).toThrow(
      /threshold must be left out/,
    );
    expect(() => layFlats({ ink }, { coverage: { paper: 'white' } })).toThrow(
      /coverage must be left out/,
    );
    expect(() => layFlats(page, { study: { seal() {} } as never })).toThrow(/^study must be/);
    const other = studyGaps(raster(new Uint8Array(6), [3, 2]));
    expect(() => layFlats(page, { study: other })).toThrow(
      'study must be of ink of 10 × 10, got 3 × 2',
    );
    const blank = studyGaps(raster(new Uint8Array(100), [10, 10]));
    const inked = { ink: raster(new Uint8Array(100).fill(1, 0, 9), [10, 10]) };
    expect(() => layFlats(inked, { study: blank })).toThrow('study must be of this very ink');
    expect(() => clearPaper(page, { clear: 300 })).toThrow(/clear must be/);
  });

  it('of areas is found before anything is absorbed', () => {
    const two = labels('1 1 2 2');
    expect(() => absorbRegions(two, { areas: [] })).toThrow(/areas\[1\]/);
    expect(() => absorbRegions(two, { areas: [0, 4, Number.NaN] })).toThrow(/areas\[2\].*got NaN/);
  });
});

describe('arrays of another realm', () => {
  it('are read as what they are', () => {
    const data = runInNewContext('new Uint16Array([65535, 0, 32768, 65280])') as Uint16Array;
    expect([...inkCoverage({ data, width: 4, height: 1 }).data]).toEqual([0, 255, 127, 1]);
  });
});

describe('otsuLevel', () => {
  it('takes the lowest of equally good levels', () => {
    expect(otsuLevel(raster(new Uint8Array([0, 2, 1, 1]), [4, 1]))).toBe(0);
  });
});

describe('clearPaper', () => {
  it('clears paper within so many levels of white', () => {
    const floating = clearPaper(raster(new Uint8Array([255, 250, 249, 0]), [4, 1]), { clear: 5 });
    expect([0, 1, 2, 3].map((i) => floating.data[4 * i + 3])).toEqual([0, 0, 6, 255]);
  });
});
