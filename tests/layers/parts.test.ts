import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { layLine } from '../../src/layers/lay-line.ts';
import { boundsOfIndices, paintPart } from '../../src/layers/paint-part.ts';
import { solidLayer } from '../../src/layers/solid-layer.ts';
import { perInch, perMeter, stackXml } from '../../src/layers/stack-xml.ts';
import { thumbnail } from '../../src/layers/thumbnail.ts';
import { seeded } from '../support/random.ts';

const byte = fc.nat(255);
const pixel = fc.tuple(byte, byte, byte, byte);

describe('layLine', () => {
  it('composites as the W3C formula does, over opaque and clear pixels, to within rounding', () => {
    fc.assert(
      fc.property(pixel, pixel, fc.boolean(), fc.boolean(), (below, line, solid, multiply) => {
        const backdrop = [below[0], below[1], below[2], solid ? 255 : 0];
        const picture = Uint8Array.from([...backdrop, ...backdrop]);
        layLine(picture, Uint8Array.from([0, 0, 0, 0, ...line]), multiply);
        expect([...picture.subarray(0, 4)]).toEqual(backdrop);
        const [own, under] = [line[3] / 255, solid ? 1 : 0];
        if (line[3] === 0) {
          expect([...picture.subarray(4)]).toEqual(backdrop);
          return;
        }
        const alpha = own + under * (1 - own);
        expect(picture[7]).toBe(Math.round(255 * alpha));
        for (let c = 0; c < 3; c++) {
          const [cs, cb] = [line[c]! / 255, backdrop[c]! / 255];
          const mixed = multiply ? cb * cs : cs;
          const co = cs * own * (1 - under) + own * under * mixed + (1 - own) * under * cb;
          expect(Math.abs(picture[4 + c]! - (255 * co) / alpha)).toBeLessThanOrEqual(1);
        }
      }),
    );
  });
});

describe('parts of indices', () => {
  it('have the bounds of their pixels, and are painted by index', () => {
    const random = seeded(2);
    for (let n = 0; n < 60; n++) {
      const [width, height] = [1 + Math.floor(9 * random()), 1 + Math.floor(7 * random())];
      const data = Uint8Array.from({ length: width * height }, () => Math.floor(5 * random()));
      const bounds = boundsOfIndices({ data, width, height, channels: 1 }, 7);
      expect(bounds).toHaveLength(7);
      bounds.forEach((found, index) => {
        const places = [...data.keys()].filter((p) => data[p] === index);
        const [xs, ys] = [places.map((p) => p % width), places.map((p) => Math.floor(p / width))];
        const box = [Math.min(...xs), Math.min(...ys), Math.max(...xs) + 1, Math.max(...ys) + 1];
        expect(found).toEqual(places.length === 0 ? undefined : box);
      });
      const words = Uint32Array.from({ length: 7 }, (_, i) => 0x01020304 * (i + 1));
      const [x0, y0] = [Math.floor(width * random()), Math.floor(height * random())];
      const part = paintPart({ data, width, height, channels: 1 }, [x0, y0, width, height], words);
      const expected = [...data.keys()]
        .filter((p) => p % width >= x0 && Math.floor(p / width) >= y0)
        .map((p) => words[data[p]!]!);
      expect([...new Uint32Array(part.buffer)]).toEqual(expected);
    }
  });
});

describe('thumbnail', () => {
  it('keeps a picture that is small enough', () => {
    const data = new Uint8Array(4 * 256 * 3);
    expect(thumbnail(data, 256, 3)).toEqual({ data, width: 256, height: 3 });
    expect(thumbnail(data, 3, 256).data).toBe(data);
  });

  it.each([
    [300, 200],
    [200, 300],
    [257, 1],
    [2, 1000],
    [700, 511],
  ])('of %d × %d has means over its cells, weighted by alpha', (width, height) => {
    const random = seeded(width);
    const data = Uint8Array.from({ length: 4 * width * height }, (_, i) =>
      i % 4 === 3 && random() < 0.3 ? 0 : Math.floor(256 * random()),
    );
    // A corner that is clear, whatever its color.
    for (let y = 0; y < height / 3; y++) {
      for (let x = 0; x < width / 3; x++) data[4 * (y * width + x) + 3] = 0;
    }
    const small = thumbnail(data, width, height);
    const scale = 256 / Math.max(width, height);
    const [w, h] = [width, height].map((side) => Math.max(1, Math.round(side * scale)));
    expect([small.width, small.height]).toEqual([w, h]);
    for (let y = 0; y < h!; y++) {
      for (let x = 0; x < w!; x++) {
        const [sums, place] = [[0, 0, 0, 0], 4 * (y * w! + x)];
        let count = 0;
        for (let v = Math.floor((y * height) / h!); v < Math.floor(((y + 1) * height) / h!); v++) {
          for (let u = Math.floor((x * width) / w!); u < Math.floor(((x + 1) * width) / w!); u++) {
            const alpha = data[4 * (v * width + u) + 3]!;
            for (let c = 0; c < 3; c++) sums[c]! += alpha * data[4 * (v * width + u) + c]!;
            sums[3]! += alpha;
            count++;
          }
        }
        const colors = sums
          .slice(0, 3)
          .map((sum) => (sums[3] === 0 ? 0 : Math.round(sum / sums[3]!)));
        const expected = [...colors, Math.round(sums[3]! / count)];
        const found = [...small.data.subarray(place, place + 4)];
        if (found.join() !== expected.join())
          expect({ x, y, found }).toEqual({ x, y, found: expected });
      }
    }
  });
});

