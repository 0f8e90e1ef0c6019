import fc from 'fast-check';
import type { NdArray } from 'ndarray';
import { describe, expect, it } from 'vitest';
import { raster } from '../../src/raster/index.ts';
import { isRemovable, thinInk } from '../../src/strokes/thin.ts';
import { blots } from '../gaps/blots.ts';
import { grid, literal, mask, otherViews, symmetries, worstCases } from '../support/grids.ts';

type Bytes = NdArray<Uint8Array>;

const at = (r: Bytes, x: number, y: number): number =>
  x < 0 || y < 0 || x >= r.shape[0]! || y >= r.shape[1]! ? 0 : r.get(x, y);

/** 8-connected ink, labeled by an explicit stack. */
function components(r: Bytes): { labels: Int32Array; count: number } {
  const [w, h] = r.shape as [number, number];
  const labels = new Int32Array(w * h);
  let count = 0;
  for (let i = 0; i < w * h; i++) {
    if (labels[i] !== 0 || at(r, i % w, Math.floor(i / w)) === 0) continue;
    labels[i] = ++count;
    const stack = [i];
    while (stack.length > 0) {
      const p = stack.pop()!;
      for (let k = 0; k < 9; k++) {
        const x = (p % w) + (k % 3) - 1;
        const y = Math.floor(p / w) + Math.floor(k / 3) - 1;
        if (at(r, x, y) === 0 || labels[y * w + x] !== 0) continue;
        labels[y * w + x] = count;
        stack.push(y * w + x);
      }
    }
  }
  return { labels, count };
}

/**
 * Euler number of 8-connected ink, components less holes, from 2 × 2 quads: (Q1 − Q3 − 2·QD) / 4
 * (Gray 1971, "Local properties of binary images in two dimensions").
 */
function euler(r: Bytes): number {
  let sum = 0;
  for (let y = -1; y < r.shape[1]!; y++) {
    for (let x = -1; x < r.shape[0]!; x++) {
      const quad = [at(r, x, y), at(r, x + 1, y), at(r, x, y + 1), at(r, x + 1, y + 1)];
      const ink = quad.reduce((a, b) => a + b);
      if (ink === 1) sum += 1;
      else if (ink === 3) sum -= 1;
      else if (ink === 2 && quad[0] === quad[3]) sum -= 2;
    }
  }
  return sum / 4;
}

/** Whether paper and ink around a pixel stay as connected without it, by flooding its 3 × 3 block. */
function isSimple(r: Bytes, x: number, y: number): boolean {
  const block = raster(new Uint8Array(9), [3, 3]);
  for (let k = 0; k < 9; k++)
    block.set(k % 3, Math.floor(k / 3), at(r, x + (k % 3) - 1, y + Math.floor(k / 3) - 1));
  block.set(1, 1, 0);
  const paperBeside = [at(r, x - 1, y), at(r, x + 1, y), at(r, x, y - 1), at(r, x, y + 1)].includes(
    0,
  );
  return paperBeside && components(block).count === 1;
}

function expectSkeleton(ink: Bytes, skeleton: Bytes): void {
  const [w, h] = ink.shape as [number, number];
  const parts = components(ink);
  const found = components(skeleton);
  expect(euler(skeleton)).toBe(euler(ink));
  expect(found.count).toBe(parts.count);
  const owner = new Set<string>();
  for (let y = 0; y < h; y++) {
    for (let x = 0; x < w; x++) {
      if (skeleton.get(x, y) === 0) continue;
      expect(ink.get(x, y)).toBe(1);
      owner.add(`${parts.labels[y * w + x]} ${found.labels[y * w + x]}`);
      let neighbors = -1;
      for (let k = 0; k < 9; k++)
        neighbors += at(skeleton, x + (k % 3) - 1, y + Math.floor(k / 3) - 1);
      if (neighbors > 1 && isSimple(skeleton, x, y)) throw new Error(`[${x}, ${y}] could still go`);
    }
  }
  // Each part of the ink has one part of the skeleton and the other way round.
  expect(owner.size).toBe(parts.count);
}

/** Peels pixel by pixel, in a margin of one pixel of paper. */
function plainThin(r: Bytes): string {
  const [w, h] = r.shape as [number, number];
  const pitch = w + 2;
  const ink = new Uint8Array(pitch * (h + 2));
  for (let y = 0; y < h; y++)
    for (let x = 0; x < w; x++) ink[(y + 1) * pitch + x + 1] = r.get(x, y);
  const sides = [-pitch, pitch, -1, 1];
  const around = [...sides, -pitch - 1, 1 - pitch, pitch - 1, pitch + 1];
  const inked = (p: number) => ink[p] === 1;
  // Counterclockwise from the right, as `neighborCode` has them.
  const ring = [1, 1 - pitch, -pitch, -pitch - 1, -1, pitch - 1, pitch, pitch + 1];
  const codeAt = (p: number) => ring.reduce((code, step, k) => code | (ink[p + step]! << k), 0);
  let layer = [...ink.keys()].filter((p) => inked(p) && sides.some((side) => !inked(p + side)));
  while (layer.length > 0) {
    const gone: number[] = [];
    for (const side of sides) {
      const going = layer.filter((p) => inked(p) && !inked(p + side) && isRemovable(codeAt(p)));
      for (const p of going) ink[p] = 0;
      gone.push(...going);
    }
    layer = [...new Set(gone.flatMap((p) => around.map((step) => p + step)))].filter(inked);
  }
  return Array.from({ length: h }, (_, y) =>
    ink.subarray((y + 1) * pitch + 1, (y + 2) * pitch - 1).join(''),
  ).join('\n');
}

