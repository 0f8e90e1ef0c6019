export { checkFlats } from './check-flats.ts';
export { checkSheets, type NamedSheet, type SheetFinding } from './check-sheets.ts';
export { type Check, defineCheck, type Finding } from './finding.ts';
export type {
  CheckException,
  CheckFlatsOptions,
  CheckName,
  CheckSettings,
} from './run-checks.ts';
export type { Sheet } from './sheet.ts';
