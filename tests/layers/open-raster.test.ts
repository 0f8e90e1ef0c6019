/**
 * Written files against OpenRaster 0.0.6 (freedesktop.org; its rules from memory) by an independent ZIP
 * reader, yauzl, and an independent PNG decoder, pngjs.
 */
import { PNG } from 'pngjs';
import { describe, expect, it } from 'vitest';
import { fromBufferPromise } from 'yauzl';
import { writeLayers } from '../../src/layers/write-layers.ts';
import type { Flats } from '../../src/palette/types.ts';
import { raster } from '../../src/raster/raster.ts';
import { seeded } from '../support/random.ts';

interface ZipFile {
  readonly name: string;
  /** 0: stored. */
  readonly method: number;
  readonly start: number;
  readonly data: Buffer;
}

async function unzip(bytes: Uint8Array): Promise<ZipFile[]> {
  const zip = await fromBufferPromise(Buffer.from(bytes));
  const files: ZipFile[] = [];
  for await (const entry of zip.eachEntry()) {
    const parts: Buffer[] = [];
    for await (const part of await zip.openReadStreamPromise(entry)) parts.push(part as Buffer);
    const { fileName: name, compressionMethod: method } = entry;
    const start = entry.relativeOffsetOfLocalHeader;
    files.push({ name, method, start, data: Buffer.concat(parts) });
  }
  return files;
}

