/**
 * Where the rows of several states lie, longer lists in place of these where they are full. What is
 * before `used` is never changed, but for the marks.
 */
export interface RunStore {
  start: Int32Array;
  end: Int32Array;
  numbers: Int32Array;
  /** By run who came by last. */
  marks: Int32Array;
  /** The highest mark. */
  stamp: number;
  used: number;
}

/** Makes room for some more runs. */
export function reserveRuns(store: RunStore, runs: number): void {
  const { used } = store;
  if (used + runs <= store.marks.length) return;
  const length = Math.ceil(1.5 * (used + runs)) + 1024;
  for (const key of ['start', 'end', 'numbers', 'marks'] as const) {
    const longer = new Int32Array(length);
    longer.set(store[key].subarray(0, used));
    store[key] = longer;
  }
}
