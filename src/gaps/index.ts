export type { Bridge } from './bridge.ts';
export {
  type PartitionOptions,
  type Passages,
  type PassageTree,
  passageTree,
} from './passage-tree.ts';
export { type GapStudy, type Sealed, type SealOptions, sealGaps, studyGaps } from './study.ts';
