/**
 * How a cell starts that spreadsheets run as a formula, full-width forms too (OWASP, CSV Injection), or one
 * that starts as a guarded cell does.
 */
const RUN = /^['\s]*[=+\-@\t\r\n＝＋－＠]/;

/** A cell that no spreadsheet runs: with a `'` in front where it would. */
export function guardCell(cell: string): string {
  return RUN.test(cell) ? `'${cell}` : cell;
}

/** The cell that was guarded. */
export function unguardCell(cell: string): string {
  return cell.startsWith("'") && RUN.test(cell) ? cell.slice(1) : cell;
}
