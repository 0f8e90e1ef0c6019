/** Layered files that are not sound: a picture or a LayersError, never another exception, in bounds. */
import { deflateRawSync } from 'node:zlib';
import { unzipSync, type Zippable, zipSync } from 'fflate';
import { describe, expect, it } from 'vitest';
import { LayersError } from '../../src/layers/layers-error.ts';
import { readLayers } from '../../src/layers/read-layers.ts';
import { writeLayers } from '../../src/layers/write-layers.ts';
import { PngError } from '../../src/png/png-error.ts';
import { writePng } from '../../src/png/write-png.ts';
import { raster } from '../../src/raster/raster.ts';
import { seeded } from '../support/random.ts';

const text = (value: string): Uint8Array => new TextEncoder().encode(value);
const square = writePng(raster(new Uint8Array(16).fill(200), [2, 2, 4]));
const image = (inside: string, head = 'w="2" h="2"'): string =>
  `<?xml version="1.0" encoding="UTF-8"?>\n<image ${head}><stack>${inside}</stack></image>`;
const LAYER = '<layer name="fur" src="data/a.png" x="0" y="0"/>';
/** A file of a stack and a layer; `more` replaces files, or leaves one out. */
const ora = (
  xml: string,
  more: Record<string, Uint8Array | undefined> = {},
  level: 0 | 6 = 0,
): Uint8Array => {
  const files = {
    mimetype: text('image/openraster'),
    'stack.xml': text(xml),
    'data/a.png': square,
  };
  const kept = Object.entries({ ...files, ...more }).filter(([, data]) => data !== undefined);
  return zipSync(Object.fromEntries(kept) as Zippable, { level });
};
const sound = ora(image(LAYER));
/** The sound file with a number changed, at its place in the directory's one entry for a name. */
const patched = (name: string, at: number, value: number, bytes = 2): Uint8Array => {
  const file = sound.slice();
  const start = Buffer.from(file).lastIndexOf(name) - 46;
  const view = new DataView(file.buffer);
  if (bytes === 2) view.setUint16(start + at, value, true);
  else view.setUint32(start + at, value, true);
  return file;
};
const end = (at: number, value: number): Uint8Array => {
  const file = sound.slice();
  new DataView(file.buffer).setUint16(file.length - 22 + at, value, true);
  return file;
};

const LAUGHS = `<!DOCTYPE image [<!ENTITY a "ha"><!ENTITY b "&a;&a;&a;">]>${image('<layer name="&b;" src="data/a.png"/>')}`;
const OUTSIDE = `<!DOCTYPE image [<!ENTITY x SYSTEM "file:///etc/hostname">]>${image('<layer name="&x;" src="data/a.png"/>')}`;

