export { type FillPolygonOptions, fillPolygon } from './fill.ts';
export { type Outline, type OutlineRegionsOptions, outlineRegions } from './outline.ts';
export { type RasterizePolygonOptions, rasterizePolygon } from './rasterize.ts';
export type { Rings } from './rings-argument.ts';
export type { FillRule } from './scan.ts';
