/** Layered files as they are written and as they come back, exactly. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { flatsFromLayers } from '../../src/layers/flats-from-layers.ts';
import { readLayers } from '../../src/layers/read-layers.ts';
import { writeLayers } from '../../src/layers/write-layers.ts';
import type { Flats } from '../../src/palette/types.ts';
import { raster } from '../../src/raster/raster.ts';
import { HOSTILE_NAMES, hostileFlats } from '../support/hostile-names.ts';

const palette = [
  { name: 'bare', color: '#000000' },
  { name: 'heron/scarf', color: '#c86400' },
  { name: 'paper', color: '#ffffff' },
  { name: 'heron/plumes', color: '#dfe6ee' },
  { name: 'shell', color: '#ffffff' },
];
const sheet: Flats = {
  indices: raster(new Uint8Array([2, 2, 2, 2, 1, 0, 2, 1, 3]), [3, 3]),
  palette,
  ground: 'paper',
};
const line = raster(new Uint8Array([255, 0, 255, 255, 128, 255, 255, 255, 255]), [3, 3]);

describe('a layered file', () => {
  it('has the line, the swatches in order, cropped, and the ground below', () => {
    const { layers, size } = readLayers(writeLayers(sheet, { line }));
    expect(size).toEqual([3, 3]);
    expect(
      layers.map(({ name, role, offset, pixels }) => [name, role, offset, pixels.shape]),
    ).toEqual([
      ['line', 'line', [0, 0], [3, 3, 4]],
      ['heron/scarf', 'swatch', [1, 1], [1, 2, 4]],
      ['heron/plumes', 'swatch', [2, 2], [1, 1, 4]],
      ['shell', 'swatch', [0, 0], [1, 1, 4]],
      ['paper', 'ground', [0, 0], [3, 3, 4]],
    ]);
    expect(layers[1]!.pixels.data.join(' ')).toBe('200 100 0 255 200 100 0 255');
    expect(layers[3]!.pixels.data.join(' ')).toBe('255 255 255 0');
    expect(
      layers.every(
        ({ visible, opacity, mode }) => visible && opacity === 1 && mode === 'svg:src-over',
      ),
    ).toBe(true);
  });

  it('has stacks by the first part of a name when asked', () => {
    const { layers } = readLayers(writeLayers(sheet, { groups: true }));
    expect(layers.map(({ name, groups }) => [...groups, name].join(' > '))).toEqual([
      'heron > scarf',
      'heron > plumes',
      'shell',
      'paper',
    ]);
  });

  it('has all flats in one layer when asked', () => {
    const { layers } = readLayers(writeLayers(sheet, { layers: 'flats' }));
    expect(layers.map(({ name, role }) => [name, role])).toEqual([
      ['flats', 'flats'],
      ['paper', 'ground'],
    ]);
    expect(layers[0]!.palette).toEqual(palette);
  });

  it.each([
    [{}],
    [{ groups: true }],
    [{ layers: 'flats' }],
    [{ line, lineOn: 'multiply' }],
    [{ line, groups: true, resolution: { x: 11811, y: 11811, unit: 'meter' } }],
  ] as const)('comes back as the flats that it was made of, %j', (options) => {
    const layered = readLayers(writeLayers(sheet, options));
    const flats = flatsFromLayers(layered);
    expect([...flats.indices.data]).toEqual([...sheet.indices.data]);
    expect(flats.palette).toEqual(palette);
    expect(flats.ground).toBe('paper');
  });

  it.each([
    ['meter', 11811, 11811],
    ['meter', 5906, 3000],
    ['meter', 1, 2 ** 31 - 1],
    ['unknown', 3, 2],
  ] as const)('keeps its resolution exactly, per %s %d and %d', (unit, x, y) => {
    expect(readLayers(writeLayers(sheet, { resolution: { x, y, unit } })).resolution).toEqual({
      x,
      y,
      unit,
    });
  });

  it('keeps names that XML cannot hold, in stacks too', () => {
    const flats = hostileFlats();
    expect(HOSTILE_NAMES.length).toBeGreaterThan(20);
    for (const groups of [false, true]) {
      for (const layers of ['swatch', 'flats'] as const) {
        const back = flatsFromLayers(readLayers(writeLayers(flats, { groups, layers })));
        expect(back.palette.map(({ name }) => name)).toEqual(flats.palette.map(({ name }) => name));
        expect([...back.indices.data]).toEqual([...flats.indices.data]);
      }
    }
  });

  it('keeps any flats, swatches without pixels and more than 256 of them too', () => {
    const arbitrary = fc.record({
      width: fc.integer({ min: 1, max: 9 }),
      height: fc.integer({ min: 1, max: 9 }),
      names: fc.uniqueArray(fc.string({ unit: 'binary', minLength: 1, maxLength: 5 }), {
        minLength: 1,
        maxLength: 8,
      }),
      seed: fc.nat(),
      ground: fc.boolean(),
      groups: fc.boolean(),
    });
    fc.assert(
      fc.property(arbitrary, ({ width, height, names, seed, ground, groups }) => {
        const own = names.filter((name) => name !== 'bare');
        const flats: Flats = {
          indices: raster(
            Uint8Array.from(
              { length: width * height },
              (_, i) => (Math.imul(i + 1, seed + 7) >>> 3) % (own.length + 1),
            ),
            [width, height],
          ),
          palette: [
            { name: 'bare', color: '#000000' },
            ...own.map((name, i) => ({ name, color: `#00000${i}` })),
          ],
          ...(ground && own.length > 0 ? { ground: own.at(-1)! } : {}),
        };
        const back = flatsFromLayers(readLayers(writeLayers(flats, { groups })));
        expect([...back.indices.data]).toEqual([...flats.indices.data]);
        expect(back.palette).toEqual(flats.palette);
        expect(back.ground).toBe(flats.ground);
      }),
      { numRuns: 100 },
    );
    const many: Flats = {
      indices: raster(
        Uint16Array.from({ length: 300 }, (_, i) => 299 - i),
        [20, 15],
      ),
      palette: Array.from({ length: 300 }, (_, i) => ({
        name: i === 0 ? 'bare' : `swatch ${i}`,
        color: `#${i.toString(16).padStart(6, '0')}`,
      })),
    };
    const back = flatsFromLayers(readLayers(writeLayers(many)));
    expect(back.palette).toEqual(many.palette);
    expect([...back.indices.data]).toEqual([...many.indices.data]);
  });

  it('is the same to the byte each time', () => {
    expect(writeLayers(sheet, { line })).toEqual(writeLayers(sheet, { line }));
  });
});