const CASES: readonly (readonly [name: string, file: Uint8Array, message: RegExp])[] = [
  ['no bytes', new Uint8Array(0), /does not end as a ZIP/],
  ['a PNG', square, /not an OpenRaster file/],
  ['no mimetype', ora(image(LAYER), { mimetype: undefined }), /mimetype must be .*got none/],
  [
    'another mimetype',
    ora(image(LAYER), { mimetype: text('application/zip') }),
    /got "application\/zip"/,
  ],
  ['no stack.xml', ora(image(LAYER), { 'stack.xml': undefined }), /has no "stack.xml"/],
  ['no picture of a layer', ora(image(LAYER), { 'data/a.png': undefined }), /has no "data\/a.png"/],
  [
    'a path out of the file',
    ora(image('<layer src="../../etc/passwd"/>')),
    /has no "\.\.\/\.\.\/etc\/passwd"/,
  ],
  [
    'a layer that is no PNG',
    ora(image(LAYER), { 'data/a.png': text('GIF89a') }),
    /layer "fur" \(data\/a.png\) cannot be read: not a PNG but a GIF/,
  ],
  [
    'a damaged merged picture',
    ora(image(LAYER), { 'mergedimage.png': text('x') }),
    /mergedimage.png cannot be read/,
  ],
  ['another disk', end(4, 1), /on one disk/],
  ['ZIP64', end(10, 0xffff), /no ZIP64/],
  ['more entries than there are', end(10, 9), /must have 9 entries, got 3/],
  ['a directory elsewhere', end(18, 0x7fff), /lies outside of the file/],
  ['an encrypted entry', patched('data/a.png', 8, 1), /is encrypted/],
  ['another method', patched('data/a.png', 10, 12), /must be stored or deflated, got method 12/],
  ['a stored entry of two sizes', patched('data/a.png', 24, 1, 4), /not what the directory/],
  ['an entry cut off', patched('data/a.png', 20, 2 ** 30, 4), /is cut off/],
  ['an entry elsewhere', patched('data/a.png', 42, 1, 4), /not where the directory/],
  [
    'an entry of another name',
    patched('data/a.png', 42, 0, 4),
    /is not what the directory|is cut off/,
  ],
  ['a wrong CRC', patched('data/a.png', 16, 1, 4), /damaged: its CRC is wrong/],
  ['a document type', ora(`<!DOCTYPE image>${image(LAYER)}`), /no document type/],
  ['entities in entities', ora(LAUGHS), /no document type/],
  ['an outside entity', ora(OUTSIDE), /no document type/],
  [
    'an unknown entity',
    ora(image('<layer name="&b;" src="data/a.png"/>')),
    /entity that is not known/,
  ],
  [
    'a reference to no character',
    ora(image('<layer name="&#x110000;" src="data/a.png"/>')),
    /wrong character/,
  ],
  [
    'a reference to half a character',
    ora(image('<layer name="&#xd800;" src="data/a.png"/>')),
    /wrong character/,
  ],
  ['elements that cross', ora(image('<stack></image></stack>')), /closes <image>/],
  [
    'an element that is open',
    ora(`${image(LAYER)}`.replace('</image>', '')),
    /ends inside <image>/,
  ],
  ['two roots', ora(`${image(LAYER)}<image/>`), /one root/],
  ['no root', ora('<?xml version="1.0"?>'), /must hold an element/],
  ['another root', ora('<svg/>'), /must start with <image>, got <svg>/],
  ['an attribute twice', ora(image('<layer src="a" src="b"/>')), /src twice/],
  ['an attribute without quotes', ora(image('<layer src=a/>')), /not well-formed/],
  ['a tag that is open', ora('<image w="2"'), /not well-formed/],
  ['a comment that is open', ora(`${image(LAYER)}<!-- `), /not well-formed/],
  ['a deep nest', ora(image('<stack>'.repeat(2000))), /nested too deep/],
  ['a layer outside', ora('<image w="2" h="2"><layer src="data/a.png"/></image>'), /in a <stack>/],
  ['a layer without src', ora(image('<layer name="a"/>')), /must have a src/],
  ['no sides', ora(image(LAYER, '')), /w in stack.xml must be a whole number from 1/],
  ['sides that are none', ora(image(LAYER, 'w="2" h="1e3"')), /h in stack.xml .* got "1e3"/],
  ['an offset that is none', ora(image('<layer src="data/a.png" x="left"/>')), /x in stack.xml/],
  [
    'an opacity that is none',
    ora(image('<layer src="data/a.png" opacity="2"/>')),
    /opacity .* got "2"/,
  ],
  [
    'other letters than UTF-8',
    ora('', { 'stack.xml': Uint8Array.of(0x3c, 0xff, 0x3e) }),
    /not UTF-8/,
  ],
];

