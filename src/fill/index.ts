export { floodFill } from './flood-fill.ts';
export { type FoundPixels, floodRegion } from './flood-region.ts';
export type { FloodOptions, MatchOptions } from './options.ts';
export { replaceValue } from './replace-value.ts';
export { selectValue } from './select-value.ts';
