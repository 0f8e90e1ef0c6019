import { formatColor, parseColor } from '../palette/color.ts';
import { flatsArgument } from '../palette/flats-argument.ts';
import { BARE_SWATCH, checkPalette } from '../palette/swatches.ts';
import type { Flats, FlatsLike, Swatch } from '../palette/types.ts';
import { pixelsArgument } from '../raster/arguments.ts';
import { raster } from '../raster/raster.ts';
import { toEight } from '../raster/samples.ts';
import type { Dense, Mask, PixelData, PixelsLike } from '../raster/types.ts';

/** What a check looks at. */
export interface Sheet {
  /** The flats; of a picture, blended pixels have index 0. */
  readonly flats: Flats;
  /** 1 where a picture's pixel is blended; left out for flats, which cannot blend. */
  readonly blended?: Mask;
  /** The ink over the flats, where it was given. */
  readonly ink?: Mask;
}

/** Flats, or a picture of flats read into them. */
export function sheetOf(input: FlatsLike | PixelsLike, palette?: readonly Swatch[]): Sheet {
  if (typeof input === 'object' && input !== null && 'indices' in input) {
    const { indices, palette: swatches, ground } = flatsArgument(input, 'flats');
    const { data, width, height } = indices;
    const flats = { indices: raster(data, [width, height]), palette: swatches };
    return { flats: ground === undefined ? flats : { ...flats, ground } };
  }
  return readPicture(pixelsArgument(input as PixelsLike, 'pixels'), palette);
}

/** No color: alpha that is neither 0 nor full. */
const PARTIAL = -2;
const CLEAR = -1;

/**
 * Reads a picture. With a palette a blended pixel is one of partial alpha or of a color that the
 * palette lacks; without one, a color that nowhere fills a square of 2 × 2 is a blend.
 */
function readPicture(pixels: Dense<PixelData>, palette?: readonly Swatch[]): Sheet {
  const { width, height } = pixels;
  const colors = colorsOf(pixels);
  const swatches =
    palette === undefined
      ? solidColors(colors, width, height)
      : checkPalette(palette, 'palette', 'either');
  const named = swatches.filter(({ name }) => name !== BARE_SWATCH.name);
  const indexOf = new Map<number, number>([[CLEAR, 0]]);
  named.forEach(({ color }, k) => {
    const [r, g, b] = parseColor(color, 'color');
    const rgb = (r << 16) | (g << 8) | b;
    if (!indexOf.has(rgb)) indexOf.set(rgb, k + 1);
  });
  const size = width * height;
  const indices = named.length > 255 ? new Uint16Array(size) : new Uint8Array(size);
  const blended = new Uint8Array(size);
  for (let i = 0, last = PARTIAL, index: number | undefined; i < size; i++) {
    const color = colors[i]!;
    if (i === 0 || color !== last) index = indexOf.get(color);
    last = color;
    if (index === undefined) blended[i] = 1;
    else indices[i] = index;
  }
  return {
    flats: { indices: raster(indices, [width, height]), palette: [BARE_SWATCH, ...named] },
    blended: raster(blended, [width, height]),
  };
}

/** 24-bit color of each pixel, or CLEAR, or PARTIAL. */
function colorsOf({ data, width, height, channels }: Dense<PixelData>): Int32Array {
  const wide = data instanceof Uint16Array;
  const [green, blue] = channels < 3 ? [0, 0] : [1, 2];
  const hasAlpha = channels === 2 || channels === 4;
  const colors = new Int32Array(width * height);
  for (let i = 0, k = 0; i < colors.length; i++, k += channels) {
    const alpha = hasAlpha ? toEight(data[k + channels - 1]!, wide) : 255;
    if (alpha !== 255) colors[i] = alpha === 0 ? CLEAR : PARTIAL;
    else {
      const r = toEight(data[k]!, wide);
      colors[i] =
        (r << 16) | (toEight(data[k + green]!, wide) << 8) | toEight(data[k + blue]!, wide);
    }
  }
  return colors;
}

/** Colors that fill a square of 2 × 2 somewhere (a line of 1 in a picture 1 pixel thin). */
function solidColors(colors: Int32Array, width: number, height: number): Swatch[] {
  const solid = new Set<number>();
  const right = width > 1 ? 1 : 0;
  const below = height > 1 ? width : 0;
  for (let y = 0; y < Math.max(1, height - 1); y++) {
    for (let x = 0; x < Math.max(1, width - 1); x++) {
      const i = y * width + x;
      const color = colors[i]!;
      if (color !== colors[i + right] || color !== colors[i + below]) continue;
      if (color >= 0 && color === colors[i + right + below]) solid.add(color);
    }
  }
  return [...solid].map((rgb) => {
    const color = formatColor(rgb >> 16, (rgb >> 8) & 255, rgb & 255);
    return { name: color, color };
  });
}
