import type { NdArray } from 'ndarray';
import { describe, expect, it } from 'vitest';
import { type InkCoverageOptions, inkCoverage } from '../../src/ink/coverage.ts';
import { thresholdInk } from '../../src/ink/threshold.ts';
import { raster } from '../../src/raster/index.ts';
import { otherViews, pixelViews, symmetries } from '../support/grids.ts';
import { seeded } from '../support/random.ts';

type Color = readonly [number, number, number];

const SIDE = 61;

/** Share of a pixel's square under a bar through the middle, from 8 × 8 points. */
function bar(x: number, y: number, degrees: number, width: number): number {
  const [c, s] = [Math.cos((degrees * Math.PI) / 180), Math.sin((degrees * Math.PI) / 180)];
  let inside = 0;
  for (let k = 0; k < 64; k++) {
    const u = x + ((k & 7) + 0.5) / 8 - SIDE / 2;
    const v = y + ((k >> 3) + 0.5) / 8 - SIDE / 2;
    if (Math.abs(v * c - u * s) < width / 2) inside++;
  }
  return inside / 64;
}

/** A line of ink across a pencil mark on paper; without `pencil` the line alone. */
function crossing(
  paper: Color,
  ink: Color,
  pencil: Color | undefined,
  angles: readonly [ink: number, pencil: number],
  scale = 1,
): NdArray<Uint8Array | Uint16Array> {
  const data = new (scale === 1 ? Uint8Array : Uint16Array)(3 * SIDE * SIDE);
  for (let p = 0; p < SIDE * SIDE; p++) {
    const [x, y] = [p % SIDE, Math.floor(p / SIDE)];
    const over = bar(x, y, angles[0], 3.3);
    const under = pencil === undefined ? 0 : bar(x, y, angles[1], 6);
    for (let c = 0; c < 3; c++) {
      const below = paper[c]! * (1 - under) + (pencil?.[c] ?? 0) * under;
      data[3 * p + c] = Math.round(scale * (ink[c]! * over + below * (1 - over)));
    }
  }
  return raster(data, [SIDE, SIDE, 3]) as NdArray<Uint8Array | Uint16Array>;
}

const WHITE: Color = [255, 255, 255];
const BLACK: Color = [0, 0, 0];
/** Non-photo blue, `#a4dded` (common practice, no source). */
const BLUE: Color = [164, 221, 237];

function expectLineAlone(
  paper: Color,
  ink: Color,
  pencil: Color,
  angles: readonly [number, number],
  options: InkCoverageOptions,
  scale = 1,
): void {
  const { dropHue: _, ...plain } = options;
  const alone = inkCoverage(crossing(paper, ink, undefined, angles, scale), plain);
  const found = inkCoverage(crossing(paper, ink, pencil, angles, scale), options);
  const worst = found.data.reduce((most, v, i) => Math.max(most, Math.abs(v - alone.data[i]!)), 0);
  expect(worst).toBeLessThanOrEqual(2);
  // The next level that no pixel of the line alone is so near, since samples are rounded.
  for (const level of [60, 127, 190]) {
    let free = level;
    while (alone.data.some((v) => v > free - worst && v <= free + worst)) free++;
    expect(free - level).toBeLessThan(12);
    expect(thresholdInk(found, { level: free }).data).toEqual(
      thresholdInk(alone, { level: free }).data,
    );
  }
}

