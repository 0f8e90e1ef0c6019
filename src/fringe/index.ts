export { type EdgeHardness, edgeHardness } from './edge-hardness.ts';
export {
  type FindFringeOptions,
  type Fringe,
  type FringeLight,
  type FringePair,
  type FringePlace,
  findFringe,
} from './find-fringe.ts';
export {
  type GatheredColor,
  type HardenEdgesOptions,
  type HardenEdgesProgress,
  type HardenedFlats,
  hardenEdges,
} from './harden-edges.ts';
export { type SnapColorsOptions, type SnappedFlats, snapColors } from './snap-colors.ts';
