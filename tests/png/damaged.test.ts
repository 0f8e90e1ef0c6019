import { deflateSync } from 'node:zlib';
import { describe, expect, it } from 'vitest';
import { joinBytes, makeChunk, SIGNATURE } from '../../src/png/chunks.ts';
import { PngError } from '../../src/png/png-error.ts';
import { readFlats } from '../../src/png/read-flats.ts';
import { readPng } from '../../src/png/read-png.ts';
import { writeFlats } from '../../src/png/write-flats.ts';
import { writePng } from '../../src/png/write-png.ts';
import { raster } from '../../src/raster/raster.ts';
import { type BuildHeader, encodeRaw, idat, iend, ihdr, latin1, png, uint32 } from './build-png.ts';

const gray1 = ihdr({ width: 1, height: 1 });
const data1 = idat(Uint8Array.of(0, 7));
const indexed = ihdr({ width: 2, height: 1, depth: 2, colorType: 3 });
const indices = idat(Uint8Array.of(0, 0b00_01_00_00));
const palette = (bytes: number): Uint8Array => makeChunk('PLTE', new Uint8Array(bytes));
const clear = (bytes: number): Uint8Array => makeChunk('tRNS', new Uint8Array(bytes));
const pHYs = makeChunk('pHYs', new Uint8Array(9));
const gAMA = makeChunk('gAMA', uint32(1));
const header = (fields: Partial<BuildHeader>): Uint8Array =>
  png(ihdr({ width: 1, height: 1, ...fields }), data1, iend);
const withText = (type: string, data: Uint8Array): Uint8Array =>
  png(gray1, makeChunk(type, data), data1, iend);
const setByte = (bytes: Uint8Array, at: number, value: number): Uint8Array =>
  bytes.with(at < 0 ? bytes.length + at : at, value);
const stream = deflateSync(Uint8Array.of(0, 7));
const split = (at: number): Uint8Array[] => [
  makeChunk('IDAT', stream.subarray(0, at)),
  makeChunk('IDAT', stream.subarray(at)),
];
const withStream = (bytes: Uint8Array): Uint8Array => png(gray1, makeChunk('IDAT', bytes), iend);
const methods = (at: number): Uint8Array =>
  png(makeChunk('IHDR', setByte(gray1.subarray(8, 21), at, 1)), data1, iend);

