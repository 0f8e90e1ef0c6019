/**
 * One more than the highest id: the length of a column by label. Ids far beyond the number of
 * pixels would make columns that hold nothing, so they are refused.
 */
export function columnLength(labels: Int32Array, name: string): number {
  let highest = 0;
  for (let i = 0; i < labels.length; i++) if (labels[i]! > highest) highest = labels[i]!;
  const most = Math.max(labels.length, 1 << 20);
  if (highest > most) {
    throw new RangeError(
      `${name} must hold ids up to ${most} for columns by label, got ${highest}; relabel(labels) renumbers them`,
    );
  }
  return highest + 1;
}
