import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { faceAt, mapFaces } from '../../src/gaps/face-map.ts';
import { raster } from '../../src/raster/index.ts';
import { packMask } from '../../src/raster/pack.ts';
import { labelRegions } from '../../src/regions/label.ts';
import { linePixels } from '../../src/runs/line.ts';

const packed = (data: Uint8Array, width: number, height: number) =>
  packMask({ data, width, height, channels: 1 }, 'ink');

describe('mapFaces', () => {
  it('labels and measures the paper between ink and bridges, against a count pixel by pixel', () => {
    const drawing = fc
      .tuple(fc.integer({ min: 1, max: 40 }), fc.integer({ min: 1, max: 12 }))
      .chain(([width, height]) =>
        fc.record({
          width: fc.constant(width),
          height: fc.constant(height),
          ink: fc.uint8Array({
            min: 0,
            max: 1,
            minLength: width * height,
            maxLength: width * height,
          }),
          lines: fc.array(
            fc.tuple(fc.nat(width - 1), fc.nat(height - 1), fc.nat(width - 1), fc.nat(height - 1)),
            { maxLength: 3 },
          ),
        }),
      );
    fc.assert(
      fc.property(drawing, ({ width, height, ink, lines }) => {
        const bridges = lines.map(([x0, y0, x1, y1]) =>
          linePixels(x0, y0, x1, y1, width).filter((p) => ink[p] === 0),
        );
        const sealed = ink.slice();
        for (const pixels of bridges) for (const p of pixels) sealed[p] = 1;
        const { labels, count } = labelRegions(raster(sealed, [width, height]), { of: 0 });
        const map = mapFaces(packed(ink, width, height), bridges);
        expect(map.count).toBe(count);
        const area = new Float64Array(count + 1);
        const perimeter = new Float64Array(count + 1);
        const outer = new Uint8Array(count + 1);
        const at = (x: number, y: number) =>
          x < 0 || y < 0 || x >= width || y >= height ? -1 : labels.data[y * width + x]!;
        for (let y = 0; y < height; y++) {
          for (let x = 0; x < width; x++) {
            const label = at(x, y);
            expect(faceAt(map, x, y)).toBe(label);
            if (label === 0) continue;
            area[label]!++;
            for (const side of [at(x - 1, y), at(x + 1, y), at(x, y - 1), at(x, y + 1)]) {
              if (side !== label) perimeter[label]!++;
              if (side < 0) outer[label] = 1;
            }
          }
        }
        expect([map.area, map.perimeter, map.outer]).toEqual([area, perimeter, outer]);
      }),
      { seed: 3, numRuns: 500 },
    );
  });
});
