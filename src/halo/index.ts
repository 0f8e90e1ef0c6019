export { findHalo, type Halo, type HaloPlace } from './find-halo.ts';
export { mendHalo } from './mend-halo.ts';
