import sharp from 'sharp';
import { describe, expect, it } from 'vitest';
import { readPng } from '../../src/png/read-png.ts';
import { latin1 } from './build-png.ts';

const art = sharp(Buffer.alloc(48, 200), { raw: { width: 4, height: 4, channels: 3 } });

describe('a file of another format', () => {
  // Written by libvips (sharp).
  it.each([
    ['TIFF', 'tiff'],
    ['JPEG', 'jpeg'],
    ['WebP', 'webp'],
    ['GIF', 'gif'],
    ['AVIF', 'avif'],
  ] as const)('is named: %s', async (name, format) => {
    const bytes = await art.clone().toFormat(format).toBuffer();
    expect(() => readPng(bytes)).toThrow(
      `not a PNG but a ${name}: decode it with a library that reads ${name}, and pass { data, width, height } where pixels are wanted`,
    );
  });

  // The first bytes that the specifications ask for: TIFF 6.0 section 2, Adobe's PSD specification.
  it.each([
    ['TIFF', 'MM\0*\0\0\0\x08'],
    ['PSD', '8BPS\0\x01'],
  ])('is named: %s', (name, start) => {
    expect(() => readPng(latin1(start))).toThrow(`not a PNG but a ${name}: `);
  });

  it('that is not known is said to be no PNG', () => {
    for (const start of ['', 'II', '<svg/>', 'RIFF0000WAVE', '0000ftypisom']) {
      expect(() => readPng(latin1(start))).toThrow(/^not a PNG: the file does not start/);
    }
  });
});
