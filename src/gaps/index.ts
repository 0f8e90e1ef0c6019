export type { Bridge } from './bridge.ts';
export { type Leak, type LeaksBetweenOptions, leaksBetween } from './leaks.ts';
export type { PaleInk } from './pale-ink.ts';
export type { SavedStudy } from './saved-study.ts';
export type { SealOptions } from './seal-options.ts';
export {
  type GapStudy,
  restoreStudy,
  type Sealed,
  type StudyGapsOptions,
  sealGaps,
  studyGaps,
} from './study.ts';
