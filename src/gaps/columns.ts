/** Place of each column in a row, by its name: rows are written by name, in the order of a list. */
export function placesOf<N extends string>(names: readonly N[]): Readonly<Record<N, number>> {
  return Object.fromEntries(names.map((name, i) => [name, i])) as Record<N, number>;
}