describe('solidLayer', () => {
  const layer = (...pixels: number[][]) => ({
    data: Uint8Array.from(pixels.flat()),
    width: pixels.length,
    height: 1,
    channels: 4,
  });
  const [red, blue, clear] = [
    [255, 0, 0, 255],
    [0, 0, 255, 255],
    [9, 8, 7, 0],
  ];

  it('has the color of its opaque pixels, else that of the first', () => {
    expect(solidLayer(layer(clear!, red!, clear!, red!), 'layer', undefined).color).toBe('#ff0000');
    expect(solidLayer(layer(clear!, clear!), 'layer', undefined).color).toBe('#090807');
    const both = solidLayer(layer(red!, blue!), 'layer', new Set(['#ff0000', '#0000ff']));
    expect(both).toMatchObject({ color: undefined, width: 2, height: 1 });
    expect(both.samples).toEqual(Uint8Array.from([...red!, ...blue!]));
  });

  it('refuses a second color, one that is not listed, and what is half clear, with its place', () => {
    const solid = (allowed: Set<string> | undefined, ...pixels: number[][]) =>
      solidLayer({ ...layer(...pixels), width: 2, height: pixels.length / 2 }, 'fur', allowed);
    expect(() => solid(undefined, red!, clear!, clear!, blue!)).toThrow(
      /^fur must have one color, got #ff0000 and #0000ff at \[1, 1\] of the layer/,
    );
    expect(() => solid(new Set(['#0000ff']), clear!, red!)).toThrow(
      /^fur must have the colors of its palette, got #ff0000 at \[1, 0\] of the layer/,
    );
    expect(() => solid(new Set(['#0000ff']), blue!, red!)).toThrow(/got #0000ff and #ff0000 at/);
    expect(() => solid(undefined, red!, red!, [255, 0, 0, 254], red!)).toThrow(
      /^fur must be opaque or fully transparent, got alpha 254 at \[0, 1\] of the layer/,
    );
  });
});

describe('stackXml', () => {
  const swatch = (name: string, index: number) => ({
    name,
    src: `data/${index}.png`,
    offset: [index, -index] as const,
    mode: 'svg:src-over',
    role: 'swatch' as const,
    index,
  });

  it('groups swatches by the first part of their names, at the place of the topmost', () => {
    const layers = [
      { ...swatch('line/a', 0), role: 'line' as const },
      swatch('heron/scarf', 1),
      swatch('fur', 2),
      swatch('heron/left/wing', 3),
      swatch('/a', 4),
      swatch('b/', 5),
    ];
    const names = (grouped: boolean) =>
      [...stackXml(layers, [4, 3], undefined, grouped).matchAll(/<(\/?stack)|name="([^"]*)"/g)].map(
        ([, tag, name]) => tag ?? name,
      );
    expect(names(true)).toEqual([
      'stack',
      'line/a',
      'stack',
      'heron',
      'scarf',
      'left/wing',
      '/stack',
      'fur',
      '/a',
      'b/',
      '/stack',
    ]);
    expect(names(false)).toEqual(['stack', ...layers.map(({ name }) => name), '/stack']);
  });

  it('says all of a layer and of the picture', () => {
    const text = stackXml(
      [swatch('fur "x"', 6)],
      [4, 3],
      { x: 11_811, y: 5906, unit: 'meter' },
      false,
    );
    expect(text).toBe(`<?xml version='1.0' encoding='UTF-8'?>
<image xmlns:underink="urn:underink:layers" version="0.0.6" w="4" h="3" xres="300" yres="150">
<stack>
<layer name="fur &quot;x&quot;" src="data/6.png" x="6" y="-6" opacity="1.0" visibility="visible" composite-op="svg:src-over" underink:role="swatch" underink:index="6"/>
</stack>
</image>
`);
    const { index: _, ...rest } = swatch('a\u0001é\u007f', 1);
    const odd = stackXml(
      [{ ...rest, role: 'line' }],
      [1, 1],
      { x: 1, y: 2, unit: 'unknown' },
      false,
    );
    expect(odd).not.toContain('xres');
    expect(odd).not.toContain('underink:index');
    expect(odd).toContain('underink:name="&quot;a\\u0001\\u00e9\\u007f&quot;"');
  });

  it('has whole pixels per inch and per meter, at least 1, as much as a PNG holds', () => {
    expect([perInch(11_811), perInch(1), perInch(39.37)]).toEqual([300, 1, 1]);
    expect([perMeter(300), perMeter(1e-9), perMeter(1e12)]).toEqual([11_811, 1, 2 ** 31 - 1]);
  });
});