/** The attributes of each layer, by an expression that knows only how this library writes tags. */
function layerTags(xml: string): Record<string, string>[] {
  return [...xml.matchAll(/<layer ([^>]*)\/>/g)].map(([, text]) =>
    Object.fromEntries([...text!.matchAll(/([\w:-]+)="([^"]*)"/g)].map(([, k, v]) => [k, v])),
  );
}

const WIDTH = 700;
const HEIGHT = 300;
const palette = ['bare', 'paper', 'shell', 'scarf', 'fur'].map((name, i) => ({
  name,
  color: ['#000000', '#fefefe', '#203040', '#c86400', '#8a5d42'][i]!,
}));
const flats: Flats = {
  indices: raster(
    Uint8Array.from({ length: WIDTH * HEIGHT }, (_, i) => {
      const [x, y] = [i % WIDTH, Math.floor(i / WIDTH)];
      return x < 20 ? 0 : y < 50 ? 1 : x < 200 ? 2 : x * y < 90_000 ? 3 : 4;
    }),
    [WIDTH, HEIGHT],
  ),
  palette,
  ground: 'paper',
};
const random = seeded(5);
const gray = Uint8Array.from({ length: WIDTH * HEIGHT }, (_, i) =>
  i % 9 < 4 ? 255 : Math.floor(random() * 256),
);
const line = raster(gray, [WIDTH, HEIGHT]);
const resolution = { x: 11811, y: 23622, unit: 'meter' } as const;

describe('an OpenRaster file', () => {
  it('starts with the stored mimetype, so that it shows at byte 38', async () => {
    const bytes = writeLayers(flats, { line });
    const [first] = await unzip(bytes);
    expect(first).toMatchObject({ name: 'mimetype', method: 0, start: 0 });
    expect(first!.data.toString('latin1')).toBe('image/openraster');
    expect(Buffer.from(bytes.subarray(30, 54)).toString('latin1')).toBe('mimetypeimage/openraster');
  });

  it('holds what the standard asks for, and each file once', async () => {
    const names = (await unzip(writeLayers(flats, { line }))).map(({ name }) => name);
    expect(names).toEqual([
      'mimetype',
      'stack.xml',
      'data/000-line.png',
      'data/001-swatch.png',
      'data/002-swatch.png',
      'data/003-swatch.png',
      'data/004-ground.png',
      'mergedimage.png',
      'Thumbnails/thumbnail.png',
    ]);
  });

  it('says in stack.xml what and where the layers are, and pixels per inch', async () => {
    const files = await unzip(writeLayers(flats, { line, resolution, lineOn: 'multiply' }));
    const xml = files[1]!.data.toString('utf8');
    expect(xml).toContain('version="0.0.6" w="700" h="300" xres="300" yres="600">');
    const tags = layerTags(xml);
    expect(tags.map(({ name, x, y, src }) => [name, x, y, src])).toEqual([
      ['line', '0', '0', 'data/000-line.png'],
      ['shell', '20', '50', 'data/001-swatch.png'],
      ['scarf', '200', '50', 'data/002-swatch.png'],
      ['fur', '302', '129', 'data/003-swatch.png'],
      ['paper', '20', '0', 'data/004-ground.png'],
    ]);
    expect(tags.map((tag) => tag['composite-op'])).toEqual([
      'svg:multiply',
      ...Array.from({ length: 4 }, () => 'svg:src-over'),
    ]);
    expect(
      tags.every(({ opacity, visibility }) => opacity === '1.0' && visibility === 'visible'),
    ).toBe(true);
  });

  it.each(['clear', 'multiply'] as const)(
    'has a merged picture that is its layers laid over one another, line %s',
    async (lineOn) => {
      const files = await unzip(writeLayers(flats, { line, lineOn }));
      const byName = new Map(files.map((file) => [file.name, file]));
      const merged = PNG.sync.read(byName.get('mergedimage.png')!.data);
      const canvas = new Float64Array(4 * WIDTH * HEIGHT);
      const tags = layerTags(files[1]!.data.toString('utf8')).reverse();
      for (const { src, x, y, 'composite-op': mode } of tags) {
        compose(canvas, PNG.sync.read(byName.get(src!)!.data), Number(x), Number(y), mode!);
      }
      let worst = 0;
      for (let k = 0; k < canvas.length; k++) {
        if (k % 4 !== 3 && merged.data[k | 3] === 0) continue;
        worst = Math.max(worst, Math.abs(canvas[k]! - merged.data[k]!));
      }
      // Rounded once, or twice where the line is multiplied.
      expect(worst).toBeLessThan(lineOn === 'clear' ? 0.51 : 1.01);
      // An opaque line leaves no bare pixel to be seen through.
      const clear = merged.data.filter((value, k) => k % 4 === 3 && value === 0).length;
      expect(clear > 0).toBe(lineOn === 'clear');
    },
  );

  it('has a thumbnail of at most 256 pixels, the means of the merged picture', async () => {
    const files = await unzip(writeLayers(flats));
    const merged = PNG.sync.read(files.at(-2)!.data);
    const small = PNG.sync.read(files.at(-1)!.data);
    expect([small.width, small.height]).toEqual([256, 110]);
    for (const [x, y] of [
      [100, 60],
      [200, 30],
      [255, 109],
      [80, 9],
    ] as const) {
      const k = 4 * (y * 256 + x);
      const sums = [0, 0, 0];
      let count = 0;
      for (let v = Math.floor((y * 300) / 110); v < Math.floor(((y + 1) * 300) / 110); v++) {
        for (
          let u = Math.floor((x * 700) / 256);
          u < Math.floor(((x + 1) * 700) / 256);
          u++, count++
        ) {
          for (let c = 0; c < 3; c++) sums[c]! += merged.data[4 * (v * 700 + u) + c]!;
        }
      }
      expect([...small.data.subarray(k, k + 3)]).toEqual(
        sums.map((sum) => Math.round(sum / count)),
      );
    }
    const tiny = await unzip(
      writeLayers({ ...flats, indices: raster(new Uint8Array([1, 2]), [2, 1]) }),
    );
    const own = PNG.sync.read(tiny.at(-1)!.data);
    expect([own.width, own.height]).toEqual([2, 1]);
    const wide = { ...flats, indices: raster(new Uint8Array(5000).fill(1), [5000, 1]) };
    const strip = PNG.sync.read((await unzip(writeLayers(wide))).at(-1)!.data);
    expect([strip.width, strip.height]).toEqual([256, 1]);
  });

  it('has PNGs of 8 bit RGBA, not interlaced', async () => {
    const pngs = (await unzip(writeLayers(flats, { line }))).slice(2);
    // IHDR: depth, color type, compression, filter, interlacing
    for (const { data } of pngs) expect([...data.subarray(24, 29)]).toEqual([8, 6, 0, 0, 0]);
  });

  it('refuses what is no flats, line or option', () => {
    expect(() => writeLayers({} as never)).toThrow(/flats must be flats/);
    expect(() => writeLayers(flats, { line: raster(new Uint8Array(4), [2, 2]) })).toThrow(
      'line must have the size of flats, 700 × 300, got 2 × 2',
    );
    expect(() => writeLayers(flats, { layers: 'swatches' } as never)).toThrow(
      'layers must be one of "swatch", "flats", got "swatches"; did you mean "swatch"?',
    );
    expect(() => writeLayers(flats, { groups: 1 } as never)).toThrow(TypeError);
    expect(() => writeLayers(flats, { lineOn: 'top' } as never)).toThrow(RangeError);
    expect(() => writeLayers(flats, { dpi: 300 } as never)).toThrow(/has no option "dpi"/);
    const twins = { ...flats, palette: palette.map((s) => ({ ...s, color: '#101010' })) };
    expect(() => writeLayers(twins, { layers: 'flats' })).toThrow(
      /got "shell" and "scarf" in #101010; recolor one/,
    );
    expect(writeLayers(twins).length).toBeGreaterThan(0);
  });
});

/** Lays a layer over a canvas, in floating point (Compositing and Blending Level 1, W3C, 5.1). */
function compose(canvas: Float64Array, layer: PNG, left: number, top: number, mode: string): void {
  for (let y = 0; y < layer.height; y++) {
    for (let x = 0; x < layer.width; x++) {
      const from = 4 * (y * layer.width + x);
      const to = 4 * ((top + y) * WIDTH + left + x);
      const [as, ab] = [layer.data[from + 3]! / 255, canvas[to + 3]! / 255];
      const alpha = as + ab * (1 - as);
      for (let c = 0; c < 3 && alpha > 0; c++) {
        const [cs, cb] = [layer.data[from + c]! / 255, canvas[to + c]! / 255];
        const blend = mode === 'svg:multiply' ? cs * cb : cs;
        canvas[to + c] =
          (255 * (cs * as * (1 - ab) + as * ab * blend + (1 - as) * ab * cb)) / alpha;
      }
      canvas[to + 3] = 255 * alpha;
    }
  }
}
