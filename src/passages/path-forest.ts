import { singleSets } from '../runs/union.ts';

/**
 * A forest that grows edge by edge and tells which edge of the path between two nodes came last.
 *
 * Sets are joined by size and their paths left as they are: going up, links are ever younger, and
 * the youngest on the way between two nodes is the edge by which they came together. O(log nodes)
 * per call; 12 bytes per node.
 */
export class PathForest {
  private readonly parent: Int32Array;
  private readonly size: Int32Array;
  /** Number of the edge that hung this node under its parent; past all edges for a root. */
  private readonly link: Int32Array;

  constructor(nodes: number) {
    this.parent = singleSets(nodes);
    this.size = new Int32Array(nodes).fill(1);
    this.link = new Int32Array(nodes).fill(ROOT);
  }

  /** Joins two sets by edge number `edge`, higher than all before; false where they are one. */
  join(a: number, b: number, edge: number): boolean {
    const { parent, size, link } = this;
    const rootA = this.root(a);
    const rootB = this.root(b);
    if (rootA === rootB) return false;
    const [upper, lower] = size[rootA]! >= size[rootB]! ? [rootA, rootB] : [rootB, rootA];
    parent[lower] = upper;
    link[lower] = edge;
    size[upper]! += size[lower]!;
    return true;
  }

  /** The last edge on the path between two nodes; -1 where they are one, or not joined. */
  lastBetween(a: number, b: number): number {
    const { parent, link } = this;
    let last = -1;
    let u = a;
    let v = b;
    while (u !== v) {
      if (link[u]! > link[v]!) [u, v] = [v, u];
      last = link[u]!;
      if (last === ROOT) return -1;
      u = parent[u]!;
    }
    return last;
  }

  private root(node: number): number {
    let at = node;
    while (this.parent[at] !== at) at = this.parent[at]!;
    return at;
  }
}

const ROOT = 0x7fffffff;
