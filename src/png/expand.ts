import { firstPast } from '../palette/flats-argument.ts';
import { raster } from '../raster/raster.ts';
import type { Owned, Pixels } from '../raster/types.ts';
import type { Samples } from './decode-samples.ts';
import { GRAY, type Header, INDEXED, RGB } from './header.ts';
import type { PngFile } from './parse-png.ts';
import { PngError } from './png-error.ts';

/**
 * The picture of samples as the file holds them: palette indices become colors, gray below 8 bits
 * is scaled to 8, and the one transparent color of tRNS becomes an alpha channel. O(samples).
 */
export function expandSamples(file: PngFile, samples: Samples): Pixels<Samples> {
  const { header, transparency } = file;
  const { width, height, channels, colorType, depth } = header;
  if (colorType === INDEXED) {
    checkIndices(file, samples);
    const { colors, channels: own } = paletteTable(file);
    return raster(lookUp(samples, colors, own), [width, height, own]);
  }
  if (colorType === GRAY && (transparency !== undefined || depth < 8)) {
    const own = transparency === undefined ? 1 : 2;
    return raster(lookUp(samples, grayTable(header, transparency), own), [width, height, own]);
  }
  if (colorType === RGB && transparency !== undefined) {
    return raster(keyColor(samples, transparentColor(header, transparency)), [width, height, 4]);
  }
  return raster(samples, [width, height, channels]);
}

/** Every index must have its color in PLTE. */
export function checkIndices({ header, palette }: PngFile, samples: Samples): void {
  const colors = palette!.length / 3;
  const i = firstPast(samples, colors);
  if (i < 0) return;
  const at = `[${i % header.width}, ${Math.floor(i / header.width)}]`;
  throw new PngError(`PLTE holds ${colors} colors, got index ${samples[i]} at ${at}`);
}

/** RGB by palette index, or RGBA where there is a tRNS. */
function paletteTable({ palette, transparency }: PngFile): {
  colors: Owned<Uint8Array>;
  channels: 3 | 4;
} {
  if (transparency === undefined) return { colors: Uint8Array.from(palette!), channels: 3 };
  const colors = new Uint8Array((palette!.length / 3) * 4).fill(255);
  for (let i = 0; i < palette!.length / 3; i++) {
    colors.set(palette!.subarray(3 * i, 3 * i + 3), 4 * i);
    colors[4 * i + 3] = transparency[i] ?? 255;
  }
  return { colors, channels: 4 };
}

/** Gray, or gray and alpha, by sample; 1, 2 and 4 bits are scaled to 8. */
function grayTable(header: Header, transparency: Uint8Array | undefined): Samples {
  const most = 2 ** header.depth - 1;
  const full = header.depth === 16 ? 65_535 : 255;
  const grays = Array.from({ length: most + 1 }, (_, v) => v * (full / most));
  const table = header.depth === 16 ? Uint16Array : Uint8Array;
  if (transparency === undefined) return table.from(grays);
  const [clear] = transparentColor(header, transparency);
  return table.from(grays.flatMap((gray, v) => [gray, v === clear ? 0 : full]));
}

/** The samples of tRNS; of its 16 bits each, those of the picture's depth count. */
function transparentColor({ depth }: Header, transparency: Uint8Array): number[] {
  const view = new DataView(transparency.buffer, transparency.byteOffset, transparency.byteLength);
  const samples: number[] = [];
  for (let at = 0; at < transparency.length; at += 2) {
    samples.push(view.getUint16(at) & (2 ** depth - 1));
  }
  return samples;
}

function lookUp<D extends Samples>(samples: Samples, table: D, channels: number): D {
  const pixels = new (table.constructor as new (length: number) => D)(samples.length * channels);
  for (let i = 0, to = 0; i < samples.length; i++) {
    const from = samples[i]! * channels;
    for (let c = 0; c < channels; c++) pixels[to++] = table[from + c]!;
  }
  return pixels;
}

/** RGBA of RGB: alpha 0 where the pixel has the one transparent color. */
function keyColor<D extends Samples>(samples: D, clear: readonly number[]): D {
  const pixels = new (samples.constructor as new (length: number) => D)((samples.length / 3) * 4);
  const full = samples instanceof Uint16Array ? 65_535 : 255;
  const [red, green, blue] = clear;
  for (let from = 0, to = 0; from < samples.length; from += 3, to += 4) {
    const r = (pixels[to] = samples[from]!);
    const g = (pixels[to + 1] = samples[from + 1]!);
    const b = (pixels[to + 2] = samples[from + 2]!);
    pixels[to + 3] = r === red && g === green && b === blue ? 0 : full;
  }
  return pixels;
}
