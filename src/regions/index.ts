export { type AbsorbOptions, absorbRegions } from './absorb.ts';
export { type RegionAdjacency, regionAdjacency } from './adjacency.ts';
export { type GrowOptions, growUnderInk } from './grow.ts';
export { type Labeling, type LabelRegionsOptions, labelRegions } from './label.ts';
export { type LabelEqualOptions, labelEqual } from './label-equal.ts';
export { measureRegions, type RegionColumns } from './measure.ts';
export { mergeRegions } from './merge.ts';
export { relabel } from './relabel.ts';
export { type SplitRegionOptions, splitRegion } from './split.ts';
