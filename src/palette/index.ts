export { colorDifference } from './color-difference.ts';
export { type FindLookalikesOptions, findLookalikes, type Lookalike } from './find-lookalikes.ts';
export { indexFlats } from './index-flats.ts';
export type { Lab } from './lab.ts';
export { type PaintFlatsOptions, paintFlats } from './paint-flats.ts';
export { recolor } from './recolor.ts';
export { remapFlats } from './remap-flats.ts';
export { selectSwatch } from './select-swatch.ts';
export type { Flats, FlatsLike, IndexRaster, Swatch } from './types.ts';
