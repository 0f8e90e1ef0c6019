import { describe, expect, it } from 'vitest';
import { placeClaims } from '../../src/gaps/claims.ts';
import { ContactReader } from '../../src/gaps/contacts.ts';
import { checkSealOptions } from '../../src/gaps/seal-options.ts';
import { Texture } from '../../src/gaps/texture.ts';
import { packMask } from '../../src/raster/pack.ts';
import { findParts } from '../../src/runs/parts.ts';
import { mask } from '../support/grids.ts';
import { seeded } from '../support/random.ts';

const listOf = (passages: readonly never[]) => ({
  length: passages.length,
  get: (i: number) => passages[i]!,
});

describe('Texture', () => {
  it('is where more than 256 ends and narrow passages lie in a square of 32 widths', () => {
    const [width, height, side] = [200, 150, 64];
    const end = (x: number, y: number) => ({ x, y }) as never;
    const passage = (x: number, y: number, wide: number) =>
      ({ from: y * width + x - 3, to: y * width + x + 3, width: wide }) as never;
    const of = (count: number, make: () => never) => Array.from({ length: count }, make);
    const texture = (ends: never[], passages: never[]) =>
      new Texture([width, height], 2, ends, listOf(passages), 10);
    const full = texture(
      of(200, () => end(70, 10)),
      [...of(57, () => passage(100, 63, 10)), ...of(500, () => passage(20, 20, 10.1))],
    );
    expect(full.hasEnd(end(127.9, 63.9))).toBe(true);
    expect(full.hasEnd(end(63.9, 10))).toBe(false);
    expect(full.hasEnd(end(70, 64))).toBe(false);
    expect(full.hasPassage(passage(124, 0, 50))).toBe(true);
    expect(full.hasPassage(passage(128, 0, 1))).toBe(false);
    expect(full.bounds()).toEqual([[side, 0, 2 * side, side]]);
    const less = texture(
      of(199, () => end(70, 10)),
      of(57, () => passage(100, 63, 10)),
    );
    expect(less.bounds()).toEqual([]);
    expect(less.hasEnd(end(70, 10))).toBe(false);
  });

  it('lies in the squares of a row as one, cut to the picture', () => {
    const places = [
      [0, 0],
      [70, 0],
      [199, 0],
      [0, 149],
      [199, 149],
    ] as const;
    const ends = places.flatMap(([x, y]) => Array.from({ length: 257 }, () => ({ x, y }) as never));
    expect(new Texture([200, 150], 2, ends, listOf([]), 0).bounds()).toEqual([
      [0, 0, 128, 64],
      [192, 0, 200, 64],
      [0, 128, 64, 150],
      [192, 128, 200, 150],
    ]);
    // Strokes of less than a pixel count as one wide.
    expect(new Texture([200, 150], 0.5, ends, listOf([]), 0).bounds()[0]).toEqual([0, 0, 32, 32]);
  });
});

