/**
 * Whole numbers by a key, the least key first, equal keys by the lower number: a priority queue (binary
 * heap, J. W. J. Williams 1964, "Algorithm 232: Heapsort"). A number may be in it with several keys;
 * whoever changes a key pushes anew and passes over the old entry. O(log size) a push or pop.
 */
export class KeyHeap {
  size = 0;
  private keys = new Float64Array(64);
  private ids = new Int32Array(64);

  /** Key of the entry that `pop` takes next; only where there is one. */
  get leastKey(): number {
    return this.keys[0]!;
  }

  push(key: number, id: number): void {
    if (this.size === this.ids.length) this.enlarge();
    const { keys, ids } = this;
    let k = this.size++;
    while (k > 0) {
      const up = (k - 1) >> 1;
      if (!isBefore(key, id, keys[up]!, ids[up]!)) break;
      keys[k] = keys[up]!;
      ids[k] = ids[up]!;
      k = up;
    }
    keys[k] = key;
    ids[k] = id;
  }

  /** Takes the number of the least key; -1 where there is none. */
  pop(): number {
    if (this.size === 0) return -1;
    const { keys, ids } = this;
    const first = ids[0]!;
    const size = --this.size;
    const key = keys[size]!;
    const id = ids[size]!;
    let k = 0;
    for (;;) {
      let down = 2 * k + 1;
      if (down >= size) break;
      if (down + 1 < size && isBefore(keys[down + 1]!, ids[down + 1]!, keys[down]!, ids[down]!)) {
        down++;
      }
      if (!isBefore(keys[down]!, ids[down]!, key, id)) break;
      keys[k] = keys[down]!;
      ids[k] = ids[down]!;
      k = down;
    }
    keys[k] = key;
    ids[k] = id;
    return first;
  }

  private enlarge(): void {
    const keys = new Float64Array(2 * this.size);
    const ids = new Int32Array(2 * this.size);
    keys.set(this.keys);
    ids.set(this.ids);
    this.keys = keys;
    this.ids = ids;
  }
}

function isBefore(key: number, id: number, otherKey: number, otherId: number): boolean {
  return key < otherKey || (key === otherKey && id < otherId);
}
