import { parseColor } from '../color/hex.ts';
import { raster } from '../raster/raster.ts';
import type { Pixels } from '../raster/types.ts';
import type { DenseFlats } from './flats-argument.ts';

const CHANGED = '#e6007e';
const RECOLORED = '#0078ff';

/**
 * Flats in pale gray, with the pixels whose id is not 0 in one color and those of recolored swatches
 * in another; RGBA.
 */
export function drawDiff(
  { indices, palette }: DenseFlats,
  ids: Int32Array,
  recolored: Uint8Array,
): Pixels<Uint8Array> {
  const { data, width, height } = indices;
  const tones = palette.map(({ color }, i) =>
    recolored[i] === 1 ? rgba(RECOLORED) : pale(color, i),
  );
  const colors = wordsOf([...tones, rgba(CHANGED)]);
  const changed = colors[palette.length]!;
  const painted = new Uint32Array(data.length);
  for (let i = 0; i < data.length; i++) painted[i] = ids[i] === 0 ? colors[data[i]!]! : changed;
  return raster(new Uint8Array(painted.buffer), [width, height, 4]);
}

/** The gray of a color (Rec. 601 luma), brought to the light fourth; bare is white. */
function pale(color: string, index: number): number[] {
  if (index === 0) return [255, 255, 255, 255];
  const [r, g, b] = parseColor(color, 'color');
  const gray = 191 + Math.floor((299 * r + 587 * g + 114 * b) / 4000);
  return [gray, gray, gray, 255];
}

function rgba(color: string): number[] {
  return [...parseColor(color, 'color'), 255];
}

/** RGBA as words in the byte order of the machine. */
function wordsOf(colors: readonly number[][]): Uint32Array {
  return new Uint32Array(Uint8Array.from(colors.flat()).buffer);
}
