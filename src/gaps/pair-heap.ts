/** Two regions that are neighbors. */
export interface Pair {
  a: number;
  b: number;
  /** Borders of the face map, by index. */
  borders: number[];
  /** Pixels of the first of them, see `RegionGraph`. */
  pixels: number;
  /** Sum of the odds of its gaps. */
  sum: number;
  /** Log-odds that it was decided by last. */
  odds: number;
  /** Changes of the pair; entries of the heap that are of an earlier state are stale. */
  state: number;
  alive: boolean;
}

/** A pair as it was when its key was found. */
interface Entry {
  readonly pair: Pair;
  readonly state: number;
  readonly key: number;
}

/** Pairs by their keys, the least first; ties by the regions. O(log entries) an entry. */
export class PairHeap {
  private readonly entries: Entry[] = [];

  push(entry: Entry): void {
    const { entries } = this;
    let k = entries.length;
    entries.push(entry);
    while (k > 0) {
      const up = (k - 1) >> 1;
      if (!before(entry, entries[up]!)) break;
      entries[k] = entries[up]!;
      k = up;
    }
    entries[k] = entry;
  }

  pop(): Entry | undefined {
    const { entries } = this;
    const top = entries[0];
    const last = entries.pop();
    if (top === undefined || last === undefined || entries.length === 0) return top;
    let k = 0;
    for (;;) {
      let down = 2 * k + 1;
      if (down >= entries.length) break;
      if (down + 1 < entries.length && before(entries[down + 1]!, entries[down]!)) down++;
      if (!before(entries[down]!, last)) break;
      entries[k] = entries[down]!;
      k = down;
    }
    entries[k] = last;
    return top;
  }
}

function before(p: Entry, q: Entry): boolean {
  if (p.key !== q.key) return p.key < q.key;
  return p.pair.a !== q.pair.a ? p.pair.a < q.pair.a : p.pair.b < q.pair.b;
}
