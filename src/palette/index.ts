export { colorDifference } from './color-difference.ts';
export { indexFlats } from './index-flats.ts';
export type { Lab } from './lab.ts';
export { findLookalikes, type Lookalikes, type LookalikesOptions } from './lookalikes.ts';
export { type PaintFlatsOptions, paintFlats } from './paint-flats.ts';
export { recolor } from './recolor.ts';
export { remapFlats } from './remap-flats.ts';
export { selectSwatch } from './select-swatch.ts';
export type { Flats, FlatsLike, IndexRaster, Swatch } from './types.ts';
