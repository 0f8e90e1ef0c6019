import { deflateSync } from 'node:zlib';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { joinBytes, makeChunk } from '../../src/png/chunks.ts';
import { PngError } from '../../src/png/png-error.ts';
import { type PngPicture, readPng } from '../../src/png/read-png.ts';
import { writePng } from '../../src/png/write-png.ts';
import { raster } from '../../src/raster/raster.ts';
import { CHANNELS, encodeRaw, idat, iend, ihdr, latin1, png, uint32 } from './build-png.ts';

const KINDS: readonly (readonly [colorType: number, depth: number])[] = [
  ...[1, 2, 4, 8, 16].map((depth) => [0, depth] as const),
  ...[8, 16].map((depth) => [2, depth] as const),
  ...[1, 2, 4, 8].map((depth) => [3, depth] as const),
  ...[8, 16].map((depth) => [4, depth] as const),
  ...[8, 16].map((depth) => [6, depth] as const),
];
const dot = png(ihdr({ width: 1, height: 1 }), idat(Uint8Array.of(0, 7)), iend);
const withChunks = (...chunks: Uint8Array[]): Uint8Array =>
  png(ihdr({ width: 1, height: 1 }), ...chunks, idat(Uint8Array.of(0, 7)), iend);

describe('readPng', () => {
  it('reads every color type, depth, filter and interlacing as the specification encodes it', () => {
    const arbitrary = fc.record({
      kind: fc.constantFrom(...KINDS),
      width: fc.integer({ min: 1, max: 19 }),
      height: fc.integer({ min: 1, max: 19 }),
      interlace: fc.constantFrom(0, 1),
      clear: fc.boolean(),
      seed: fc.nat(),
      cut: fc.integer({ min: 1, max: 40 }),
    });
    fc.assert(
      fc.property(arbitrary, ({ kind, width, height, interlace, clear, seed, cut }) => {
        const [colorType, depth] = kind;
        const channels = CHANNELS[colorType]!;
        const noise = noiseFrom(seed);
        const colors = Math.min(2 ** depth, 200);
        const samples = Array.from({ length: width * height * channels }, () =>
          noise(colorType === 3 ? colors : 2 ** depth),
        );
        const palette = Array.from({ length: colors * 3 }, () => noise(256));
        const hasTransparency = clear && colorType < 4;
        const key = samples.slice(0, channels);
        const alphas = [0, 128, 255].slice(0, colors);
        const chunks: Uint8Array[] = [];
        if (colorType === 3) chunks.push(makeChunk('PLTE', Uint8Array.from(palette)));
        if (hasTransparency) {
          const words = key.flatMap((sample) => [sample >> 8, sample & 255]);
          chunks.push(makeChunk('tRNS', Uint8Array.from(colorType === 3 ? alphas : words)));
        }
        const header = { width, height, depth, colorType, interlace };
        const raw = encodeRaw(header, samples, () => noise(5));
        const compressed = deflateSync(raw);
        for (let at = 0; at < compressed.length; at += cut) {
          chunks.push(makeChunk('IDAT', compressed.subarray(at, at + cut)));
        }
        const picture = readPng(png(ihdr(header), ...chunks, iend));

        const full = depth === 16 ? 65_535 : 255;
        const expected: number[] = [];
        for (let p = 0; p < samples.length; p += channels) {
          const own = samples.slice(p, p + channels);
          const scaled = own.map((sample) => (sample * full) / (2 ** depth - 1));
          const color = colorType === 3 ? palette.slice(3 * own[0]!, 3 * own[0]! + 3) : scaled;
          expected.push(...color);
          if (!hasTransparency) continue;
          const isKey = own.every((sample, c) => sample === key[c]);
          expected.push(colorType === 3 ? (alphas[own[0]!] ?? 255) : isKey ? 0 : full);
        }
        const { pixels } = picture;
        expect([...pixels.data]).toEqual(expected);
        expect(pixels.shape).toEqual([width, height, expected.length / (width * height)]);
        expect(pixels.stride).toEqual([pixels.shape[2], pixels.shape[2]! * width, 1]);
        expect(pixels.data).toBeInstanceOf(depth === 16 ? Uint16Array : Uint8Array);
        expect(picture.depth).toBe(depth);
      }),
      { numRuns: 400, seed: 11 },
    );
  });

  it('takes any view of bytes', () => {
    const offset = new Uint8Array(dot.length + 9);
    offset.set(dot, 5);
    const shared = new SharedArrayBuffer(dot.length);
    new Uint8Array(shared).set(dot);
    const forms = [
      dot,
      offset.subarray(5, 5 + dot.length),
      Buffer.from(dot),
      dot.slice().buffer,
      shared,
      new Uint8Array(shared),
      joinBytes([dot, latin1('what follows IEND')]),
    ];
    for (const form of forms) expect([...readPng(form).pixels.data]).toEqual([7]);
  });

  it('shares no memory with the file', () => {
    const file = dot.slice();
    const { pixels } = readPng(file);
    file.fill(0);
    expect([...pixels.data]).toEqual([7]);
  });

  it('tells wrong arguments from wrong files', () => {
    const wrong = 'bytes must be a Uint8Array, ArrayBuffer or SharedArrayBuffer, got';
    expect(() => readPng('x' as never)).toThrow(
      new TypeError(`${wrong} "x"; read the file first: readFileSync(path)`),
    );
    expect(() => readPng(new Uint16Array(4) as never)).toThrow(`${wrong} Uint16Array(4)`);
    expect(() => readPng(null as never)).toThrow(new TypeError(`${wrong} null`));
    expect(() => readPng(dot, { maxPixel: 4 } as never)).toThrow('did you mean "maxPixels"?');
    expect(() => readPng(dot, { maxPixels: 0 })).toThrow(
      new RangeError('maxPixels must be a whole number from 1 to 2147483647, got 0'),
    );
    expect(() => readPng(new Uint8Array(0))).toThrow(PngError);
  });

  it('refuses pictures of more pixels than asked for', () => {
    const art = writePng(raster(new Uint8Array(12), [4, 3]));
    expect(readPng(art, { maxPixels: 12 }).pixels.shape).toEqual([4, 3, 1]);
    expect(() => readPng(art, { maxPixels: 11 })).toThrow(
      new PngError('the picture must have at most 11 pixels (maxPixels), got 4 × 3'),
    );
    const header = ihdr({ width: 2 ** 27 + 1, height: 1, depth: 1 });
    expect(() => readPng(png(header, idat(Uint8Array.of(0)), iend))).toThrow(/at most 134217728/);
  });

  it('reads rows past 65,535 pixels', () => {
    for (const [width, height] of [
      [70_001, 2],
      [2, 70_001],
    ] as const) {
      for (const [depth, interlace] of [
        [8, 0],
        [1, 1],
      ] as const) {
        const header = { width, height, depth, interlace };
        const samples = Array.from({ length: width * height }, (_, i) => (i * i) % 2 ** depth);
        const file = png(ihdr(header), idat(encodeRaw(header, samples, () => 0)), iend);
        const { data } = readPng(file).pixels;
        expect(data.findIndex((v, i) => v !== samples[i]! * (depth === 1 ? 255 : 1))).toBe(-1);
      }
    }
  });
});