const CASES: readonly (readonly [name: string, file: Uint8Array, message: RegExp])[] = [
  ['no bytes', new Uint8Array(0), /not a PNG/],
  ['another signature', setByte(png(gray1, data1, iend), 5, 0), /not a PNG/],
  ['a signature alone', png(), /cut off: it ends at byte 8, before chunk IEND/],
  ['no IEND', png(gray1, data1), /cut off/],
  [
    'a chunk cut off',
    png(gray1, data1).subarray(0, 46),
    /cut off: it ends at byte 46, in chunk IDAT/,
  ],
  [
    'IEND that holds bytes',
    png(gray1, data1, makeChunk('IEND', latin1('x'))),
    /IEND must be empty/,
  ],
  ['a length past 2^31', png(uint32(2 ** 31, 0x49484452), new Uint8Array(13)), /impossible length/],
  [
    'a type of other bytes',
    png(gray1, makeChunk('I\0AT', new Uint8Array(0)), iend),
    /no chunk at byte 33/,
  ],
  ['a wrong CRC of IDAT', png(gray1, setByte(data1, -1, 0), iend), /IDAT at byte 33 is damaged/],
  [
    'a wrong CRC of an ancillary chunk',
    png(gray1, setByte(pHYs, -1, 0), data1, iend),
    /pHYs .* CRC/,
  ],
  ['another chunk first', png(pHYs, gray1, data1, iend), /first chunk must be IHDR, got pHYs/],
  ['two IHDR', png(gray1, gray1, data1, iend), /critical chunk IHDR/],
  [
    'an unknown critical chunk',
    png(gray1, makeChunk('ABCD', pHYs), data1, iend),
    /critical chunk ABCD/,
  ],
  [
    'IHDR of another length',
    png(makeChunk('IHDR', new Uint8Array(12)), data1, iend),
    /13 bytes, got 12/,
  ],
  ['no width', header({ width: 0 }), /sides must be from 1 to 2147483647 pixels, got 0 × 1/],
  ['a height past 2^31', header({ height: 2 ** 31 }), /sides must be/],
  ['no such color type', header({ colorType: 1 }), /no color type 1/],
  ['no such depth', header({ depth: 3 }), /color type 0 must have 1,2,4,8,16 bits, got 3/],
  [
    'a depth not of the color type',
    header({ colorType: 2, depth: 4 }),
    /must have 8,16 bits, got 4/,
  ],
  ['16 bit indices', header({ colorType: 3, depth: 16 }), /must have 1,2,4,8 bits, got 16/],
  ['no such interlacing', header({ interlace: 2 }), /no interlace method 2/],
  ['no such compression', methods(10), /no compression method 1/],
  ['no such filter method', methods(11), /no filter method 1/],
  ['no IDAT', png(gray1, iend), /there is no chunk IDAT/],
  [
    'IDAT apart',
    png(gray1, split(3)[0]!, makeChunk('tEXt', latin1('a\0')), split(3)[1]!, iend),
    /follow one another/,
  ],
  ['indices without PLTE', png(indexed, indices, iend), /must have a chunk PLTE, got none/],
  ['two PLTE', png(indexed, palette(6), palette(6), indices, iend), /one chunk PLTE, got two/],
  ['PLTE after IDAT', png(indexed, indices, palette(6), iend), /PLTE must come before IDAT/],
  [
    'PLTE that is empty',
    png(indexed, palette(0), indices, iend),
    /1 to 4 colors of 3 bytes, got 0/,
  ],
  ['PLTE of a part of a color', png(indexed, palette(7), indices, iend), /got 7 bytes/],
  ['PLTE of more colors than indices', png(indexed, palette(15), indices, iend), /1 to 4 colors/],
  [
    'PLTE in a gray picture',
    png(gray1, palette(3), data1, iend),
    /gray picture must have no chunk PLTE/,
  ],
  [
    'an index past PLTE',
    png(indexed, palette(3), indices, iend),
    /1 colors, got index 1 at \[1, 0\]/,
  ],
  [
    'tRNS before PLTE',
    png(indexed, clear(1), palette(6), indices, iend),
    /tRNS must come after PLTE/,
  ],
  [
    'tRNS of more than PLTE',
    png(indexed, palette(6), clear(3), indices, iend),
    /1 to 2 bytes, got 3/,
  ],
  ['tRNS that is empty', png(indexed, palette(6), clear(0), indices, iend), /1 to 2 bytes, got 0/],
  [
    'tRNS of a gray picture',
    png(gray1, clear(1), data1, iend),
    /gray picture must hold 2 bytes, got 1/,
  ],
  ['tRNS after IDAT', png(gray1, data1, clear(2), iend), /tRNS must come before IDAT/],
  [
    'tRNS beside alpha',
    png(ihdr({ width: 1, height: 1, colorType: 4 }), clear(2), data1, iend),
    /no chunk tRNS/,
  ],
  [
    'tRNS of RGB',
    png(ihdr({ width: 1, height: 1, colorType: 2 }), clear(2), data1, iend),
    /6 bytes, got 2/,
  ],
  [
    'tRNS before the PLTE of RGB',
    png(ihdr({ width: 1, height: 1, colorType: 2 }), clear(6), palette(3), data1, iend),
    /PLTE must come before tRNS/,
  ],
  ['gAMA after PLTE', png(indexed, palette(6), gAMA, indices, iend), /gAMA must come before PLTE/],
  ['two gAMA', png(gray1, gAMA, gAMA, data1, iend), /one chunk gAMA/],
  [
    'gAMA of another length',
    png(gray1, makeChunk('gAMA', pHYs), data1, iend),
    /gAMA must hold 4 bytes/,
  ],
  ['pHYs after IDAT', png(gray1, data1, pHYs, iend), /pHYs must come before IDAT/],
  [
    'pHYs of another length',
    png(gray1, makeChunk('pHYs', uint32(1, 1)), data1, iend),
    /9 bytes, got 8/,
  ],
  ['an empty IDAT', withStream(new Uint8Array(0)), /picture must inflate to 2 bytes, got fewer/],
  ['no zlib stream', withStream(latin1('what is this')), /cannot be inflated/],
  ['a stream cut off', withStream(stream.subarray(0, -3)), /the picture/],
  ['a wrong check sum', withStream(setByte(stream, -1, 0)), /check sum is wrong/],
  ['bytes after the stream', withStream(joinBytes([stream, latin1('more')])), /check sum is wrong/],
  ['too few rows', withStream(deflateSync(Uint8Array.of(0))), /inflate to 2 bytes, got fewer/],
  ['too many rows', withStream(deflateSync(Uint8Array.of(0, 7, 0))), /at most 2 bytes, got more/],
  ['no such filter', png(gray1, idat(Uint8Array.of(5, 7)), iend), /rows of the picture/],
  ['a text without an end', withText('tEXt', latin1('Title')), /zero byte after each field/],
  ['a text without keyword', withText('tEXt', latin1('\0text')), /must have a keyword/],
  ['a text compressed otherwise', withText('zTXt', latin1('a\0\x01b')), /no compression method 1/],
  ['a text that does not inflate', withText('zTXt', latin1('a\0\0bcdefgh')), /cannot be inflated/],
  ['a text that is not UTF-8', withText('iTXt', latin1('a\0\0\0\0\0\xff')), /not UTF-8/],
  ['an unknown flag of a text', withText('iTXt', latin1('a\0\x02\0\0\0b')), /flag of iTXt/],
  [
    'a text compressed otherwise, iTXt',
    withText('iTXt', latin1('a\0\x01\x01\0\0b')),
    /no compression method 1/,
  ],
];

