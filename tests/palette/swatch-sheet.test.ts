import { existsSync } from 'node:fs';
import { Resvg } from '@resvg/resvg-js';
import { describe, expect, it } from 'vitest';
import { swatchSheet } from '../../src/palette/swatch-sheet.ts';
import type { Flats } from '../../src/palette/types.ts';
import { raster } from '../../src/raster/raster.ts';
import { mask } from '../support/grids.ts';

const palette = ['bare', 'fur', 'eye', 'paw'].map((name, i) => ({ name, color: `#10203${i}` }));
const flatsOf = (grid: string): Flats => ({ indices: mask(grid), palette });
const texts = (svg: string) => [...svg.matchAll(/<text[^>]*>(.*?)<\/text>/gs)].map(([, t]) => t);

/** DejaVu Sans, the widest sans-serif font that Debian installs by default (fonts-dejavu-core). */
const fontFiles = ['DejaVuSans.ttf', 'DejaVuSans-Bold.ttf'].map(
  (name) => `/usr/share/fonts/truetype/dejavu/${name}`,
);

interface Drawn {
  readonly width: number;
  readonly height: number;
  readonly at: (x: number, y: number) => string;
}

/** The sheet drawn by resvg, without its texts or with them in a font of `files`. */
function drawn(svg: string, files: string[] = []): Drawn {
  const font = { loadSystemFonts: false, fontFiles: files, sansSerifFamily: 'DejaVu Sans' };
  const { width, height, pixels } = new Resvg(svg, { font }).render();
  const at = (x: number, y: number) =>
    pixels.subarray(4 * (y * width + x), 4 * (y * width + x) + 3);
  return { width, height, at: (x, y) => `#${Buffer.from(at(x, y)).toString('hex')}` };
}

/** Left sides of the squares. */
const lefts = (svg: string) =>
  [...svg.matchAll(/<rect x="(\d+)" y="\d+" width="72" height="72" fill="none"/g)].map(([, x]) =>
    Number(x),
  );

