import { describe, expect, it } from 'vitest';
import { makeChunk, readChunks } from '../../src/png/chunks.ts';
import { crc32 } from '../../src/png/crc32.ts';
import { idat, iend, ihdr, insertBeforeData, latin1, png } from './build-png.ts';

describe('crc32', () => {
  it('gives the CRC of an IEND chunk, which is the same in every PNG', () => {
    expect(crc32(latin1('IEND'))).toBe(0xae426082);
  });

  it('gives the check value of CRC-32/ISO-HDLC', () => {
    // Catalogue of parametrised CRC algorithms (G. Cook): check value of "123456789".
    expect(crc32(latin1('123456789'))).toBe(0xcbf43926);
    expect(crc32(new Uint8Array(0))).toBe(0);
  });
});

describe('chunks', () => {
  it('frames data by length, type and CRC', () => {
    expect([...makeChunk('IEND', new Uint8Array(0))]).toEqual([
      0, 0, 0, 0, 73, 69, 78, 68, 0xae, 0x42, 0x60, 0x82,
    ]);
  });

  it('are read in order', () => {
    const file = png(ihdr({ width: 1, height: 1 }), idat(Uint8Array.of(0, 7)), iend);
    const more = [makeChunk('pHYs', new Uint8Array(9)), makeChunk('tEXt', latin1('a\0b'))];
    const types = (bytes: Uint8Array) => [...readChunks(bytes)].map(({ type }) => type);
    expect(types(file)).toEqual(['IHDR', 'IDAT', 'IEND']);
    expect(types(insertBeforeData(file, more))).toEqual(['IHDR', 'pHYs', 'tEXt', 'IDAT', 'IEND']);
  });
});
