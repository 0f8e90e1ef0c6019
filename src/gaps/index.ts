export type { Bridge } from './bridge.ts';
export { type GapStudy, type Sealed, type SealOptions, sealGaps, studyGaps } from './study.ts';
