/**
 * A row of labels as runs: the start and the label of each, from left to right. A run ends where the
 * next starts, the last one at the picture's width. Neighbors of one label are one run. Rows are never
 * changed, so several may share one.
 *
 * ```text
 * 4 4 4 9 9 0      →      0 4 3 9 5 0
 * ```
 */
export type LabelRow = Int32Array;

/** The row of labels `[from, from + width)`. */
export function rowOf(labels: Int32Array, from: number, width: number): LabelRow {
  let count = 1;
  for (let x = 1; x < width; x++) if (labels[from + x] !== labels[from + x - 1]) count++;
  const row = new Int32Array(2 * count);
  for (let x = 0, n = 0; x < width; ) {
    const label = labels[from + x]!;
    row[n++] = x;
    row[n++] = label;
    while (++x < width && labels[from + x] === label);
  }
  return row;
}

/** Whether two rows hold the same labels. */
export function isEqualRow(a: LabelRow, b: LabelRow): boolean {
  return a.length === b.length && a.every((value, k) => value === b[k]);
}

/** Place in a row of the run that holds column x. O(log runs). */
export function placeIn(row: LabelRow, x: number): number {
  let low = 0;
  let high = (row.length >> 1) - 1;
  while (low < high) {
    const middle = (low + high + 1) >> 1;
    if (row[2 * middle]! <= x) low = middle;
    else high = middle - 1;
  }
  return 2 * low;
}

/** The row with some spans of it given other labels: `[x0, x1, label]` each, from left to right. */
export function withSpans(row: LabelRow, width: number, spans: readonly number[]): LabelRow {
  const changed = new Int32Array(row.length + 2 * spans.length);
  let length = 0;
  const put = (start: number, label: number): void => {
    if (length > 0 && changed[length - 1] === label) return;
    changed[length++] = start;
    changed[length++] = label;
  };
  let k = 0;
  const keep = (from: number, to: number): void => {
    if (from >= to) return;
    while (k + 2 < row.length && row[k + 2]! <= from) k += 2;
    put(from, row[k + 1]!);
    for (; k + 2 < row.length && row[k + 2]! < to; k += 2) put(row[k + 2]!, row[k + 3]!);
  };
  let x = 0;
  for (let s = 0; s < spans.length; s += 3) {
    keep(x, spans[s]!);
    put(spans[s]!, spans[s + 2]!);
    x = spans[s + 1]!;
  }
  keep(x, width);
  return changed.slice(0, length);
}
