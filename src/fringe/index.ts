export { type EdgeHardness, edgeHardness } from './edge-hardness.ts';
export {
  type FindFringeOptions,
  type Fringe,
  type FringePair,
  type FringePlace,
  findFringe,
  type Light,
} from './find-fringe.ts';
export {
  type GatheredColor,
  type HardenEdgesOptions,
  type HardenedFlats,
  hardenEdges,
} from './harden-edges.ts';
