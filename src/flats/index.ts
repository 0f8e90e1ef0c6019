export { type AppliedPlan, type ApplyPlanOptions, applyPlan } from './apply-plan.ts';
export type { PlanConflict, PlanReport } from './assign.ts';
export { type ComposeSheetOptions, composeSheet } from './compose-sheet.ts';
export {
  type InkInput,
  type LaidFlats,
  type LayFlatsOptions,
  type LayFlatsReport,
  layFlats,
  type Progress,
} from './lay-flats.ts';
export type { Mark, OutsideMark, Plan } from './plan.ts';
