import type { NdArray } from 'ndarray';

/** Any typed array a raster may stand on. */
export type RasterData =
  | Uint8Array
  | Uint8ClampedArray
  | Uint16Array
  | Uint32Array
  | Int8Array
  | Int16Array
  | Int32Array
  | Float32Array
  | Float64Array;

/**
 * The same typed array on an ArrayBuffer, never on shared memory: what results stand on, so that a
 * canvas, a Blob and `postMessage` take them. Written as what `of` gives, because TypeScript before
 * 5.7 has no `Uint8Array<ArrayBuffer>`.
 */
export type Owned<D extends RasterData> = D extends Uint8Array
  ? ReturnType<Uint8ArrayConstructor['of']>
  : D extends Uint8ClampedArray
    ? ReturnType<Uint8ClampedArrayConstructor['of']>
    : D extends Uint16Array
      ? ReturnType<Uint16ArrayConstructor['of']>
      : D extends Int32Array
        ? ReturnType<Int32ArrayConstructor['of']>
        : D extends Float64Array
          ? ReturnType<Float64ArrayConstructor['of']>
          : D;

/** Samples of a picture: 8 or 16 bit, sRGB. */
export type PixelData = Uint8Array | Uint8ClampedArray | Uint16Array;

/** What marks an ndarray, any view of one, or what structured clone leaves of one. */
export interface RasterView<D extends RasterData = RasterData> {
  readonly data: D;
  readonly shape: readonly number[];
  readonly stride: readonly number[];
  readonly offset: number;
}

/** An `ImageData`, or any dense row-major raster with its sides. */
export interface PlainRaster<D extends RasterData = RasterData> {
  readonly data: D;
  readonly width: number;
  readonly height: number;
  /** Samples per pixel; left out, `data.length / (width · height)`. */
  readonly channels?: number | undefined;
}

/** Every form in which a raster argument may come. */
export type RasterLike<D extends RasterData = RasterData> = RasterView<D> | PlainRaster<D>;

/** `[width, height]` of 0 or 1, Uint8. */
export type Mask = NdArray<Owned<Uint8Array>>;
/** `[width, height]` of 0 (paper) to 255 (solid ink), Uint8. */
export type Coverage = NdArray<Owned<Uint8Array>>;
/** `[width, height]` of region ids, Int32, non-negative, 0 = no region. */
export type Labels = NdArray<Owned<Int32Array>>;
/** `[width, height, channels]` of sRGB samples, 1 to 4 channels. */
export type Pixels<D extends PixelData = PixelData> = NdArray<Owned<D>>;

export type MaskLike = RasterLike<Uint8Array | Uint8ClampedArray>;
export type CoverageLike = RasterLike<Uint8Array | Uint8ClampedArray>;
export type LabelsLike = RasterLike<Int32Array>;
export type PixelsLike = RasterLike<PixelData>;

/** A point `[x, y]` in continuous coordinates: pixel (x, y) covers [x, x+1) × [y, y+1). */
export type Point = readonly [x: number, y: number];
/** `[x0, y0, x1, y1]` of whole pixels, half-open. */
export type Bounds = [x0: number, y0: number, x1: number, y1: number];
/** What a call changed in its target. */
export interface PixelChanges {
  /** Pixels whose value differs afterwards. */
  readonly changed: number;
  /** Their bounds; null where none changed. */
  readonly bounds: Bounds | null;
}
/** Which neighbors connect what is looked for: the 4 that share an edge, or all 8. */
export type Connectivity = 4 | 8;

/** Dense row-major samples as kernels see them: `data[(y · width + x) · channels + c]`. */
export interface Dense<D extends RasterData = RasterData> {
  readonly data: D;
  readonly width: number;
  readonly height: number;
  readonly channels: number;
}