describe('ContactReader', () => {
  it('measures the connected and the other ink in disks of one and two and a half widths', () => {
    const random = seeded(71);
    for (let n = 0; n < 60; n++) {
      const [w, h] = [8 + Math.floor(30 * random()), 8 + Math.floor(30 * random())];
      const share = 0.3 + 0.5 * random();
      const data = Uint8Array.from({ length: w * h }, () => (random() < share ? 1 : 0));
      const ink = { data, width: w, height: h, channels: 1 };
      const own = [...data.keys()].filter((p) => data[p] === 1);
      const pixel = own[Math.floor(own.length * random())]!;
      const reader = new ContactReader(ink, 2);
      const strokeWidth = 1 + 4 * random();
      const [x0, y0] = [pixel % w, Math.floor(pixel / w)];
      const [radius, inner] = [2.5 * strokeWidth + 0.5, strokeWidth + 0.5];
      const far = (p: number) => Math.hypot((p % w) - x0, Math.floor(p / w) - y0);
      const disk = own.filter((p) => far(p) <= radius);
      const reached = new Set([pixel]);
      for (const p of reached) {
        for (const q of disk) {
          const [dx, dy] = [(p % w) - (q % w), Math.floor(p / w) - Math.floor(q / w)];
          if (Math.abs(dx) <= 1 && Math.abs(dy) <= 1) reached.add(q);
        }
      }
      const sum = (value: (p: number) => number) => [...reached].reduce((s, p) => s + value(p), 0);
      const area = Math.PI * radius * radius;
      const near = [...reached].filter((p) => far(p) <= inner).length;
      const contact = reader.at(pixel, strokeWidth);
      const close = (v: number) => expect.closeTo(v, 9);
      expect(contact).toEqual({
        width: strokeWidth,
        near: close(near / (Math.PI * inner * inner)),
        far: close(reached.size / area),
        other: close((disk.length - reached.size) / area),
        leanX: close(sum((p) => (p % w) - x0) / reached.size / radius),
        leanY: close(sum((p) => Math.floor(p / w) - y0) / reached.size / radius),
      });
      expect(reader.at(pixel)).toBe(contact);
    }
  });

  it('takes the width where the ink is widest nearby, from one pixel to four strokes', () => {
    const bar = (thick: number) => {
      const data = new Uint8Array(60 * 60);
      for (let y = 20; y < 20 + thick; y++) data.fill(1, y * 60 + 5, y * 60 + 55);
      return { data, width: 60, height: 60, channels: 1 };
    };
    const widthOf = (thick: number, given?: number) =>
      new ContactReader(bar(thick), 3).at(20 * 60 + 30, given).width;
    // As strokeWidth measures them: n + ¾ for odd widths.
    for (const thick of [1, 3, 5, 9]) expect(widthOf(thick)).toBe(thick + 0.75);
    // The climb ends at four strokes.
    expect(widthOf(25)).toBe(11.75);
    expect(widthOf(3, 0.2)).toBe(1);
    expect(widthOf(3, 40)).toBe(12);
    expect(widthOf(3, 5.5)).toBe(5.5);
    expect(new ContactReader(bar(25), 1).at(20 * 60 + 30).width).toBe(7.75);
  });
});

describe('checkSealOptions', () => {
  const ink = { data: new Uint8Array(40), width: 8, height: 5, channels: 1 };
  const check = (options?: object) => checkSealOptions(options, ink, 'sealGaps');

  it('has defaults, and caution as log-odds', () => {
    const none = { apart: [], together: [], bridge: [], open: [] };
    expect(check()).toEqual({ maxGap: 'auto', bias: 0, ...none });
    expect(check({ maxGap: 0, caution: 0 })).toEqual({ maxGap: 0, bias: -6, ...none });
    expect(check({ caution: 1 }).bias).toBe(6);
    const groups = {
      apart: [[[0, 0]], [[7, 4]]],
      together: [[]],
      open: [
        [
          [0, 0],
          [1, 1],
        ],
      ],
    };
    expect(check(groups)).toEqual({ maxGap: 'auto', bias: 0, ...none, ...groups });
  });

  it('refuses what is out of range, by its name', () => {
    expect(() => check({ maxGap: -1 })).toThrow(/^maxGap must be a finite number of pixels >= 0/);
    expect(() => check({ maxGap: 'all' })).toThrow(TypeError);
    expect(() => check({ caution: 1.1 })).toThrow(/^caution must be a finite number from 0 to 1/);
    expect(() => check({ apart: 3 })).toThrow(/^apart must be /);
    expect(() => check({ together: [[[9, 0]]] })).toThrow(/^together\[0\]\[0\] must be inside/);
    expect(() => check({ bridge: [[[0, 0]]] })).toThrow(/^bridge\[0\] must be two points/);
    expect(() => check({ open: [[[0, 0]]] })).toThrow(/^open\[0\] must be two points/);
    expect(() => check({ gap: 3 })).toThrow(/^sealGaps has no option "gap"/);
  });
});

describe('placeClaims', () => {
  it('is the middle of the longest run of what was claimed, with its area and odds', () => {
    const { data, shape } = mask(`
      . . 1 . . . 1
      . . 1 1 1 1 1
      1 1 1 . . . .
      . . . . 1 . .`);
    const parts = findParts(
      packMask({ data, width: shape[0]!, height: shape[1]!, channels: 1 }, 'ink'),
    );
    expect(parts.count).toBe(3);
    const map = { area: parts.area, count: parts.count, parts } as never;
    expect(placeClaims(map, [])).toEqual([]);
    expect(
      placeClaims(map, [
        { faces: [1, 2], odds: 0 },
        { faces: [3], odds: 2 },
      ] as never),
    ).toEqual([
      { at: [4.5, 0.5], area: 7, probability: 0.5 },
      { at: [4.5, 2.5], area: 10, probability: expect.closeTo(1 / (1 + Math.exp(-2)), 12) },
    ]);
  });
});
