import { checkOptions } from '../../raster/checks.ts';
import { wrongKind, wrongValue } from '../../raster/errors.ts';
import { outArgument } from '../../raster/out.ts';
import type { Bounds, RasterData, RasterView } from '../../raster/types.ts';
import type { Assignment } from '../assign.ts';
import type { PageRasters } from './write-regions.ts';

/**
 * Rasters of a tool that an update writes into, dense and of the page's size, on shared memory or not.
 * One that the update before wrote into too is taken to hold what that wrote: only what has changed
 * is written. Others are written whole.
 */
export interface PageOut {
  /** `[w, h]`. */
  readonly labels?: RasterView<Int32Array> | undefined;
  /** `[w, h]`: bytes for up to 256 swatches, else 16-bit words. */
  readonly indices?: RasterView<Uint8Array | Uint16Array> | undefined;
  /** `[w, h, 4]`: the sheet as `composeWithin` paints it. */
  readonly picture?: RasterView<Uint8Array | Uint8ClampedArray> | undefined;
}

/** The storage of each. */
export interface OutStorage {
  readonly labels?: Int32Array;
  readonly indices?: Uint8Array | Uint16Array;
  readonly picture?: Uint8Array | Uint8ClampedArray;
}

/** Checks `out` before anything is written. */
export function pageOut(
  out: PageOut | undefined,
  [width, height]: readonly [number, number],
  { palette }: Assignment,
  own: readonly RasterData[],
): OutStorage {
  const { labels, indices, picture } = checkOptions(out, 'out', ['labels', 'indices', 'picture']);
  const kind = palette.length > 256 ? Uint16Array : Uint8Array;
  return {
    ...(labels && { labels: outArgument(labels, Int32Array, width, height, own) }),
    ...(indices && {
      indices: outArgument<Uint8Array | Uint16Array>(indices, kind, width, height, own),
    }),
    ...(picture && { picture: pictureStorage(picture, width, height, own) }),
  };
}

/** A picture is a raster of its samples that is four times as wide. */
function pictureStorage(
  picture: RasterView<Uint8Array | Uint8ClampedArray>,
  width: number,
  height: number,
  own: readonly RasterData[],
): Uint8Array | Uint8ClampedArray {
  const { shape, stride, data, offset } = picture;
  if (!(data instanceof Uint8Array || data instanceof Uint8ClampedArray)) {
    throw wrongKind('out.picture', 'a raster over a Uint8Array or a Uint8ClampedArray', data);
  }
  const fits = shape?.length === 3 && shape[0] === width && shape[1] === height && shape[2] === 4;
  if (!fits) throw wrongValue('out.picture', `of shape [${width}, ${height}, 4]`, shape);
  const dense = stride[2] === 1 && stride[0] === 4 && stride[1] === 4 * width;
  if (!dense) throw wrongValue('out.picture', 'dense and row-major', stride);
  const flat = { data, shape: [4 * width, height], stride: [1, 4 * width], offset };
  const type = data instanceof Uint8Array ? Uint8Array : Uint8ClampedArray;
  return outArgument<Uint8Array | Uint8ClampedArray>(flat, type, 4 * width, height, own);
}

/** Copies the rows of some bounds. */
function copyWithin<D extends RasterData>(
  from: D,
  to: D,
  width: number,
  [x0, y0, x1, y1]: Readonly<Bounds>,
): void {
  if (x0 === 0 && x1 === width) to.set(from.subarray(y0 * width, y1 * width), y0 * width);
  else {
    for (let y = y0; y < y1; y++) {
      to.set(from.subarray(y * width + x0, y * width + x1), y * width + x0);
    }
  }
}

/** Writes labels and indices, whole where the storage was not written before. */
export function writeOut(
  out: OutStorage,
  last: OutStorage,
  own: PageRasters,
  width: number,
  changed: Bounds | null,
): void {
  const whole: Bounds = [0, 0, width, own.labels.length / width];
  for (const name of ['labels', 'indices'] as const) {
    const to = out[name];
    const part = isSame(to, last[name]) ? changed : whole;
    if (to !== undefined && part !== null) copyWithin<RasterData>(own[name], to, width, part);
  }
}

/** Whether two arrays are the same memory. */
export function isSame(a: RasterData | undefined, b: RasterData | undefined): boolean {
  return (
    a !== undefined &&
    b !== undefined &&
    a.buffer === b.buffer &&
    a.byteOffset === b.byteOffset &&
    a.length === b.length &&
    a.BYTES_PER_ELEMENT === b.BYTES_PER_ELEMENT
  );
}
