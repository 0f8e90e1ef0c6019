import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { findBorders } from '../../src/gaps/borders.ts';
import { BridgePixels } from '../../src/gaps/bridge-pixels.ts';
import { faceAt, mapFaces } from '../../src/gaps/face-map.ts';
import { raster } from '../../src/raster/index.ts';
import { packMask } from '../../src/raster/pack.ts';
import { labelRegions } from '../../src/regions/label.ts';
import { linePixels } from '../../src/runs/line.ts';

/** Faces that ink and bridges cut out, and their borders. */
function bordersOf(ink: Uint8Array, width: number, bridges: readonly Int32Array[]) {
  const height = ink.length / width;
  const map = mapFaces(packMask({ data: ink, width, height, channels: 1 }, 'ink'), bridges);
  return { map, borders: findBorders(new BridgePixels(map, bridges), bridges, map.area) };
}

describe('findBorders', () => {
  it('gives the stretches of a bridge between two faces', () => {
    // A bridge down the middle of 9 × 7 paper, whose lower left is parted by ink.
    const ink = new Uint8Array(63);
    for (let x = 0; x < 4; x++) ink[3 * 9 + x] = 1;
    const { map, borders } = bordersOf(ink, 9, [linePixels(4, 0, 4, 6, 9)]);
    expect(map.count).toBe(3);
    // The pixel beside the ink is a neighbor of both stretches.
    expect(borders).toEqual([
      { bridge: 0, a: 1, b: 2, pixels: 4 },
      { bridge: 0, a: 2, b: 3, pixels: 4 },
    ]);
  });

  it('gives none where both sides are one face', () => {
    expect(bordersOf(new Uint8Array(63), 9, [linePixels(3, 2, 5, 4, 9)]).borders).toEqual([]);
  });

  it('sees faces that rival bridges part, side by side and several pixels thick', () => {
    const bridges = [3, 4, 5].map((x) => linePixels(x, 0, x, 6, 9));
    const { borders } = bordersOf(new Uint8Array(63), 9, bridges);
    expect(borders.map(({ a, b }) => [a, b])).toContainEqual([1, 2]);
    // The middle one is as near to both sides; those beside it touch it.
    expect(borders.map(({ bridge, pixels }) => [bridge, pixels])).toEqual([
      [0, 7],
      [1, 7],
      [2, 7],
    ]);
  });

  it('counts a crossing only where nothing else connects two faces', () => {
    // Two bridges that cross: each arm parts two of the four faces, the crossing no other two.
    const bridges = [linePixels(4, 0, 4, 8, 9), linePixels(0, 4, 8, 4, 9)];
    const { borders } = bordersOf(new Uint8Array(81), 9, bridges);
    expect(borders.map(({ a, b }) => `${a}${b}`).sort()).toEqual(['12', '13', '24', '34']);
  });

  it('connects whatever opening the bridges would connect, and nothing else', () => {
    const drawing = fc
      .tuple(fc.integer({ min: 1, max: 30 }), fc.integer({ min: 1, max: 12 }))
      .chain(([width, height]) =>
        fc.record({
          width: fc.constant(width),
          ink: fc.array(fc.nat(3), { minLength: width * height, maxLength: width * height }),
          lines: fc.array(
            fc.tuple(fc.nat(width - 1), fc.nat(height - 1), fc.nat(width - 1), fc.nat(height - 1)),
            { maxLength: 12 },
          ),
        }),
      );
    fc.assert(
      fc.property(drawing, ({ width, ink: levels, lines }) => {
        const ink = Uint8Array.from(levels, (level) => (level === 0 ? 1 : 0));
        const bridges = lines.map(([x0, y0, x1, y1]) =>
          linePixels(x0, y0, x1, y1, width).filter((p) => ink[p] === 0),
        );
        const { map, borders } = bordersOf(ink, width, bridges);
        const group = Array.from({ length: map.count + 1 }, (_, face) => face);
        for (let changed = true; changed; ) {
          changed = false;
          for (const { a, b } of borders) {
            const least = Math.min(group[a]!, group[b]!);
            changed ||= group[a] !== group[b];
            group[a] = group[b] = least;
          }
        }
        const { labels } = labelRegions(raster(ink, [width, ink.length / width]), { of: 0 });
        const known = new Map<number, number>();
        for (let p = 0; p < ink.length; p++) {
          const face = faceAt(map, p % width, Math.floor(p / width));
          if (face === 0) continue;
          const label = labels.data[p]!;
          if (!known.has(label)) known.set(label, group[face]!);
          expect(group[face]).toBe(known.get(label));
        }
        expect(new Set(known.values()).size).toBe(known.size);
      }),
      { numRuns: 500 },
    );
  });
});
