import { flatsArgument, indexStorage } from '../palette/flats-argument.ts';
import { BARE, BARE_SWATCH, checkPalette, MAX_SWATCHES } from '../palette/swatches.ts';
import type { Flats, FlatsLike, Swatch } from '../palette/types.ts';
import { pixelsArgument } from '../raster/arguments.ts';
import { formatColor, parseColor } from '../raster/color.ts';
import { raster } from '../raster/raster.ts';
import type { Coverage, Dense, Mask, PixelData, PixelsLike } from '../raster/types.ts';

/** What a check looks at. */
export interface Sheet {
  /** The flats; of a picture, blended pixels have index 0. */
  readonly flats: Flats;
  /** 1 where a pixel is blended; left out for flats without a palette to compare with. */
  readonly blended?: Mask;
  /** The ink over the flats, where it was given. */
  readonly ink?: Mask;
  /** Coverage of the ink, where it was given. */
  readonly coverage?: Coverage;
}

/** Flats, or a picture of flats read into them. O(pixels). */
export function sheetOf(
  input: FlatsLike | PixelsLike,
  name: string,
  palette: readonly Swatch[] | undefined,
): Sheet {
  const allowed =
    palette && checkPalette(palette, 'palette', 'either').filter((swatch) => swatch.name !== BARE);
  if (typeof input === 'object' && input !== null && 'indices' in input) {
    return readFlats(input, name, allowed);
  }
  return readPicture(pixelsArgument(input as PixelsLike, name), name, allowed);
}

function readFlats(input: FlatsLike, name: string, allowed: readonly Swatch[] | undefined): Sheet {
  const { indices, palette, ground } = flatsArgument(input, name);
  const { data, width, height } = indices;
  const flats: Flats = {
    indices: raster(data, [width, height]),
    palette,
    ...(ground === undefined ? {} : { ground }),
  };
  if (allowed === undefined) return { flats };
  const colors = new Set(allowed.map(({ color }) => color));
  const isOff = palette.map(({ color }, index) => (index > 0 && !colors.has(color) ? 1 : 0));
  const blended = new Uint8Array(data.length);
  for (let i = 0; i < data.length; i++) blended[i] = isOff[data[i]!]!;
  return { flats, blended: raster(blended, [width, height]) };
}

function readPicture(
  pixels: Dense<PixelData>,
  name: string,
  allowed: readonly Swatch[] | undefined,
): Sheet {
  const { width, height } = pixels;
  const colors = colorsOf(pixels);
  const named = allowed ?? solidColors(colors, width, height);
  if (named.length >= MAX_SWATCHES) {
    throw new RangeError(
      `${name} must hold at most ${MAX_SWATCHES - 1} solid colors, got ${named.length}`,
    );
  }
  const indexOf = new Map<number, number>([[CLEAR, 0]]);
  named.forEach(({ color }, k) => {
    const [r, g, b] = parseColor(color, 'color');
    const rgb = (r << 16) | (g << 8) | b;
    if (!indexOf.has(rgb)) indexOf.set(rgb, k + 1);
  });
  const indices = indexStorage(colors.length, named.length + 1);
  const blended = new Uint8Array(colors.length);
  let last = CLEAR;
  let index: number | undefined = 0;
  for (let i = 0; i < colors.length; i++) {
    const color = colors[i]!;
    if (color !== last) {
      last = color;
      index = indexOf.get(color);
    }
    if (index === undefined) blended[i] = 1;
    else indices[i] = index;
  }
  return {
    flats: { indices: raster(indices, [width, height]), palette: [BARE_SWATCH, ...named] },
    blended: raster(blended, [width, height]),
  };
}

const CLEAR = -1;
/** No color: alpha that is neither 0 nor full, or a 16 bit sample between two 8 bit ones. */
const MIXED = -2;

/** 24-bit color of each pixel, or CLEAR, or MIXED. */
function colorsOf({ data, width, height, channels }: Dense<PixelData>): Int32Array {
  const unit = data instanceof Uint16Array ? 257 : 1;
  const green = channels < 3 ? 0 : 1;
  const blue = channels < 3 ? 0 : 2;
  const hasAlpha = channels === 2 || channels === 4;
  const full = 255 * unit;
  const colors = new Int32Array(width * height);
  for (let i = 0, k = 0; i < colors.length; i++, k += channels) {
    const alpha = hasAlpha ? data[k + channels - 1]! : full;
    if (alpha !== full) {
      colors[i] = alpha === 0 ? CLEAR : MIXED;
      continue;
    }
    const r = data[k]!;
    const g = data[k + green]!;
    const b = data[k + blue]!;
    if (unit === 1) colors[i] = (r << 16) | (g << 8) | b;
    else if (r % unit !== 0 || g % unit !== 0 || b % unit !== 0) colors[i] = MIXED;
    else colors[i] = ((r / unit) << 16) | ((g / unit) << 8) | (b / unit);
  }
  return colors;
}

/**
 * Colors that fill a square of 2 × 2 somewhere, in the order of their first; in a picture 1 pixel
 * thin, two pixels in a row.
 */
function solidColors(colors: Int32Array, width: number, height: number): Swatch[] {
  const solid = new Set<number>();
  const right = width > 1 ? 1 : 0;
  const below = height > 1 ? width : 0;
  let last = CLEAR;
  for (let y = 0; y < Math.max(1, height - 1); y++) {
    const end = y * width + Math.max(1, width - 1);
    for (let i = y * width; i < end; i++) {
      const color = colors[i]!;
      if (color === last || color < 0 || color !== colors[i + right]) continue;
      if (color !== colors[i + below] || color !== colors[i + below + right]) continue;
      last = color;
      solid.add(color);
    }
  }
  return Array.from(solid, (rgb) => {
    const color = formatColor(rgb >> 16, (rgb >> 8) & 255, rgb & 255);
    return { name: color, color };
  });
}
