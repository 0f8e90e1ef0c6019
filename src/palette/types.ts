import type { NdArray } from 'ndarray';
import type { Owned, RasterLike } from '../raster/types.ts';

/** One named color of a palette. */
export interface Swatch {
  /** Unique in its palette; `bare` is reserved. */
  readonly name: string;
  /** `#rrggbb`. */
  readonly color: string;
}

/** Indices into a palette, `[width, height]`: Uint8 up to 256 swatches, Uint16 above. */
export type IndexRaster = NdArray<Owned<Uint8Array> | Owned<Uint16Array>>;

/** A picture of flats: every pixel belongs to exactly one swatch. */
export interface Flats {
  readonly indices: IndexRaster;
  /** `palette[0]` is `bare`: nothing laid yet, painted and written with alpha 0. */
  readonly palette: readonly Swatch[];
  /** Name of the swatch of what lies outside the figure. */
  readonly ground?: string | undefined;
}

/** Flats as an argument: any raster form of the indices, such as what structured clone leaves. */
export interface FlatsLike {
  readonly indices: RasterLike<Uint8Array | Uint16Array>;
  readonly palette: readonly Swatch[];
  readonly ground?: string | undefined;
}
