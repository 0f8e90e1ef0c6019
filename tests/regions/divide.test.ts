import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { raster } from '../../src/raster/raster.ts';
import { divideRegion } from '../../src/regions/divide.ts';
import { splitRegion } from '../../src/regions/split.ts';
import { linePixels } from '../../src/runs/line.ts';
import { grid, labels, literal, mask } from '../support/grids.ts';
import { seeded } from '../support/random.ts';

/** The pieces of what is true by 4 neighbors, in the order of their first pixels, each as its pixels. */
function piecesOf(is: (p: number) => boolean, width: number, height: number): number[][] {
  const seen = new Set<number>();
  const pieces: number[][] = [];
  for (let p = 0; p < width * height; p++) {
    if (seen.has(p) || !is(p)) continue;
    const piece = [p];
    seen.add(p);
    for (const q of piece) {
      const [x, y] = [q % width, Math.floor(q / width)];
      const near = [
        ...(x > 0 ? [q - 1] : []),
        ...(x + 1 < width ? [q + 1] : []),
        ...(y > 0 ? [q - width] : []),
        ...(y + 1 < height ? [q + width] : []),
      ];
      for (const n of near) {
        if (seen.has(n) || !is(n)) continue;
        seen.add(n);
        piece.push(n);
      }
    }
    pieces.push(piece.sort((a, b) => a - b));
  }
  return pieces;
}

interface Scene {
  readonly ids: readonly number[];
  readonly width: number;
  readonly height: number;
  readonly before: ReadonlySet<number>;
  readonly line: readonly number[];
  readonly nextId: number;
}

/** Region 1 divided as the doc comment of `divideRegion` tells it, pixel by pixel. */
function plain({ ids, width, height, before, line, nextId }: Scene): {
  ids: number[];
  nextId: number;
} {
  const parts = piecesOf((p) => before.has(p), width, height);
  const after = (p: number) => ids[p] === 1 && before.has(p) && !line.includes(p);
  const pieces = piecesOf(after, width, height);
  const largest = parts.map((part) =>
    pieces
      .filter((piece) => part.includes(piece[0]!))
      .reduce<number[]>((best, piece) => (piece.length > best.length ? piece : best), []),
  );
  let next = nextId;
  const idOf = new Map(pieces.map((piece) => [piece, largest.includes(piece) ? 1 : next++]));
  if (next === nextId) return { ids: [...ids], nextId };
  const square = (p: number, q: number) =>
    ((p % width) - (q % width)) ** 2 + (Math.floor(p / width) - Math.floor(q / width)) ** 2;
  const divided = ids.map((id, p) => {
    if (id !== 1) return id;
    const distances = pieces.map((piece) => Math.min(...piece.map((q) => square(p, q))));
    return idOf.get(pieces[distances.indexOf(Math.min(...distances))]!)!;
  });
  return { ids: divided, nextId: next };
}

/** A region with holes, of which some is covered, and a line that crosses the picture or does not. */
function scene(seed: number): Scene {
  const random = seeded(Math.imul(seed, 0x9e3779b1));
  const [width, height] = [1 + Math.floor(12 * random()), 1 + Math.floor(9 * random())];
  const [holes, covered] = [random() * 0.2, random() < 0.5 ? 0 : random() * 0.4];
  const ids = Array.from({ length: width * height }, () => (random() < holes ? 5 : 1));
  const before = new Set([...ids.keys()].filter((p) => ids[p] === 1 && random() >= covered));
  const at = (side: number) => Math.floor(side * random());
  const [top, bottom] = random() < 0.6 ? [0, height - 1] : [at(height), at(height)];
  const line = random() < 0.9 ? [...linePixels(at(width), top, at(width), bottom, width)] : [];
  return { ids, width, height, before, line, nextId: 7 };
}

describe('divideRegion', () => {
  it('names and grows the pieces as a plain search of all pixels does', () => {
    let divided = 0;
    for (let seed = 1; seed <= 400; seed++) {
      const given = scene(seed);
      const { ids, width, height, before, line, nextId } = given;
      const expected = plain(given);
      const found = Int32Array.from(ids);
      const bounds = [0, 0, width, height] as const;
      const isBefore = (p: number) => before.has(p);
      const input = { labels: found, width, bounds, id: 1, isBefore, nextId };
      const result = divideRegion({ ...input, line: Int32Array.from(line) });
      expect([...found], `seed ${seed}`).toEqual(expected.ids);
      expect(result.nextId).toBe(expected.nextId);
      if (expected.nextId > nextId) divided++;
    }
    expect(divided).toBeGreaterThan(150);
  });

  it('looks only within the bounds, and takes the region for connected where it is not asked', () => {
    const from = labels(`
      3 1 1 1 1 1
      2 1 1 2 2 1
      2 2 2 2 1 1`);
    const input = { labels: from.data, width: 6, bounds: [1, 0, 6, 3] as const, id: 1, nextId: 4 };
    const line = Int32Array.of(0, 3, 9, 17);
    expect(divideRegion({ ...input, line })).toEqual({ nextId: 6, parts: 1 });
    expect(grid(from)).toBe(
      literal(`
      3 1 1 1 4 4
      2 1 1 2 2 4
      2 2 2 2 5 4`),
    );
  });
});

describe('splitRegion', () => {
  it('is divided by its ink and the line, ids after the highest', () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 1e6 }), fc.boolean(), (seed, inked) => {
        const { ids, width, height, before } = scene(seed);
        fc.pre(ids.includes(1));
        const random = seeded(Math.imul(seed, 0x85ebca6b));
        const at = (side: number) => Math.floor(side * random());
        const [x0, y0, x1, y1] = [at(width), at(height), at(width), at(height)];
        const own = new Set(
          [...ids.keys()].filter((p) => ids[p] === 1 && (!inked || before.has(p))),
        );
        const ink = Uint8Array.from(ids, (id, p) => (id !== 1 || own.has(p) ? 0 : 1));
        const expected = plain({
          ids,
          width,
          height,
          before: own,
          line: [...linePixels(x0, y0, x1, y1, width)],
          nextId: Math.max(...ids) + 1,
        });
        const from = raster(Int32Array.from(ids), [width, height]);
        const points = [
          [x0 + 0.5, y0],
          [x1, y1 + 0.9],
        ] as const;
        const options = inked ? { ink: raster(ink, [width, height]) } : {};
        expect([...splitRegion(from, 1, points, options).data]).toEqual(expected.ids);
        expect([...from.data]).toEqual(ids);
      }),
      { numRuns: 150 },
    );
  });

  it('refuses what is no region, line or ink', () => {
    const from = labels('1 1 2\n1 1 2');
    const line = [
      [0, 0],
      [0, 1],
    ] as const;
    expect(() => splitRegion(from, 3, line)).toThrow(
      new RangeError('id must occur in labels, got 3'),
    );
    expect(() => splitRegion(from, 0, line)).toThrow(RangeError);
    expect(() => splitRegion(from, 1.5, line)).toThrow(RangeError);
    expect(() => splitRegion(from, 1, [[0, 0]])).toThrow(RangeError);
    expect(() => splitRegion(from, 1, line, { ink: mask('1 1 1') })).toThrow(
      'ink must have the size of labels, 3 × 2, got 3 × 1',
    );
    const wrong = raster(Uint8Array.of(0, 0, 0, 0, 0, 9), [3, 2]);
    expect(() => splitRegion(from, 1, line, { ink: wrong })).toThrow(
      /^ink must hold 0 or 1, got 9/,
    );
  });
});
