import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { thresholdInk } from '../../src/ink/threshold.ts';
import { crc32 as crc32Of } from '../../src/png/crc32.ts';
import { raster } from '../../src/raster/raster.ts';
import { otherViews, symmetries } from '../support/grids.ts';
import { type SamplePicture, samplePicture, unpackBits } from './sample-pictures.ts';

interface Picture {
  name: SamplePicture;
  size: [number, number];
  crc32: number;
  masks: { window: number; k: number; ink: number; mask: string }[];
}

const file = new URL('reference/sauvola.json', import.meta.url);
const pictures: Picture[] = JSON.parse(readFileSync(file, 'utf8')).pictures;

const mirror = (i: number, n: number): number => {
  let at = i;
  while (n > 1 && (at < 0 || at >= n)) at = at < 0 ? -at : 2 * (n - 1) - at;
  return n === 1 ? 0 : at;
};

/** The definition, window by window. */
function plain(data: Uint8Array, w: number, h: number, window: number, k: number): number[] {
  const half = window >> 1;
  return [...data].map((v, i) => {
    let sum = 0;
    let square = 0;
    for (let dy = -half; dy <= half; dy++) {
      for (let dx = -half; dx <= half; dx++) {
        const at = mirror(Math.floor(i / w) + dy, h) * w + mirror((i % w) + dx, w);
        sum += 255 - data[at]!;
        square += (255 - data[at]!) ** 2;
      }
    }
    const n = window * window;
    const spread = Math.sqrt(n * square - sum * sum) / n;
    return 255 - v <= (sum / n) * (1 + k * (spread / 127.5 - 1)) ? 1 : 0;
  });
}

describe('thresholdInk with "sauvola"', () => {
  // scikit-image mirrors the picture at its borders as is done here, so that nothing is left out.
  for (const { name, size, crc32, masks } of pictures) {
    const tones = samplePicture(name);
    const coverage = raster(
      tones.data.map((v) => 255 - v),
      size,
    );

    it(`has "${name}" as scikit-image has it`, () => {
      expect(tones.shape).toEqual(size);
      expect(crc32Of(tones.data)).toBe(crc32);
    });

    it.each(masks)(`of "${name}" with window $window and k $k is scikit-image's`, (reference) => {
      const { window, k, ink } = reference;
      const found = thresholdInk(coverage, { method: 'sauvola', window, k }).data;
      const expected = unpackBits(reference.mask, found.length);
      let [wrong, count] = [0, 0];
      for (let i = 0; i < found.length; i++) {
        if (found[i] !== expected[i]) wrong++;
        count += found[i]!;
      }
      expect({ wrong, count }).toEqual({ wrong: 0, count: ink });
    });
  }

  it('follows the definition on any raster, mirrored at the borders however small it is', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 1, max: 7 }),
        fc.integer({ min: 1, max: 7 }),
        fc.constantFrom(3, 5, 11, 23),
        fc.constantFrom(0.01, 0.2, 0.5, 1),
        fc.uint8Array({ minLength: 49, maxLength: 49 }),
        (w, h, window, k, bytes) => {
          const data = bytes.slice(0, w * h);
          const found = thresholdInk(raster(data, [w, h]), { method: 'sauvola', window, k });
          expect([...found.data]).toEqual(plain(data, w, h, window, k));
        },
      ),
      { seed: 5 },
    );
  });

  it('sees every symmetry and view of a raster alike', () => {
    const data = Uint8Array.from({ length: 77 }, (_, i) => (i * i * 37) % 256);
    const whole = raster(data, [11, 7]);
    const options = { method: 'sauvola', window: 5, k: 0.3 } as const;
    const straight = thresholdInk(whole, options);
    const masks = [...symmetries(straight), ...otherViews(straight)];
    [...symmetries(whole), ...otherViews(whole)].forEach((view, i) => {
      const found = thresholdInk(view, options);
      const [w, h] = view.shape as [number, number];
      for (let y = 0; y < h; y++)
        for (let x = 0; x < w; x++) expect(found.get(x, y)).toBe(masks[i]!.get(x, y));
    });
  });

  it('takes sides beyond 65,535', () => {
    const data = new Uint8Array(70_001);
    data[69_998] = 200;
    for (const shape of [
      [70_001, 1],
      [1, 70_001],
    ] as const) {
      const found = thresholdInk(raster(data, shape), { method: 'sauvola', window: 9, k: 0.3 });
      expect(found.data.indexOf(1)).toBe(69_998);
      expect(found.data.lastIndexOf(1)).toBe(69_998);
    }
  });

  it('refuses what it cannot take, word for word', () => {
    const coverage = raster(new Uint8Array(4), [2, 2]);
    const call = (options: object) => () => thresholdInk(coverage, options);
    expect(call({ method: 'sauvola', window: 4 })).toThrow(
      new RangeError('window must be an odd number of pixels, got 4'),
    );
    expect(call({ method: 'sauvola', window: 1 })).toThrow(
      new RangeError('window must be a whole number of pixels from 3 to 32767, got 1'),
    );
    expect(call({ method: 'sauvola', k: 0 })).toThrow(
      new RangeError('k must be a finite number from 0.01 to 1, got 0'),
    );
    expect(call({ method: 'otsu', window: 5 })).toThrow(
      new RangeError('window must be left out with method "otsu", got 5'),
    );
    expect(call({ method: 'sauvola', level: 5 })).toThrow(
      new RangeError('level must be left out with method "sauvola", got 5'),
    );
  });
});