describe('swatchSheet', () => {
  it('shows name, color, area and regions of each swatch', () => {
    expect(texts(swatchSheet(flatsOf('1 1 2 1')))).toEqual([
      'fur',
      '#102031',
      '3 px (75.0 %), 2 regions',
      'eye',
      '#102032',
      '1 px (25.0 %), 1 region',
      'paw',
      '#102033',
      '0 px (0.0 %), 0 regions',
    ]);
  });

  it('shows bare where pixels are', () => {
    expect(texts(swatchSheet(flatsOf('1 .'))).slice(0, 3)).toEqual([
      'bare',
      'nothing laid',
      '1 px (50.0 %), 1 region',
    ]);
  });

  it('draws the colors row by row', () => {
    const svg = swatchSheet(flatsOf('1 2'), { columns: 2, title: 'Cubs' });
    const { width, at } = drawn(svg);
    const [left, right, below] = lefts(svg) as [number, number, number];
    expect([left, below, width]).toEqual([24, 24, 2 * (right - left) + 48]);
    expect([at(60, 112), at(right + 36, 112), at(60, 200), at(right + 36, 200)]).toEqual([
      '#102031',
      '#102032',
      '#102033',
      '#ffffff',
    ]);
    expect(texts(svg)[0]).toBe('Cubs');
  });

  it('tells bare from white', () => {
    const white = [palette[0]!, { name: 'belly', color: '#ffffff' }];
    const svg = swatchSheet({ indices: mask('1 .'), palette: white }, { columns: 1 });
    const { at } = drawn(svg);
    const inside = [0, 88].map((top) => [at(60, 24 + top + 36), at(42, 24 + top + 18)]);
    expect(inside).toEqual([
      ['#808080', '#808080'],
      ['#ffffff', '#ffffff'],
    ]);
  });

  it.skipIf(!fontFiles.every(existsSync))('keeps its texts out of the next square', () => {
    const names = ['WWWWWWWWWWWWWWWWWWWWWW', 'mmmmmmmmmmmmmmmmmm', '\u00c6\u0152\u2014'.repeat(6)];
    const swatches = [...names, 'i', 'otter overalls, inside'].map((name) => ({
      name,
      color: '#dddddd',
    }));
    const indices = raster(new Uint8Array(2_345_678), [2_345_678, 1]);
    for (let i = 0; i < indices.data.length; i++) indices.data[i] = 1 + (i % 5);
    const sheets = ['#a0b0c0', '#d0e0f0', '#8d6d8b'].map((color, i) => ({
      name: `sheet ${i}`,
      flats: { indices, palette: [palette[0]!, ...swatches.map(({ name }) => ({ name, color }))] },
    }));
    for (const title of [
      'Saltmarrow',
      'MMMMMMMMMMMMMMMMMMMM of the harbour pilots of Saltmarrow',
    ]) {
      const svg = swatchSheet(sheets, { columns: 3, title });
      const { width, height, at } = drawn(svg, fontFiles);
      const strips = [...new Set(lefts(svg)), width].map((x) => x - 12);
      const top = 24 + 52;
      const spilled = strips.filter((x, k) => {
        // the strip right of the last column is free of the title too
        for (let y = k === strips.length - 1 ? 0 : top; y < height; y++) {
          for (let dx = 0; dx < 10; dx++) if (at(x + dx, y) !== '#ffffff') return true;
        }
        return false;
      });
      expect(spilled).toEqual([]);
    }
  });

  it('shows all colors that a swatch has on several sheets', () => {
    const other = [palette[0]!, { name: 'fur', color: '#ff0000' }];
    const sheets = [
      { name: 'a', flats: flatsOf('1') },
      { name: 'b', flats: { indices: mask('1'), palette: other } },
    ];
    const svg = swatchSheet(sheets);
    expect(texts(svg).slice(0, 3)).toEqual(['fur', '#102031 #ff0000', '2 px (100.0 %), 2 regions']);
    const { at } = drawn(svg);
    expect([at(42, 60), at(78, 60)]).toEqual(['#102031', '#ff0000']);
  });

  it('counts the colors that find no room', () => {
    const sheets = ['#ff0000', '#00ff00', '#0000ff', '#ffffff'].map((color, i) => ({
      name: `sheet ${i}`,
      flats: { indices: mask('1'), palette: [palette[0]!, { name: 'fur', color }] },
    }));
    expect(texts(swatchSheet(sheets.slice(1)))[1]).toBe('#00ff00 #0000ff #ffffff');
    expect(texts(swatchSheet(sheets))[1]).toBe('#ff0000 #00ff00 and 2 more');
  });

  it('groups digits, and says of the smallest share that it is one', () => {
    const indices = raster(new Uint8Array(1_234_567).fill(1), [1_234_567, 1]);
    indices.set(7, 0, 2);
    const svg = swatchSheet({ indices, palette });
    expect(texts(svg)[2]).toBe('1,234,566 px (100.0 %), 2 regions');
    expect(texts(svg)[5]).toBe('1 px (&lt;0.1 %), 1 region');
    expect(texts(svg)[8]).toBe('0 px (0.0 %), 0 regions');
  });

  it('escapes names, keeps whole ones as titles and cuts no character in two', () => {
    const name = `<"&'>\u0000\ud800 ${'🦊'.repeat(40)}`;
    const odd = [palette[0]!, { name, color: '#102030' }];
    const svg = swatchSheet({ indices: mask('1'), palette: odd });
    expect(() => drawn(svg)).not.toThrow();
    expect(svg).toContain(`<title>&lt;&quot;&amp;'&gt;\ufffd\ufffd ${'🦊'.repeat(40)}</title>`);
    expect(texts(svg)[0]).toMatch(/^&lt;&quot;&amp;'&gt;\ufffd\ufffd (?:🦊){3,12}…$/u);
  });

  it('draws an empty palette, and refuses bad options', () => {
    expect(() => drawn(swatchSheet([]))).not.toThrow();
    expect(() => swatchSheet(flatsOf('1'), { columns: 0 })).toThrow(RangeError);
    expect(() => swatchSheet(flatsOf('1'), { title: 7 as unknown as string })).toThrow(TypeError);
    expect(() => swatchSheet(null as unknown as Flats)).toThrow(TypeError);
  });
});
