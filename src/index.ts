// The whole public surface, in the order of the data.
export * from './raster/index.ts';
export * from './png/index.ts';
export * from './ink/index.ts';
export * from './strokes/index.ts';
export * from './passages/index.ts';
export * from './gaps/index.ts';
export * from './regions/index.ts';
export * from './measure/index.ts';
export * from './polygon/index.ts';
export * from './fill/index.ts';
export * from './fringe/index.ts';
export * from './halo/index.ts';
export * from './color/index.ts';
export * from './palette/index.ts';
export * from './flats/index.ts';
export * from './checks/index.ts';
export * from './layers/index.ts';
