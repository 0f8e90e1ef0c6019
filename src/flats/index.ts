export { type AppliedPlan, type ApplyPlanOptions, applyPlan } from './apply-plan.ts';
export type { PlanReport, UnnamedRegion } from './assign.ts';
export {
  type CarriedFlats,
  type CarryFlatsOptions,
  carryFlats,
} from './carry/carry-flats.ts';
export type { CarryOptions, CarryProgress, CarryStage } from './carry/carry-options.ts';
export { type CarriedPlan, carryPlan } from './carry/carry-plan.ts';
export type { CarriedRegion, ChangeKind } from './carry/changes.ts';
export { type DrawnChanges, drawChanges } from './carry/draw-changes.ts';
export type { CarryTransform } from './carry/find-transform.ts';
export type { AsideMark } from './carry/move-marks.ts';
export type { Similarity } from './carry/similarity.ts';
export {
  type ColorMeeting,
  compareReference,
  type ReferenceRegion,
} from './compare-reference.ts';
export { type ComposeSheetOptions, composeSheet } from './compose-sheet.ts';
export { type DraftPlanOptions, draftPlan } from './draft-plan.ts';
export type { InkInput } from './find-ink.ts';
export type { LayProgress } from './grow-regions.ts';
export { type LaidFlats, type LayFlatsOptions, layFlats } from './lay-flats.ts';
export type { LayFlatsReport } from './lay-report.ts';
export { type LaidRegions, listRegions, type Region, type RegionNeighbor } from './list-regions.ts';
export type { BridgeMark } from './marks/bridge.ts';
export type { CutMark } from './marks/cut.ts';
export type { FillMark } from './marks/fill.ts';
export type { JoinMark } from './marks/join.ts';
export type { LayingMark, NotedMark } from './marks/mark-type.ts';
export type { OpenMark } from './marks/open.ts';
export type { PointMark } from './marks/point.ts';
export type { PolygonMark } from './marks/polygon.ts';
export type { Mark } from './marks/table.ts';
export { type OutlinesToSvgOptions, outlinesToSvg } from './outlines-to-svg.ts';
export { type OpenPageOptions, openPage } from './page/open-page.ts';
export type {
  ComposeWithinOptions,
  Page,
  PageUpdate,
  PageUpdateOptions,
} from './page/page.ts';
export type { PageOut } from './page/page-out.ts';
export type { SavedPage } from './page/saved-page.ts';
export type { RegionMask } from './page/view-region.ts';
export type { Plan } from './plan.ts';
export type {
  BorderRegion,
  ClaimedRegion,
  OutsideMark,
  PlanConflict,
  PlanNote,
} from './plan-report.ts';
export {
  type RegionSheetOptions,
  regionSheet,
  type SheetBridge,
  type SheetRegions,
} from './region-sheet.ts';
export { scalePlan } from './scale-plan.ts';
export type { LaySettings, PlanSettings } from './settings.ts';
