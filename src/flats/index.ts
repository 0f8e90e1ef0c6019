export { type AppliedPlan, type ApplyPlanOptions, applyPlan } from './apply-plan.ts';
export type { PlanReport, UnnamedRegion } from './assign.ts';
export type { OutsideMark } from './check-plan.ts';
export {
  type ColorMeeting,
  compareReference,
  type ReferenceRegion,
} from './compare-reference.ts';
export { type ComposeSheetOptions, composeSheet } from './compose-sheet.ts';
export { type DraftPlanOptions, draftPlan } from './draft-plan.ts';
export type { InkInput } from './find-ink.ts';
export type { PlanConflict, PlanNote } from './follow-marks.ts';
export {
  type LaidFlats,
  type LayFlatsOptions,
  type LayFlatsReport,
  layFlats,
  type Progress,
} from './lay-flats.ts';
export { type LaidRegions, listRegions, type Region, type RegionNeighbor } from './list-regions.ts';
export type {
  BridgeMark,
  CutMark,
  FillMark,
  JoinMark,
  LayingMark,
  Mark,
  NotedMark,
  OpenMark,
  Plan,
  PointMark,
  PolygonMark,
} from './plan.ts';
export {
  type RegionSheetOptions,
  regionSheet,
  type SheetBridge,
  type SheetRegions,
} from './region-sheet.ts';
