export { raster } from './raster.ts';
export type {
  Bounds,
  Changed,
  Connectivity,
  Coverage,
  CoverageLike,
  Labels,
  LabelsLike,
  Mask,
  MaskLike,
  PixelData,
  Pixels,
  PixelsLike,
  Plain,
  Point,
  RasterData,
  RasterLike,
  View,
} from './types.ts';
export type { PixelValue } from './value.ts';
