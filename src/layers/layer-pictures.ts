import { parseColor } from '../color/hex.ts';
import type { DenseFlats } from '../palette/flats-argument.ts';
import type { Bounds } from '../raster/types.ts';
import { boundsOfIndices, paintPart } from './paint-part.ts';
import type { LayerRole } from './types.ts';

/** A layer before it is written: RGBA of its bounds. */
export interface LayerPicture {
  readonly name: string;
  readonly role: LayerRole;
  readonly index?: number;
  readonly bounds: Readonly<Bounds>;
  readonly data: Uint8Array;
}

/** A layer for each swatch, the first of the palette on top, and the ground below, one at a time. */
export function* swatchPictures(flats: DenseFlats): Generator<LayerPicture, void, void> {
  const { indices, palette, ground } = flats;
  const bounds = boundsOfIndices(indices, palette.length);
  const last = palette.findIndex(({ name }) => name === ground);
  for (let i = 1; i < palette.length; i++) {
    if (i !== last) yield swatchPicture(flats, i, bounds[i], 'swatch');
  }
  if (last > 0) yield swatchPicture(flats, last, bounds[last], 'ground');
}

/** All swatches in one layer, and the ground below. */
export function* flatsPictures(flats: DenseFlats): Generator<LayerPicture, void, void> {
  const { indices, palette, ground } = flats;
  const bounds = boundsOfIndices(indices, palette.length);
  checkTellable(flats);
  const whole: Bounds = [0, 0, indices.width, indices.height];
  const words = colorWords(flats);
  const last = palette.findIndex(({ name }) => name === ground);
  if (last > 0) words[last] = 0;
  yield { name: 'flats', role: 'flats', bounds: whole, data: paintPart(indices, whole, words) };
  if (last > 0) yield swatchPicture(flats, last, bounds[last], 'ground');
}

/** The color of each swatch, opaque, and 0 for `bare`: RGBA as words in the byte order of the machine. */
export function colorWords({ palette }: DenseFlats): Uint32Array {
  const bytes = new Uint8Array(4 * palette.length);
  palette.forEach(({ color }, i) => {
    if (i > 0) bytes.set([...parseColor(color, 'color'), 255], 4 * i);
  });
  return new Uint32Array(bytes.buffer);
}

/** What the swatch does not have is transparent, and of its color all the same. */
function swatchPicture(
  { indices, palette }: DenseFlats,
  index: number,
  bounds: Bounds | undefined,
  role: 'swatch' | 'ground',
): LayerPicture {
  const { name, color } = palette[index]!;
  const rgb = parseColor(color, 'color');
  if (bounds === undefined) {
    return { name, role, index, bounds: [0, 0, 1, 1], data: Uint8Array.of(...rgb, 0) };
  }
  const [clear, solid] = new Uint32Array(Uint8Array.of(...rgb, 0, ...rgb, 255).buffer);
  const words = new Uint32Array(palette.length).fill(clear!);
  words[index] = solid!;
  return { name, role, index, bounds, data: paintPart(indices, bounds, words) };
}

/** In one layer swatches are told apart by color alone. */
function checkTellable({ palette, ground }: DenseFlats): void {
  const first = new Map<string, string>();
  palette.forEach(({ name, color }, i) => {
    if (i === 0 || name === ground) return;
    const same = first.get(color);
    if (same !== undefined) {
      throw new RangeError(
        `flats.palette must have no two swatches of one color for one layer, got ${JSON.stringify(same)} and ${JSON.stringify(name)} in ${color}; recolor one, or write a layer each (layers: 'swatch')`,
      );
    }
    first.set(color, name);
  });
}
