export { type FlatsFromLayersOptions, flatsFromLayers } from './flats-from-layers.ts';
export { LayersError } from './layers-error.ts';
export { type ReadLayersOptions, readLayers } from './read-layers.ts';
export type { Layer, LayeredPicture, LayerLike, LayerRole } from './types.ts';
export { type WriteLayersOptions, writeLayers } from './write-layers.ts';