describe('dropHue', () => {
  for (const ink of [0, 17, 45, 80, 128]) {
    for (const pencil of [30, 64, 90, 105, 171]) {
      it(`leaves a line at ${ink}° across a pencil mark at ${pencil}° as it is alone`, () => {
        const angles = [ink, pencil] as const;
        expectLineAlone(WHITE, BLACK, BLUE, angles, { dropHue: true });
        expectLineAlone(WHITE, BLACK, BLUE, angles, { dropHue: 'blue' }, 257);
        expectLineAlone(WHITE, [40, 40, 40], [120, 190, 235], angles, { dropHue: true });
        const red = { hue: 5, tolerance: 30 };
        expectLineAlone(WHITE, BLACK, [240, 130, 120], angles, { dropHue: red });
        expectLineAlone(WHITE, BLACK, [250, 140, 160], angles, { dropHue: { ...red, hue: 355 } });
      });
    }
  }

  it('does so on tinted paper', () => {
    for (const pencil of [30, 64, 90, 105, 171]) {
      const options = { dropHue: true, paper: '#f0e6d2' } as const;
      expectLineAlone([240, 230, 210], BLACK, [150, 200, 205], [17, pencil], options);
    }
  });

  it('drops the pencil from lines on transparent paper', () => {
    const alone = crossing(WHITE, BLACK, undefined, [17, 64]);
    const line = new Uint8Array(4 * SIDE * SIDE);
    for (let p = 0; p < SIDE * SIDE; p++) {
      const over = 1 - alone.data[3 * p]! / 255;
      const under = (1 - over) * bar(p % SIDE, Math.floor(p / SIDE), 64, 6);
      const alpha = over + under;
      for (let c = 0; c < 3 && alpha > 0; c++) {
        line[4 * p + c] = Math.round((BLUE[c]! * under) / alpha);
      }
      line[4 * p + 3] = Math.round(255 * alpha);
    }
    const pixels = raster(line, [SIDE, SIDE, 4]);
    const found = inkCoverage(pixels, { paper: 'transparent', dropHue: true });
    const plain = inkCoverage(alone);
    for (let p = 0; p < SIDE * SIDE; p++) {
      expect(Math.abs(found.data[p]! - plain.data[p]!)).toBeLessThanOrEqual(4);
    }
  });

  it('leaves other hues, faint color, gray pictures and lines without pencil as they are', () => {
    const red = crossing(WHITE, BLACK, [240, 130, 120], [17, 64]);
    expect(inkCoverage(red, { dropHue: true }).data).toEqual(inkCoverage(red).data);
    const faint = crossing(WHITE, BLACK, [235, 245, 250], [17, 64]);
    expect(inkCoverage(faint, { dropHue: true }).data).toEqual(inkCoverage(faint).data);
    const more = inkCoverage(faint, { dropHue: { minChroma: 10 } });
    expect(more.data.some((v, i) => v < inkCoverage(faint).data[i]!)).toBe(true);
    const gray = raster(new Uint8Array([0, 100, 255]), [3, 1]);
    expect([...inkCoverage(gray, { dropHue: true }).data]).toEqual([255, 155, 0]);
    expect([...inkCoverage(gray, { dropHue: false }).data]).toEqual([255, 155, 0]);
  });

  it('takes alpha into account', () => {
    const rgba = raster(Uint8Array.of(...BLUE, 255, ...BLUE, 90, 0, 0, 0, 90), [3, 1, 4]);
    expect([...inkCoverage(rgba, { dropHue: true }).data]).toEqual([0, 0, 90]);
  });

  it('is the same through every symmetry and view', () => {
    for (const scale of [1, 257]) {
      const whole = crossing([240, 230, 210], BLACK, [150, 200, 205], [17, 64], scale);
      const alone = inkCoverage(whole, { dropHue: true });
      expect(alone.data).not.toEqual(inkCoverage(whole).data);
      const expected = [...symmetries(alone), ...otherViews(alone)];
      pixelViews(whole).forEach((view, i) => {
        const found = inkCoverage(view, { dropHue: true });
        let wrong = 0;
        for (let y = 0; y < SIDE; y++)
          for (let x = 0; x < SIDE; x++) if (found.get(x, y) !== expected[i]!.get(x, y)) wrong++;
        expect(wrong).toBe(0);
      });
    }
  });

  it('takes neither colored grain nor blue ink for pencil', () => {
    const random = seeded(4);
    const grain = () => 18 * (random() + random() + random() + random() - 2);
    const paper = [235, 235, 235] as const;
    const navy = crossing(paper, [32, 48, 90], undefined, [90, 20]);
    expect(inkCoverage(navy, { dropHue: true }).data).toEqual(inkCoverage(navy).data);
    const dark = [40, 40, 40] as const;
    for (const pencil of [undefined, [42, 80, 176]] as const) {
      const clean = crossing(paper, dark, pencil, [90, 20]);
      const noisy = raster(
        Uint8Array.from(clean.data, (v) => Math.max(0, Math.min(255, Math.round(v + grain())))),
        [SIDE, SIDE, 3],
      );
      const found = inkCoverage(noisy, { dropHue: true });
      const alone = inkCoverage(crossing(paper, dark, undefined, [90, 20]));
      const holes = alone.data.filter((v, i) => v > 170 && found.data[i]! < 100).length;
      expect(holes).toBe(0);
    }
  });

  it('refuses what it cannot take, word for word', () => {
    const pixels = raster(new Uint8Array(3), [1, 1, 3]);
    const call = (dropHue: unknown) => () => inkCoverage(pixels, { dropHue } as never);
    const allowed = 'true, false, "blue" or { hue, tolerance, minChroma }';
    expect(call('red')).toThrow(new RangeError(`dropHue must be ${allowed}, got "red"`));
    expect(call({ hue: 400 })).toThrow(
      new RangeError('dropHue.hue must be a finite number of degrees from 0 to 360, got 400'),
    );
    expect(call({ tolerance: -1 })).toThrow(RangeError);
    expect(call({ minChroma: 0 })).toThrow(RangeError);
    expect(call({ color: 3 })).toThrow(/^dropHue has no option "color"/);
    expect(call(3)).toThrow(new TypeError(`dropHue must be ${allowed}, got 3`));
  });
});