describe('what readPng says beside the pixels', () => {
  const profile = (...chunks: Uint8Array[]): PngPicture['profile'] =>
    readPng(withChunks(...chunks)).profile;
  const gamma = (value: number): Uint8Array => makeChunk('gAMA', uint32(value));
  // Chromaticities and gamma of sRGB: PNG specification, 11.3.2.5.
  const srgb = [31270, 32900, 64000, 33000, 30000, 60000, 15000, 6000];
  const icc = (name: string): Uint8Array =>
    makeChunk('iCCP', joinBytes([latin1(`${name}\0\0`), deflateSync(new Uint8Array(9))]));

  it('names a color space other than sRGB', () => {
    expect(profile()).toBeUndefined();
    expect(profile(makeChunk('sRGB', Uint8Array.of(0)), gamma(100_000))).toBeUndefined();
    expect(profile(gamma(45_455), makeChunk('cHRM', uint32(...srgb)))).toBeUndefined();
    expect(profile(gamma(55_556))).toBe('gamma 0.55556');
    expect(profile(makeChunk('cHRM', uint32(...srgb.with(2, 68_000))))).toBe(
      'chromaticities 0.3127 0.329 0.68 0.33 0.3 0.6 0.15 0.06',
    );
    expect(profile(icc('Adobe RGB (1998)'))).toBe('Adobe RGB (1998)');
    expect(profile(icc('sRGB IEC61966-2.1'))).toBeUndefined();
    expect(profile(makeChunk('cICP', Uint8Array.of(1, 13, 0, 1)), gamma(1))).toBeUndefined();
    expect(profile(makeChunk('cICP', Uint8Array.of(9, 16, 0, 1)))).toBe('cICP 9-16-0-1');
  });

  it('reads texts of all three kinds', () => {
    const international = (text: Uint8Array, flag: number): Uint8Array =>
      joinBytes([
        latin1(`Clé\0`),
        Uint8Array.of(flag, 0),
        latin1('fr\0'),
        utf8('clé'),
        Uint8Array.of(0),
        text,
      ]);
    const { text } = readPng(
      withChunks(
        makeChunk('tEXt', latin1('Title\0caf\xe9 \x80')),
        makeChunk('zTXt', joinBytes([latin1('Comment\0\0'), deflateSync(latin1('d\xe9j\xe0'))])),
        makeChunk('iTXt', international(utf8('\ufeff線画 ✎'), 0)),
        makeChunk('iTXt', international(deflateSync(utf8('二')), 1)),
        makeChunk('tEXt', latin1('__proto__\0own')),
      ),
    );
    expect(Object.entries(text)).toEqual([
      ['Title', 'café \x80'],
      ['Comment', 'déjà'],
      ['Clé', '\ufeff線画 ✎\n二'],
      ['__proto__', 'own'],
    ]);
    expect(Object.getPrototypeOf(text)).toBe(Object.prototype);
  });

  it('reads resolutions; those that say nothing are left out', () => {
    const resolution = (x: number, y: number, unit: number): PngPicture['resolution'] =>
      readPng(withChunks(makeChunk('pHYs', joinBytes([uint32(x, y), Uint8Array.of(unit)]))))
        .resolution;
    expect(resolution(11811, 5906, 1)).toEqual({ x: 11811, y: 5906, unit: 'meter' });
    expect(resolution(3, 2, 0)).toEqual({ x: 3, y: 2, unit: 'unknown' });
    expect(resolution(0, 2, 1)).toBeUndefined();
    expect(resolution(3, 2, 7)).toBeUndefined();
  });
});

function utf8(text: string): Uint8Array {
  return new TextEncoder().encode(text);
}

/** Whole numbers below a bound, from a linear congruential generator (Numerical Recipes). */
function noiseFrom(seed: number): (bound: number) => number {
  let state = seed >>> 0;
  return (bound) => {
    state = (Math.imul(state, 1_664_525) + 1_013_904_223) >>> 0;
    return Math.floor((state / 2 ** 32) * bound);
  };
}
