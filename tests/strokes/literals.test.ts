import { describe, expect, it } from 'vitest';
import { packMask } from '../../src/raster/pack.ts';
import { raster } from '../../src/raster/raster.ts';
import { findEnds, strokeEnds } from '../../src/strokes/stroke-ends.ts';
import { widthAlong } from '../../src/strokes/stroke-width.ts';
import { thinPacked } from '../../src/strokes/thin.ts';
import { mask, symmetries } from '../support/grids.ts';
import { expectTicks } from '../support/ticks.ts';

const page = (w: number, h: number) => raster(new Uint8Array(w * h), [w, h]);

/** A line 41 pixels long and `thick` wide, with a branch one pixel wide from its middle. */
function branched(thick: number, branch: number) {
  const ink = page(51, 40);
  for (let x = 5; x < 46; x++) for (let k = 0; k < thick; k++) ink.set(x, 10 + k, 1);
  for (let k = 0; k < branch; k++) ink.set(25, 10 + thick + k, 1);
  return ink;
}

describe('strokeEnds of lines one pixel wide', () => {
  it('are their last pixels, with all that is told of them', () => {
    const ink = mask(`
      . . . . . . . . .
      . 1 1 1 1 1 1 1 .
      . . . . . . . . .`);
    // To the paper above and below it is one pixel from the middle.
    const common = { y: 1.5, width: 1.75, taper: 1, loose: true };
    expect(strokeEnds(ink)).toMatchObject([
      { ...common, x: 1.5, direction: [-1, 0] },
      { ...common, x: 7.5, direction: [1, 0] },
    ]);
  });

  const line = (n: number) => {
    const ink = page(90, 5);
    for (let x = 0; x < n; x++) ink.set(6 + x, 2, 1);
    return ink;
  };

  it('are there from five pixels on, and a dot of three has none', () => {
    for (const n of [1, 2, 3, 5, 6, 7, 8]) {
      expect(strokeEnds(line(n)).map((end) => end.x)).toEqual(n <= 3 ? [] : [6.5, 5.5 + n]);
    }
  });

  // Of a stroke less than about three times as long as wide, the way to its other tip, or to a fork, is
  // taken without the last step, so its reach is a step short and four pixels are a dot.
  it.fails('are told from strokes of four pixels on, with the whole way to the other tip', () => {
    for (let n = 4; n <= 8; n++) {
      expect(strokeEnds(line(n)).map(({ reach }) => reach)).toEqual([n - 1, n - 1]);
    }
  });

  it('reach from tip to tip, for 24 widths at most', () => {
    for (const n of [9, 20, 42, 44, 60]) {
      const reach = Math.min(n - 1, 24 * 1.75);
      expect(strokeEnds(line(n)).map((end) => [end.reach, end.loose])).toEqual([
        [reach, reach === n - 1],
        [reach, reach === n - 1],
      ]);
    }
  });

  it('are those of branches of more than four pixels, counted from the fork beside the line', () => {
    for (let n = 0; n <= 9; n++) {
      for (const view of symmetries(branched(1, n))) {
        expect(strokeEnds(view)).toHaveLength(n <= 4 ? 2 : 3);
      }
    }
  });

  it('are told in rows, those of side branches that were taken off left out', () => {
    const ends = strokeEnds(branched(1, 12));
    expect(ends.map(({ x, y }) => [x, y])).toEqual([
      [5.5, 10.5],
      [45.5, 10.5],
      [25.5, 22.5],
    ]);
    expect(ends[2]!.direction).toEqual([0, 1]);
    expect(ends.map(({ loose }) => loose)).toEqual([false, false, false]);
    // To the fork, whose three pixels may lie on a diagonal.
    for (const { reach } of ends.slice(0, 2)) expect(Math.abs(reach - 20)).toBeLessThanOrEqual(1.5);
    expect(Math.abs(ends[2]!.reach - 12)).toBeLessThanOrEqual(1.5);
  });
});

describe('strokeEnds of a thick line', () => {
  it('takes a thin branch for a spur as far as three pixels beyond the half width', () => {
    for (const thick of [5, 7, 9]) {
      const counts = Array.from({ length: 12 }, (_, n) => strokeEnds(branched(thick, n)).length);
      const first = counts.indexOf(3);
      expect(first).toBeGreaterThanOrEqual(3);
      expect(first).toBeLessThanOrEqual(5);
      expect(counts.slice(0, first)).toEqual(counts.slice(0, first).fill(2));
      expect(counts.slice(first)).toEqual(counts.slice(first).fill(3));
    }
  });

  it('runs out of the picture without an end there, and ends in it with one', () => {
    const ink = page(60, 20);
    for (let x = 0; x < 30; x++) for (let y = 8; y < 13; y++) ink.set(x, y, 1);
    const ends = strokeEnds(ink);
    expect(ends.map(({ x, y }) => [x, y])).toEqual([
      [0.5, 10.5],
      [29.5, 10.5],
    ]);
    for (const { width, taper } of ends) expect([width, taper]).toEqual([5.75, 1]);
  });
});

describe('progress', () => {
  const [width, height] = [40, 2000];
  const ink = new Uint8Array(width * height);
  for (let y = 0; y < height; y++) {
    for (let x = 3; x < 37; x++) if (y % 10 > 3 && (x < 12 || x > 18)) ink[y * width + x] = 1;
  }

  it('is told by thinning, by widths and by ends', () => {
    const rows = height / 64;
    const packed = packMask({ data: ink, width, height, channels: 1 }, 'ink');
    expectTicks((tick) => void thinPacked(packed, tick), { least: rows, step: 0.36 });
    const skeleton = () => thinPacked(packed);
    expectTicks((tick) => void widthAlong(ink, width, height, skeleton(), tick), {
      least: rows - 2,
    });
    expectTicks((tick) => void findEnds(ink, width, height, skeleton(), tick), {
      least: rows - 2,
      step: 0.6,
    });
  });
});
