export { raster } from './raster.ts';
export type { AbortSignalLike } from './stages.ts';
export { type ImageDataLike, toImageData } from './to-image-data.ts';
export type {
  Bounds,
  Connectivity,
  Coverage,
  CoverageLike,
  Labels,
  LabelsLike,
  Mask,
  MaskLike,
  Owned,
  PixelChanges,
  PixelData,
  Pixels,
  PixelsLike,
  PlainRaster,
  Point,
  RasterData,
  RasterLike,
  RasterView,
} from './types.ts';
export type { PixelValue } from './value.ts';
