/**
 * A sum of decision trees that gives log-odds. The nodes of all trees lie one behind the other:
 * `column` is the one that a node asks for, `limit` its threshold, `yes` and `no` the nodes to go to
 * where the value is at most that or more. A leaf has column -1, and its value in `limit`.
 */
export interface Trees {
  readonly base: number;
  readonly roots: readonly number[];
  readonly column: readonly number[];
  readonly limit: readonly number[];
  readonly no: readonly number[];
}

/** The log-odds of the row that begins at `at`. A node's `yes` is the node behind it. O(trees · depth). */
export function oddsOf(trees: Trees, rows: Float64Array, at: number): number {
  const { roots, column, limit, no } = trees;
  let sum = trees.base;
  for (let t = 0; t < roots.length; t++) {
    let node = roots[t]!;
    while (column[node]! >= 0) {
      node = rows[at + column[node]!]! <= limit[node]! ? node + 1 : no[node]!;
    }
    sum += limit[node]!;
  }
  return sum;
}
