/** Neighbors of each node in one list: those of node i are `items[offsets[i]]` to `offsets[i + 1]`. */
export interface Neighbors {
  readonly offsets: Int32Array;
  readonly items: Int32Array;
}

/**
 * The chosen nodes in smallest-last order, turned round: colored in this order, each meets at its
 * turn as few colored neighbors as can be; where the adjacency is planar, five at most.
 *
 * Nodes are taken away one by one, always one of the smallest degree in what is left (D. W. Matula,
 * L. L. Beck 1983, Smallest-last ordering and clustering and graph coloring algorithms,
 * doi:10.1145/2402.322385); nodes of one degree wait in a linked list. O(nodes + adjacency).
 *
 * @param chosen - 1 for each node that is to be ordered; the others count for nothing.
 */
export function smallestLast({ offsets, items }: Neighbors, chosen: Uint8Array): Int32Array {
  const waits = chosen.slice();
  const degree = degrees({ offsets, items }, chosen);
  const next = new Int32Array(chosen.length).fill(-1);
  const previous = new Int32Array(chosen.length).fill(-1);
  const head = new Int32Array(1 + degree.reduce((a, b) => Math.max(a, b), 0)).fill(-1);
  const insert = (node: number): void => {
    const first = head[degree[node]!]!;
    next[node] = first;
    previous[node] = -1;
    if (first >= 0) previous[first] = node;
    head[degree[node]!] = node;
  };
  const remove = (node: number): void => {
    if (previous[node]! >= 0) next[previous[node]!] = next[node]!;
    else head[degree[node]!] = next[node]!;
    if (next[node]! >= 0) previous[next[node]!] = previous[node]!;
  };
  let left = 0;
  for (let node = 0; node < chosen.length; node++) {
    if (chosen[node] === 0) continue;
    insert(node);
    left++;
  }
  const order = new Int32Array(left);
  for (let lowest = 0; left > 0; lowest = Math.max(0, lowest - 1)) {
    while (head[lowest]! < 0) lowest++;
    const node = head[lowest]!;
    remove(node);
    waits[node] = 0;
    order[--left] = node;
    for (let e = offsets[node]!; e < offsets[node + 1]!; e++) {
      const other = items[e]!;
      if (waits[other] === 0) continue;
      remove(other);
      degree[other]! -= 1;
      insert(other);
    }
  }
  return order;
}

function degrees({ offsets, items }: Neighbors, chosen: Uint8Array): Int32Array {
  const degree = new Int32Array(chosen.length);
  for (let node = 0; node < chosen.length; node++) {
    if (chosen[node] === 0) continue;
    for (let e = offsets[node]!; e < offsets[node + 1]!; e++) degree[node]! += chosen[items[e]!]!;
  }
  return degree;
}