describe('a damaged PNG', () => {
  it.each(CASES)('with %s is refused', (_, file, message) => {
    for (const read of [readPng, readFlats]) {
      expect(() => read(file)).toThrow(PngError);
      expect(() => read(file)).toThrow(message);
    }
  });

  it('is refused with the inner error as cause', () => {
    const cause = (file: Uint8Array): unknown => {
      try {
        return readPng(file);
      } catch (error) {
        expect((error as PngError).name).toBe('PngError');
        return (error as PngError).cause;
      }
    };
    expect(cause(withStream(latin1('what is this')))).toBeInstanceOf(Error);
    expect(cause(png(gray1, idat(Uint8Array.of(5, 7)), iend))).toBeInstanceOf(Error);
  });

  it('is refused wherever it is cut off', () => {
    const file = writePng(
      raster(
        Uint8Array.from({ length: 60 }, (_, i) => i * i),
        [5, 4, 3],
      ),
    );
    for (let length = 0; length < file.length; length++) {
      expect(() => readPng(file.subarray(0, length))).toThrow(PngError);
    }
    expect(readPng(file).pixels.shape).toEqual([5, 4, 3]);
  });

  it('is refused before a picture that it cannot hold is allocated', () => {
    // 2^27 pixels of 8 bytes would be a gibibyte.
    const vast = ihdr({ width: 2 ** 14, height: 2 ** 13, depth: 16, colorType: 6 });
    expect(() => readPng(png(vast, data1, iend))).toThrow(/got fewer/);
  });

  it('is left as soon as it inflates to too much', () => {
    const bomb = deflateSync(new Uint8Array(2 ** 27));
    expect(() => readPng(withStream(bomb))).toThrow(/at most 2 bytes, got more/);
    const text = joinBytes([latin1('a\0\0'), bomb]);
    expect(() => readPng(withText('zTXt', text))).toThrow(/at most 8388608 bytes, got more/);
    const half = joinBytes([latin1('a\0\0'), deflateSync(new Uint8Array(5_000_000))]);
    const chunk = makeChunk('zTXt', half);
    expect(Object.values(readPng(png(gray1, chunk, data1, iend)).text)[0]).toHaveLength(5_000_000);
    expect(() => readPng(png(gray1, chunk, chunk, data1, iend))).toThrow(/compressed text/);
  });

  it('takes no quadratic time over many tiny chunks', () => {
    const size = 200_000;
    const raw = new Uint8Array(size + 1);
    const many = Array.from(deflateSync(raw, { level: 0 }), (byte) =>
      makeChunk('IDAT', Uint8Array.of(byte)),
    );
    const empty = Array.from({ length: size }, () => makeChunk('tEXt', latin1('a\0')));
    const start = png(ihdr({ width: size, height: 1 }));
    const file = joinBytes([[start], empty, many, [iend]].flat());
    expect(readPng(file).pixels.shape).toEqual([size, 1, 1]);
  });

  it('gives a picture or a PngError, whatever its bytes', () => {
    const fields = { width: 5, height: 6, depth: 2, interlace: 1 };
    const noise = Uint8Array.from({ length: 60 }, (_, i) => (i * 37) & 3);
    const swatches = [
      { name: 'bare', color: '#000000' },
      { name: 'scarf', color: '#c86400' },
    ];
    const flats = { indices: raster(new Uint8Array([1, 0, 1, 1]), [2, 2]), palette: swatches };
    const files = [
      png(ihdr(fields), idat(encodeRaw(fields, noise, (row) => row % 5)), iend),
      png(indexed, palette(6), clear(2), pHYs, indices, iend),
      writePng(
        raster(
          Uint16Array.from(noise, (v) => v * 9000),
          [5, 4, 3],
        ),
      ),
      withText('zTXt', joinBytes([latin1('Comment\0\0'), deflateSync(noise)])),
      writeFlats(flats).bytes,
    ];
    let state = 7;
    const random = (bound: number): number => {
      state = (Math.imul(state, 1_664_525) + 1_013_904_223) >>> 0;
      return Math.floor((state / 2 ** 32) * bound);
    };
    let pictures = 0;
    let errors = 0;
    for (let round = 0; round < 6000; round++) {
      const mutated = files[round % files.length]!.slice();
      for (let n = random(4); n >= 0; n--) mutated[random(mutated.length)] = random(256);
      // Two times in three the CRCs are put right, so that the damage reaches what is inside.
      const file = round % 3 === 0 ? mutated : withRightCrcs(mutated);
      try {
        (round % 2 === 0 ? readPng : readFlats)(file);
        pictures++;
      } catch (error) {
        // readFlats on an intact picture that is not in solid colors
        const solid = error instanceof RangeError && /^pixels must/.test(error.message);
        if (!(error instanceof PngError) && !solid) throw error;
        errors++;
      }
    }
    expect(pictures).toBeGreaterThan(300);
    expect(errors).toBeGreaterThan(300);
  });
});

/** The chunks of a mutated file framed anew, as far as they can be told apart. */
function withRightCrcs(file: Uint8Array): Uint8Array {
  const view = new DataView(file.buffer, file.byteOffset, file.byteLength);
  const parts = [file.subarray(0, SIGNATURE.length)];
  for (let at = SIGNATURE.length; at + 12 <= file.length; ) {
    const end = at + 8 + view.getUint32(at);
    if (end + 4 > file.length) break;
    parts.push(
      makeChunk(String.fromCharCode(...file.subarray(at + 4, at + 8)), file.subarray(at + 8, end)),
    );
    at = end + 4;
  }
  return joinBytes(parts);
}
