/** The code of docs/any-picture.md runs on files made here, of a disc of ink on white paper. */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import sharp from 'sharp';
import { describe, expect, it } from 'vitest';
import * as underink from '../../src/index.ts';
import { pageSnippets, promised, root, run, typeFaults } from '../support/snippets.ts';

const text = readFileSync(join(root, 'docs/any-picture.md'), 'utf8');
const snippets = pageSnippets(text);

const SIDE = 20;
const gray = Uint8Array.from({ length: SIDE * SIDE }, (_, i) =>
  Math.hypot((i % SIDE) - 10, Math.floor(i / SIDE) - 10) < 6 ? 0 : 255,
);
const raw = { width: SIDE, height: SIDE, channels: 1 } as const;
const drawing = () => sharp(gray, { raw }).toColourspace('b-w').withMetadata({ density: 300 });

async function files(): Promise<Map<string, Uint8Array>> {
  const made = {
    'line-8bit.tif': drawing().tiff({ compression: 'lzw' }),
    'line.jpg': drawing().jpeg({ quality: 90 }),
    'line.webp': sharp(gray, { raw }).webp({ quality: 90 }),
    'line-cmyk.jpg': sharp(gray, { raw }).toColourspace('cmyk').jpeg({ quality: 95 }),
  };
  const entries = Object.entries(made).map(async ([name, one]) => {
    return [name, new Uint8Array(await one.toBuffer())] as const;
  });
  return new Map([
    ...(await Promise.all(entries)),
    ['line-1bit.tif', tiff(1)],
    ['line-16bit.tif', tiff(16)],
  ]);
}

/** A gray TIFF of 1 or 16 bits in one strip, little-endian, written from TIFF 6.0 (sections 2 to 4). */
function tiff(bits: 1 | 16): Uint8Array {
  const rowBytes = Math.ceil((SIDE * bits) / 8);
  const data = new Uint8Array(rowBytes * SIDE);
  gray.forEach((value, i) => {
    const [x, y] = [i % SIDE, Math.floor(i / SIDE)];
    if (bits === 16) data.fill(value, 2 * i, 2 * i + 2);
    else if (value > 0) data[y * rowBytes + (x >> 3)]! |= 0x80 >> (x & 7);
  });
  // Tag, type (3: SHORT, 4: LONG), value.
  const fields: [tag: number, type: 3 | 4, value: number][] = [
    [256, 3, SIDE],
    [257, 3, SIDE],
    [258, 3, bits],
    [259, 3, 1],
    [262, 3, 1],
    [273, 4, 8],
    [277, 3, 1],
    [278, 3, SIDE],
    [279, 4, data.length],
  ];
  const file = Buffer.alloc(8 + data.length + 2 + 12 * fields.length + 4);
  file.write('II*\0', 'latin1');
  file.writeUInt32LE(8 + data.length, 4);
  file.set(data, 8);
  let at = file.writeUInt16LE(fields.length, 8 + data.length);
  for (const [tag, type, value] of fields) {
    at = file.writeUInt16LE(tag, at);
    at = file.writeUInt16LE(type, at);
    at = file.writeUInt32LE(1, at);
    at = file.writeUInt32LE(value, at);
  }
  return file;
}

describe('the guide to pictures from anywhere', () => {
  it('has snippets that pass the type check', () => {
    expect(snippets.length).toBe(5);
    expect(typeFaults(snippets, { types: ['node'], esModuleInterop: true })).toEqual([]);
  });

  it.each(snippets)('prints what it says: $name', async ({ name, code }) => {
    const made = await files();
    const fs = { readFileSync: (path: string) => Buffer.from(made.get(path)!) };
    const printed = await run(code, { underink, sharp: { default: sharp }, 'node:fs': fs });
    if (name === 'From a scan to coverage') {
      expect(printed).toHaveLength(4);
      for (const line of printed) expect(line).toMatch(/^line\S+ true true$/);
    } else {
      expect(printed).toEqual(promised(code));
    }
  });

  it('is made of files that are what their names say', async () => {
    const made = await files();
    const kind = async (name: string) => {
      const { format, depth, space } = await sharp(made.get(name)!).metadata();
      return [format, depth, space];
    };
    expect(await kind('line-16bit.tif')).toEqual(['tiff', 'ushort', 'grey16']);
    expect(await kind('line-cmyk.jpg')).toEqual(['jpeg', 'uchar', 'cmyk']);
    expect((await kind('line.webp'))[0]).toBe('webp');
  });

  it('is what readPng points to for a file that is no PNG', async () => {
    const made = await files();
    expect(() => underink.readPng(made.get('line.webp')!)).toThrow(
      /not a PNG but a WebP.*docs\/any-picture\.md/,
    );
  });
});
