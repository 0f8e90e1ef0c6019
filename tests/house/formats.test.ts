/** What docs/formats.md says that each format keeps. */
import { Resvg } from '@resvg/resvg-js';
import { unzipSync, zipSync } from 'fflate';
import sharp from 'sharp';
import { describe, expect, it } from 'vitest';
import {
  type Flats,
  flatsFromLayers,
  namesToJson,
  outlineRegions,
  outlinesToSvg,
  paintFlats,
  raster,
  readFlats,
  readLayers,
  readPng,
  readVariants,
  writeFlats,
  writeLayers,
  writeMasks,
  writeVariants,
} from '../../src/index.ts';
import { xmlText } from '../../src/raster/escape-text.ts';
import { hostileFlats } from '../support/hostile-names.ts';

const resolution = { x: 23622, y: 11812, unit: 'meter' } as const;
const hostile: Flats = (() => {
  const flats = hostileFlats();
  return { ...flats, palette: [...flats.palette, { name: 'unused', color: '#abcdef' }] };
})();
const many: Flats = {
  indices: raster(
    Uint16Array.from({ length: 300 }, (_, i) => 299 - i),
    [20, 15],
  ),
  palette: [
    ...Array.from({ length: 300 }, (_, i) => ({
      name: i === 0 ? 'bare' : `swatch ${i}\u0001`,
      color: `#${i.toString(16).padStart(6, '0')}`,
    })),
    { name: 'unused', color: '#abcdef' },
  ],
  ground: 'swatch 7\u0001',
};
const names = (flats: Flats) => flats.palette.map(({ name }) => name);

function expectKept(found: Flats, expected: Flats): void {
  expect([...found.indices.data]).toEqual([...expected.indices.data]);
  expect(found.palette).toEqual(expected.palette);
  expect(found.ground).toBe(expected.ground);
}

describe('what is kept', () => {
  it.each([
    ['up to 256 swatches', hostile],
    ['more swatches', many],
  ])('by a PNG of %s', (_, flats) => {
    const read = readFlats(writeFlats(flats, { resolution }).bytes);
    expectKept(read.flats, flats);
    expect(read.resolution).toEqual(resolution);
  });

  it('by a PNG that sharp saves again, with the names beside', async () => {
    const saved = await sharp(writeFlats(hostile).bytes).png().toBuffer();
    expectKept(readFlats(saved, { names: namesToJson(hostile) }).flats, hostile);
  });

  it.each(['swatch', 'flats'] as const)('by OpenRaster, layers: %s', (layers) => {
    for (const flats of [hostile, many]) {
      const read = readLayers(writeLayers(flats, { layers, resolution }));
      expectKept(flatsFromLayers(read), flats);
      expect(read.resolution).toEqual(resolution);
    }
  });

  it('by OpenRaster saved by a program that knows nothing of our attributes', () => {
    const files = unzipSync(writeLayers(hostile, { resolution }));
    const xml = new TextDecoder()
      .decode(files['stack.xml'])
      .replace(/ (xmlns:)?underink(:\w+)?="[^"]*"/g, '');
    expect(xml).not.toContain('underink');
    const { 'mergedimage.png': _, ...others } = files;
    const read = readLayers(
      zipSync({ ...others, 'stack.xml': new TextEncoder().encode(xml) }, { level: 0 }),
    );
    const plain = flatsFromLayers(read, { ground: hostile.ground });
    const kept = names(hostile).filter((name) => xmlText(name) === name);
    expect(names(plain)).toEqual(expect.arrayContaining(kept));
    const colors = (flats: Flats) => [...flats.indices.data].map((i) => flats.palette[i]!.color);
    expect(colors(plain)).toEqual(colors(hostile));
    expect(read.resolution).toEqual({ x: 23622, y: 11811, unit: 'meter' });
  });

  it('by masks', () => {
    const masks = [...writeMasks(hostile, { resolution })];
    expect(masks.map(({ name }) => name)).toEqual(names(hostile).slice(1));
    const indices = new Uint8Array(hostile.indices.data.length);
    masks.forEach(({ bytes }, k) => {
      const { pixels, resolution: own } = readPng(bytes);
      expect(own).toEqual(resolution);
      pixels.data.forEach((value, i) => {
        if (value === 255) indices[i] = k + 1;
      });
    });
    expect([...indices]).toEqual([...hostile.indices.data]);
  });

  it('by SVG', () => {
    const [width, height] = hostile.indices.shape as [number, number];
    const labels = raster(Int32Array.from(hostile.indices.data), [width, height]);
    const outlines = outlineRegions(labels);
    const square = { x: 23622, y: 23622, unit: 'meter' } as const;
    const svg = outlinesToSvg(outlines, [width, height], { flats: hostile, resolution: square });
    expect([...svg.matchAll(/<title>/g)]).toHaveLength(names(hostile).length - 2);
    const options = { fitTo: { mode: 'width', value: width } } as const;
    const { pixels } = new Resvg(svg, options).render();
    expect([...pixels]).toEqual([...paintFlats(hostile).data]);
  });

  it('by CSV and JSON, as files of UTF-8', () => {
    const file = (text: string) => new TextDecoder().decode(new TextEncoder().encode(text));
    const rows = readVariants(file(writeVariants(hostile.palette))).rows;
    const whole = hostile.palette.slice(1).map(({ name, color }) => ({
      swatch: name.replace(/\p{Surrogate}/gu, '\ufffd'),
      colors: [color],
    }));
    expect(rows).toEqual(whole);
    expect(JSON.parse(file(namesToJson(hostile)))).toEqual({
      version: 1,
      palette: hostile.palette,
      ground: hostile.ground,
    });
  });
});
