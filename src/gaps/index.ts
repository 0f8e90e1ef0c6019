export type { Bridge } from './bridge.ts';
export type { SealOptions } from './seal-options.ts';
export { type GapStudy, type Sealed, sealGaps, studyGaps } from './study.ts';
