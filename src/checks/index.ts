export type { CheckName } from './built-in/table.ts';
export { checkFlats } from './check-flats.ts';
export {
  type CheckSheetsOptions,
  checkSheets,
  type NamedSheet,
  type SheetException,
  type SheetFinding,
} from './check-sheets.ts';
export type { CheckSettings } from './choose-checks.ts';
export type { CheckContext } from './context.ts';
export {
  type CheckNeed,
  type DefineCheckOptions,
  defineCheck,
  type FlatsCheck,
  type FoundPlace,
} from './define-check.ts';
export { type Finding, type FindingSeverity, findingMask } from './finding.ts';
export type {
  LaidReport,
  ReportedBridge,
  ReportedConflict,
  ReportedNote,
  ReportedRegion,
} from './laid-report.ts';
export { type DrawFindingsOptions, drawFindings } from './reports/draw-findings.ts';
export { type FindingsToHtmlOptions, findingsToHtml } from './reports/findings-to-html.ts';
export { type FindingsToTextOptions, findingsToText } from './reports/findings-to-text.ts';
export type { ReportedFinding } from './reports/words.ts';
export { areaBetween, mustTouch, neverTouches, staysWithin } from './rules.ts';
export type { CheckFlatsOptions, CheckProgress } from './run-checks.ts';
export { type FindingSummary, summarizeFindings } from './summary.ts';