describe('a damaged layered file', () => {
  it.each(CASES)('with %s is refused', (_, file, message) => {
    expect(() => readLayers(file)).toThrow(LayersError);
    expect(() => readLayers(file)).toThrow(message);
  });

  it('is refused with the inner error as cause', () => {
    try {
      readLayers(ora(image(LAYER), { 'data/a.png': text('x') }));
      expect.unreachable();
    } catch (error) {
      expect((error as LayersError).name).toBe('LayersError');
      expect((error as LayersError).cause).toBeInstanceOf(PngError);
    }
  });

  it('is refused wherever it is cut off', () => {
    for (let length = 0; length < sound.length; length++) {
      expect(() => readLayers(sound.subarray(0, length))).toThrow(LayersError);
    }
  });

  it('is refused before more is inflated than may be', () => {
    // One entry says 10 bytes and inflates to 64 MiB, one says 2 GiB and holds next to nothing.
    const zeros = deflateRawSync(new Uint8Array(2 ** 26));
    const lies = withPacked('data/a.png', zeros, 10);
    expect(() => readLayers(lies)).toThrow(/must inflate to 10 bytes, got more/);
    const vast = withPacked('data/a.png', deflateRawSync(new Uint8Array(9)), 2 ** 31 - 1);
    expect(() => readLayers(vast)).toThrow(/must inflate to 2147483647 bytes, got fewer/);
    expect(() => readLayers(vast, { maxPixels: 2 ** 20 })).toThrow(/at most \d+ bytes/);
    const xml = ora(' '.repeat(2 ** 25 + 1) + image(LAYER), {}, 6);
    expect(() => readLayers(xml)).toThrow(/"stack.xml" must have at most 33554432 bytes/);
  });

  it('is refused for more pixels than may be, in one layer or in all', () => {
    expect(() => readLayers(sound, { maxPixels: 3 })).toThrow(
      /at most 3 pixels \(maxPixels\), got 2 × 2/,
    );
    const many = ora(image(LAYER.repeat(3)));
    expect(readLayers(many, { maxPixels: 12 }).layers).toHaveLength(3);
    expect(() => readLayers(many, { maxPixels: 11 })).toThrow(/at most 3 pixels \(maxPixels\)/);
    expect(() => readLayers(many, { maxPixels: 8 })).toThrow(/beyond the pixels that may be read/);
    expect(() => readLayers(many, { maxPixels: 0 })).toThrow(RangeError);
  });

  it('takes no quadratic time over long tags', () => {
    const long = `<layer ${' '.repeat(2 ** 20)}name="${'&amp;'.repeat(2 ** 18)}" src="data/a.png"/>`;
    expect(readLayers(ora(image(long))).layers[0]!.name).toHaveLength(2 ** 18);
    expect(() => readLayers(ora(image(`<layer ${' '.repeat(2 ** 20)}|`)))).toThrow(LayersError);
    expect(() => readLayers(ora(image(`<layer ${'x'.repeat(2 ** 20)}`)))).toThrow(LayersError);
  });

  it('gives a picture or a LayersError, whatever its bytes', () => {
    const flats = {
      indices: raster(new Uint8Array([1, 0, 2, 1]), [2, 2]),
      palette: ['bare', 'heron/fur', 'é\u0001'].map((name, i) => ({ name, color: `#00000${i}` })),
    };
    const stored = writeLayers(flats, { groups: true, line: raster(new Uint8Array(4), [2, 2]) });
    const deflated = zipSync(unzipSync(stored), { level: 6 });
    const random = seeded(11);
    const below = (bound: number): number => Math.floor(random() * bound);
    const tally = { pictures: 0, errors: 0 };
    for (let round = 0; round < 4000; round++) {
      const file = (round % 2 === 0 ? stored : deflated).slice();
      // Half of the damage in the last bytes, where the directory is.
      const from = round % 4 < 2 ? 0 : file.length - 700;
      for (let n = below(3); n >= 0; n--) file[from + below(file.length - from)] = below(256);
      const cut = round % 5 === 0 ? file.subarray(below(100)) : file;
      try {
        readLayers(cut, { maxPixels: 2 ** 20 });
        tally.pictures++;
      } catch (error) {
        if (!(error instanceof LayersError)) throw error;
        tally.errors++;
      }
    }
    expect(tally.pictures).toBeGreaterThan(100);
    expect(tally.errors).toBeGreaterThan(1000);
  });

  it('gives a picture or a LayersError, whatever its stack.xml', () => {
    const xml = image(`<!-- a --><stack name="&#228;&lt;" opacity="0.5">${LAYER}</stack>`);
    const random = seeded(12);
    const below = (bound: number): number => Math.floor(random() * bound);
    const letters = '<>/="\'&;!-?[] \n\tax0#';
    let pictures = 0;
    for (let round = 0; round < 4000; round++) {
      const at = below(xml.length);
      const put = Array.from({ length: below(3) }, () => letters[below(letters.length)]).join('');
      try {
        readLayers(ora(xml.slice(0, at) + put + xml.slice(at + below(3))));
        pictures++;
      } catch (error) {
        if (!(error instanceof LayersError)) throw error;
      }
    }
    expect(pictures).toBeGreaterThan(100);
  });
});

