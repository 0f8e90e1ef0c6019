import { PNG } from 'pngjs';
import { describe, expect, it } from 'vitest';
import { paintFlats } from '../../src/palette/paint-flats.ts';
import type { Flats } from '../../src/palette/types.ts';
import { namesToJson } from '../../src/png/names-to-json.ts';
import { readFlats } from '../../src/png/read-flats.ts';
import { writeFlats } from '../../src/png/write-flats.ts';
import { writePng } from '../../src/png/write-png.ts';
import { raster } from '../../src/raster/raster.ts';
import { HOSTILE_NAMES, hostileFlats } from '../support/hostile-names.ts';

const palette = [
  { name: 'bare', color: '#000000' },
  { name: 'paper', color: '#f0f0e0' },
  { name: 'scarf', color: '#c86400' },
  { name: 'fur', color: '#8a5d42' },
  { name: 'beak', color: '#c86400' },
];
const flats: Flats = {
  indices: raster(new Uint8Array([1, 1, 2, 3, 0, 3]), [3, 2]),
  palette,
  ground: 'paper',
};
/** The picture as pngjs, another encoder, saves it: no names in it. */
const savedAgain = (own: Flats): Uint8Array => {
  const { data, shape } = paintFlats(own);
  const image = new PNG({ width: shape[0]!, height: shape[1]! });
  image.data = Buffer.from(data);
  return PNG.sync.write(image);
};

describe('names in a side file', () => {
  it('are put back by color, and all is told', () => {
    const { flats: back, names } = readFlats(savedAgain(flats), { names: namesToJson(flats) });
    expect(back.palette).toEqual(palette);
    expect(back.ground).toBe('paper');
    expect([...back.indices.data]).toEqual([...flats.indices.data]);
    expect(names).toEqual({
      matched: ['paper', 'scarf', 'fur'],
      missing: [{ name: 'beak', color: '#c86400', sharedWith: 'scarf' }],
      unknown: [],
    });
  });

  it('that were recolored on the way are told with what they may have become', () => {
    const other = { ...flats, palette: palette.with(3, { name: 'fur', color: '#8a5c42' }) };
    const { flats: back, names } = readFlats(savedAgain(other), { names: namesToJson(flats) });
    expect(back.palette).toEqual([...palette, { name: '#8a5c42', color: '#8a5c42' }]);
    expect([...back.indices.data]).toEqual([1, 1, 2, 5, 0, 5]);
    expect(names!.matched).toEqual(['paper', 'scarf']);
    expect(names!.missing.map(({ name }) => name)).toEqual(['fur', 'beak']);
    expect(names!.unknown).toEqual([
      {
        name: '#8a5c42',
        color: '#8a5c42',
        pixels: 2,
        nearest: 'fur',
        difference: expect.any(Number),
      },
    ]);
    expect(names!.unknown[0]!.difference).toBeLessThan(1);
  });

  it('take the place of those in the file, and leave indices that fit as they are', () => {
    const renamed = palette.map((swatch) =>
      swatch.name === 'beak' ? { ...swatch, name: 'bill' } : swatch,
    );
    const whole = { ...flats, indices: raster(new Uint8Array([4, 1, 2, 3, 0, 3]), [3, 2]) };
    const names = namesToJson({ ...whole, palette: renamed });
    const { flats: back } = readFlats(writeFlats(whole).bytes, { names });
    expect([...back.indices.data]).toEqual([4, 1, 2, 3, 0, 3]);
    expect(back.palette).toEqual(renamed);
    expect(readFlats(writeFlats(whole).bytes).names).toBeUndefined();
  });

  it('may be an object, and hold any name', () => {
    const hostile = hostileFlats();
    const json = JSON.parse(namesToJson(hostile)) as object;
    for (const names of [json, namesToJson(hostile)]) {
      const { flats: back } = readFlats(savedAgain(hostile), { names });
      expect(back.palette.slice(1).map(({ name }) => name)).toEqual(HOSTILE_NAMES);
    }
  });

  it('survive a file of UTF-8', () => {
    const hostile = hostileFlats();
    const file = new TextDecoder().decode(new TextEncoder().encode(namesToJson(hostile)));
    expect(JSON.parse(file).palette).toEqual(hostile.palette);
  });

  it('are refused where they are none', () => {
    const file = writePng(raster(new Uint8Array([9]), [1, 1]));
    const read = (names: unknown) => () => readFlats(file, { names } as never);
    expect(read('scarf')).toThrow(
      'names must be the JSON that namesToJson gives, got what is no JSON',
    );
    expect(read('[]')).toThrow(/^names must be an object \{ version: 1/);
    expect(read({ version: 2 })).toThrow('names.version must be 1, got 2');
    expect(read({ version: 1, palette: [] })).toThrow(/^names.palette must start with/);
    expect(read({ version: 1, palette, ground: 'bare' })).toThrow(/^names.ground must be/);
    expect(read(7)).toThrow(TypeError);
  });
});
