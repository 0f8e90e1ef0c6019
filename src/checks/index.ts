export {
  type CheckException,
  type CheckFlatsOptions,
  type CheckName,
  checkFlats,
} from './check-flats.ts';
export { checkSheets, type NamedSheet, type SheetFinding } from './check-sheets.ts';
export { type Check, defineCheck, type Finding } from './finding.ts';
export type { Sheet } from './sheet.ts';