describe('a layered file of another program', () => {
  it('is read with its stacks, comments, unknown elements and what is left out', () => {
    const xml = image(
      `<!-- made elsewhere --><layer src='data/a.png' name='line &amp; "wash"' x='-3' composite-op="svg:multiply"/>
       <text x="1">words</text><?pi?><![CDATA[<layer/>]]>
       <stack name="heron" opacity="0.5" visibility="hidden"><stack>
         <layer opacity="0.5" name="a&#xE9;&#10;b
c" src="data/a.png"/></stack></stack>`,
    );
    const { layers, size, resolution } = readLayers(ora(xml, {}, 6));
    expect(layers.map(({ pixels, ...layer }) => layer)).toEqual([
      {
        name: 'line & "wash"',
        groups: [],
        offset: [-3, 0],
        opacity: 1,
        visible: true,
        mode: 'svg:multiply',
      },
      {
        name: 'aé\nb c',
        groups: ['heron', ''],
        offset: [0, 0],
        opacity: 0.25,
        visible: false,
        mode: 'svg:src-over',
      },
    ]);
    expect([...layers[0]!.pixels.data]).toEqual(Array.from({ length: 16 }, () => 200));
    expect(size).toEqual([2, 2]);
    expect(resolution).toBeUndefined();
  });

  it('gives its resolution, whole or broken', () => {
    const inch = (head: string) => readLayers(ora(image(LAYER, `w="2" h="2" ${head}`))).resolution;
    expect(inch('xres="300" yres="600"')).toEqual({ x: 11811, y: 23622, unit: 'meter' });
    expect(inch('xres="72.5"')).toEqual({ x: 2854, y: 2854, unit: 'meter' });
    expect(inch('xres="0" yres="600"')).toBeUndefined();
    expect(inch('xres="much"')).toBeUndefined();
  });

  it('whose attributes have another prefix for the same namespace, says the same', () => {
    const head = 'xmlns:ns0="urn:underink:layers" w="2" h="2"';
    const tag =
      '<layer ns0:role="ground" ns0:index="3" ns0:name="&quot;\\u0001&quot;" name="\ufffd" src="data/a.png"/>';
    expect(readLayers(ora(image(tag, head))).layers[0]).toMatchObject({
      role: 'ground',
      index: 3,
      name: '\u0001',
    });
    const renamed = tag.replace('name="\ufffd"', 'name="scarf"');
    expect(readLayers(ora(image(renamed, head))).layers[0]!.name).toBe('scarf');
    const broken = tag.replace('&quot;\\u', 'u');
    expect(readLayers(ora(image(broken, head))).layers[0]!.name).toBe('\ufffd');
  });
});

/** The sound file with the packed bytes of an entry replaced, deflated, and the size that it is said to have. */
function withPacked(name: string, packed: Uint8Array, size: number): Uint8Array {
  const file = ora(image(LAYER), { [name]: packed });
  const start = Buffer.from(file).lastIndexOf(name) - 46;
  const view = new DataView(file.buffer, file.byteOffset, file.byteLength);
  view.setUint16(start + 10, 8, true);
  view.setUint32(start + 24, size, true);
  return file;
}
