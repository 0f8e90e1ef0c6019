import { describe, expect, it } from 'vitest';
import { layFlats } from '../../src/flats/lay-flats.ts';
import type { SavedStudy } from '../../src/gaps/saved-study.ts';
import { restoreStudy, studyGaps } from '../../src/gaps/study.ts';
import { raster } from '../../src/raster/raster.ts';
import { inkDrawings } from '../flats/drawings.ts';
import { mask } from '../support/grids.ts';

const drawings = inkDrawings(6, 150);
const saved = (): SavedStudy => studyGaps(drawings[0]!.ink).save();
/** A square with a gap of 3 pixels. */
const ring = raster(new Uint8Array(48 * 32), [48, 32]);
for (let x = 4; x < 44; x++) for (const y of [4, 5, 26, 27]) ring.set(x, y, 1);
for (let y = 4; y < 28; y++) for (const x of [4, 5, 42, 43]) ring.set(x, y, 1);
for (let x = 20; x < 23; x++) for (const y of [4, 5]) ring.set(x, y, 0);

describe('a study that was saved', () => {
  it('decides as it did, under any setting, and judges as it did', () => {
    for (const ink of [ring, ...drawings.map((one) => one.ink)]) {
      const study = studyGaps(ink);
      const again = restoreStudy(structuredClone(study.save()));
      for (const options of [{}, { caution: 0.2 }, { maxGap: 5 }, { maxGap: 0 }]) {
        expect(again.seal(options)).toEqual(study.seal(options));
      }
      const laid = layFlats({ ink }, { study: again });
      expect(laid.report).toEqual(layFlats({ ink }, { study }).report);
      expect(again.save()).toEqual(study.save());
    }
  });

  it('is plain: JSON of all but its arrays says the same', () => {
    const { ink, candidates, ...rest } = studyGaps(ring).save();
    expect(JSON.parse(JSON.stringify(rest))).toEqual(rest);
    expect(ink).toBeInstanceOf(Uint32Array);
    expect(candidates.length).toBeGreaterThan(0);
  });

  it('holds widths beyond one word, to the last column', () => {
    const wide = mask(`${'1 0 '.repeat(35)}1\n${'0 1 '.repeat(35)}0`);
    const again = restoreStudy(studyGaps(wide).save());
    expect(again.seal({ maxGap: 0 }).sealed.data).toEqual(wide.data);
  });

  it('of other ink is refused', () => {
    const study = restoreStudy(saved());
    const other = { ink: drawings[1]!.ink };
    expect(() => layFlats(other, { study })).toThrow('study must be of this very ink');
  });

  it('of another version, or no saved study, is refused', () => {
    const bad = (value: unknown) => () => restoreStudy(value as SavedStudy);
    expect(bad({ ...saved(), version: 1 })).toThrow(
      new RangeError('data.version must be 2, the format of this release, got 1'),
    );
    expect(bad({ ...saved(), kind: 'underink page' })).toThrow(TypeError);
    expect(bad(undefined)).toThrow('data must be what save() of a study gives');
    expect(bad({ ...saved(), ink: new Uint32Array(3) })).toThrow('data.ink must be a Uint32Array');
  });
});
