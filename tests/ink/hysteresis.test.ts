import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { thresholdInk } from '../../src/ink/threshold.ts';
import { crc32 as crc32Of } from '../../src/png/crc32.ts';
import { raster } from '../../src/raster/raster.ts';
import { grid, literal, mask, otherViews, symmetries } from '../support/grids.ts';
import { type SamplePicture, samplePicture, unpackBits } from './sample-pictures.ts';

interface Picture {
  name: SamplePicture;
  size: [number, number];
  crc32: number;
  masks: {
    weak: number;
    level: number;
    edgesInk: number;
    edges: string;
    ink: number;
    mask: string;
  }[];
}

const file = new URL('reference/hysteresis.json', import.meta.url);
const pictures: Picture[] = JSON.parse(readFileSync(file, 'utf8')).pictures;

/** Spreads from strong pixels until nothing changes. */
function plain(data: Uint8Array, w: number, level: number, weak: number): number[] {
  const kept = [...data].map((v) => (v > level ? 1 : 0));
  for (let changed = true; changed; ) {
    changed = false;
    for (let i = 0; i < data.length; i++) {
      if (kept[i] === 1 || data[i]! <= weak) continue;
      const near = kept.some((v, j) => {
        const dx = Math.abs((j % w) - (i % w));
        const dy = Math.abs(Math.floor(j / w) - Math.floor(i / w));
        return v === 1 && dx <= 1 && dy <= 1;
      });
      if (!near) continue;
      kept[i] = 1;
      changed = true;
    }
  }
  return kept;
}

describe('thresholdInk with "hysteresis"', () => {
  const coverage = mask(`
    200  70   .   .  70
      .   .  65   .  70
      .   .   .   .   .
     64  63   . 127  90
  `);

  it('keeps weak ink that touches strong ink, at a corner too', () => {
    const expected = literal(`
      1 1 . . .
      . . 1 . .
      . . . . .
      . . . . .
    `);
    for (const view of [coverage, ...otherViews(coverage)]) {
      expect(grid(thresholdInk(view, { method: 'hysteresis', level: 127 }))).toBe(expected);
    }
  });

  it('finds its levels between paper and solid ink', () => {
    // Paper 20, solid ink 200: level 110, weak 65.
    const page = mask(`
      20 20 20  20 20 20
      65 66 20 110 20 20
      20 20 111 200 200 200
    `);
    expect(grid(thresholdInk(page, { method: 'hysteresis' }))).toBe(
      literal(`
        . . . . . .
        . 1 . 1 . .
        . . 1 1 1 1
      `),
    );
    const all = grid(thresholdInk(page, { method: 'hysteresis', weak: 64 }));
    expect(all.split('\n')[1]).toBe('1 1 . 1 . .');
  });

  for (const { name, size, crc32, masks } of pictures) {
    const tones = samplePicture(name);
    const page = raster(
      tones.data.map((v) => 255 - v),
      size,
    );

    it(`has "${name}" as SciPy has it`, () => {
      expect(tones.shape).toEqual(size);
      expect(crc32Of(tones.data)).toBe(crc32);
    });

    // scikit-image's apply_hysteresis_threshold connects pixels that share an edge; here, as in Canny's
    // paper, corners connect too. SciPy does its steps with corners; its own mask lies within that.
    it.each(masks)(`of "${name}" with $weak and $level is SciPy's`, (reference) => {
      const { weak, level, ink, edgesInk } = reference;
      const found = thresholdInk(page, { method: 'hysteresis', level, weak }).data;
      const expected = unpackBits(reference.mask, found.length);
      const edges = unpackBits(reference.edges, found.length);
      let [wrong, count, within, missed] = [0, 0, 0, 0];
      for (let i = 0; i < found.length; i++) {
        if (found[i] !== expected[i]) wrong++;
        if (edges[i]! > found[i]!) missed++;
        count += found[i]!;
        within += edges[i]!;
      }
      expect({ wrong, count, within, missed }).toEqual({
        wrong: 0,
        count: ink,
        within: edgesInk,
        missed: 0,
      });
    });
  }

  it('is the same in every symmetry', () => {
    const options = { method: 'hysteresis', level: 100, weak: 60 } as const;
    const masks = symmetries(thresholdInk(coverage, options));
    symmetries(coverage).forEach((view, i) => {
      expect(grid(thresholdInk(view, options))).toBe(grid(masks[i]!));
    });
  });

  it('spreads as far as weak ink is connected on any raster', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 1, max: 11 }),
        fc.uint8Array({ minLength: 77, maxLength: 77 }),
        fc.integer({ min: 0, max: 254 }),
        fc.integer({ min: 0, max: 254 }),
        (w, bytes, a, b) => {
          const h = Math.floor(77 / w);
          const data = bytes.slice(0, w * h);
          const [weak, level] = [Math.min(a, b), Math.max(a, b)];
          const found = thresholdInk(raster(data, [w, h]), { method: 'hysteresis', level, weak });
          expect([...found.data]).toEqual(plain(data, w, level, weak));
        },
      ),
      { seed: 8 },
    );
  });

  it('takes sides beyond 65,535', () => {
    const data = new Uint8Array(70_001).fill(100);
    data[69_000] = 0;
    data[70_000] = 255;
    for (const shape of [
      [70_001, 1],
      [1, 70_001],
    ] as const) {
      const found = thresholdInk(raster(data, shape), { method: 'hysteresis', level: 127 });
      expect(found.data.indexOf(1)).toBe(69_001);
    }
  });

  it('refuses a weak level above the strong one, and other methods with it', () => {
    const call = (options: object) => () => thresholdInk(coverage, options);
    expect(call({ method: 'hysteresis', level: 50, weak: 51 })).toThrow(
      new RangeError('weak must be a finite number of coverage from 0 to 50, got 51'),
    );
    expect(call({ method: 'fixed', weak: 51 })).toThrow(
      new RangeError('weak must be left out with method "fixed", got 51'),
    );
  });
});