describe('thinInk', () => {
  it('peels 32 pixels at once as it would one by one', () => {
    for (const [w, h] of [
      [31, 9],
      [32, 33],
      [65, 20],
      [130, 70],
    ] as const) {
      for (const ink of [...Object.values(worstCases(w, h)), blots(w, h, 5), blots(w, h, 6)]) {
        const { data } = thinInk(ink);
        const rows = Array.from({ length: h }, (_, y) =>
          data.subarray(y * w, (y + 1) * w).join(''),
        );
        expect(rows.join('\n')).toBe(plainThin(ink));
      }
    }
  });

  it('leaves the middle line of a bar', () => {
    const bar = mask(`
      1 1 1 1 1 1 1 1 1 1
      1 1 1 1 1 1 1 1 1 1
      1 1 1 1 1 1 1 1 1 1
      1 1 1 1 1 1 1 1 1 1
      1 1 1 1 1 1 1 1 1 1`);
    const middle = literal(`
      . . . . . . . . . .
      . . . . . . . . . .
      . 1 1 1 1 1 1 1 1 .
      . . . . . . . . . .
      . . . . . . . . . .`);
    expect(grid(thinInk(bar))).toBe(middle);
  });

  it('leaves lines of one pixel as they are', () => {
    const lines = mask(`
      1 . . . 1 . .
      . 1 . 1 . . 1
      . . 1 . . . 1
      . 1 . 1 . . 1
      1 . . . 1 . .
      . . . . . . 1`);
    expect(grid(thinInk(lines))).toBe(grid(lines));
  });

  it('keeps a hole and shrinks what has none to one pixel', () => {
    const ink = mask(`
      1 1 1 1 1 . . .
      1 1 1 1 1 . 1 1
      1 1 . 1 1 . 1 1
      1 1 1 1 1 . . .
      1 1 1 1 1 . . .`);
    const skeleton = thinInk(ink);
    expectSkeleton(ink, skeleton);
    expect(euler(skeleton)).toBe(1);
    expect(skeleton.get(2, 2)).toBe(0);
  });

  for (const [w, h] of [
    [1, 1],
    [1, 70000],
    [70000, 1],
    [2, 2],
    [31, 17],
    [64, 33],
    [97, 61],
  ] as const) {
    it(`keeps the topology of worst cases, ${w} × ${h}`, () => {
      for (const ink of Object.values(worstCases(w, h))) expectSkeleton(ink, thinInk(ink));
    }, 60_000);
  }

  it('keeps the topology of any mask', () => {
    const any = fc
      .tuple(fc.integer({ min: 1, max: 12 }), fc.integer({ min: 1, max: 12 }))
      .chain(([w, h]) =>
        fc.array(fc.nat(9), { minLength: w * h, maxLength: w * h }).chain((values) =>
          fc.integer({ min: 1, max: 9 }).map((level) =>
            raster(
              Uint8Array.from(values, (v) => (v < level ? 1 : 0)),
              [w, h],
            ),
          ),
        ),
      );
    fc.assert(
      fc.property(any, (ink) => expectSkeleton(ink, thinInk(ink))),
      { numRuns: 400 },
    );
  });

  it('keeps the topology of all eight symmetries, within a pixel of the same lines', () => {
    const ink = raster(new Uint8Array(80 * 60), [80, 60]);
    for (let y = 0; y < 60; y++) {
      for (let x = 0; x < 80; x++) {
        const d = Math.hypot(x - 30, y - 28);
        if ((d > 15 && d < 21) || (Math.abs(x - y - 12) < 4 && x > 40)) ink.set(x, y, 1);
      }
    }
    const skeleton = thinInk(ink);
    const turnedInk = symmetries(ink);
    symmetries(skeleton).forEach((turned, i) => {
      const found = thinInk(turnedInk[i]!);
      expectSkeleton(turnedInk[i]!, found);
      for (let y = 0; y < turned.shape[1]!; y++) {
        for (let x = 0; x < turned.shape[0]!; x++) {
          if (found.get(x, y) === 0) continue;
          let near = 0;
          for (let k = 0; k < 25; k++)
            near += at(turned, x + (k % 5) - 2, y + Math.floor(k / 5) - 2);
          expect(near).toBeGreaterThan(0);
        }
      }
    });
  });

  // Layers are peeled off from the north, south, west and east in turn, and the order decides: of the
  // two middles of an even stroke for one, at the ends and corners of an odd one for a pixel more or less.
  it.fails.each([4, 5])('gives the same skeleton of strokes %d wide in all symmetries', (width) => {
    const ink = raster(new Uint8Array(40 * 30), [40, 30]);
    for (let y = 3; y < 27; y++)
      for (let x = 3; x < 37; x++) if (y < 3 + width || (x > 17 && x < 21)) ink.set(x, y, 1);
    const turned = symmetries(thinInk(ink));
    symmetries(ink).forEach((view, i) => {
      expect(grid(thinInk(view))).toBe(grid(turned[i]!));
    });
  });

  it('gives the same for any view, and owns its memory', () => {
    const ink = worstCases(37, 23).noise!;
    const skeleton = thinInk(ink);
    for (const view of otherViews(ink)) expect(grid(thinInk(view))).toBe(grid(skeleton));
    expect(skeleton.data.buffer).not.toBe(ink.data.buffer);
  });

  it('names what is wrong with its argument', () => {
    expect(() => thinInk(raster(Uint8Array.of(0, 255), [2, 1]))).toThrow(
      /^mask must hold 0 or 1, got 255/,
    );
    expect(() => thinInk(3 as never)).toThrow(TypeError);
  });
});
