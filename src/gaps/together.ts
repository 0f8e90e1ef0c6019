import type { Faces } from './faces.ts';

/**
 * Opens drawn bridges until the given nodes share one region, or as far as bridges separate them;
 * gives the bridges opened. The first `asked` stay.
 *
 * Regions and drawn bridges make a graph. Its spanning forest with the worst bridges first
 * (candidates come best first; Kruskal 1956) holds the paths whose best bridge is worst. Cutting
 * off branches that lead to none of the nodes leaves what must open.
 */
export function openBetween(
  faces: Faces,
  decisions: readonly { readonly drawn: boolean }[],
  nodes: readonly number[],
  asked: number,
): number[] {
  const opened: number[] = [];
  for (;;) {
    const ends = new Set(nodes.map((node) => faces.root(node)));
    if (ends.size < 2) return opened;
    const drawn: number[] = [];
    for (let k = decisions.length - 1; k >= asked; k--) {
      if (decisions[k]!.drawn && !opened.includes(k)) drawn.push(k);
    }
    const between = prune(spanningForest(faces, drawn), ends);
    if (between.length === 0) return opened;
    for (const k of between) faces.open(k);
    opened.push(...between);
    // Where bridges cross, what an opened one joined may still be cut by the other: look again.
  }
}

/** Bridges of a forest, each with the regions that it joins there. */
type Forest = Map<number, number[]>;

function spanningForest(faces: Faces, drawn: readonly number[]): Forest {
  const parent = new Map<number, number>();
  const find = (region: number): number => {
    let at = region;
    for (let up = parent.get(at); up !== undefined; up = parent.get(at)) at = up;
    return at;
  };
  const forest: Forest = new Map();
  for (const k of drawn) {
    const joins: number[] = [];
    const seen = new Set<number>();
    for (const region of faces.beside(k)) {
      const tree = find(region);
      if (seen.has(tree)) continue;
      seen.add(tree);
      joins.push(region);
    }
    if (joins.length < 2) continue;
    const [first, ...others] = seen;
    for (const tree of others) parent.set(tree, first!);
    forest.set(k, joins);
  }
  return forest;
}

/** Bridges on the paths between the given regions. */
function prune(forest: Forest, ends: ReadonlySet<number>): number[] {
  const degree = new Map<number, number>();
  const count = (region: number, by: number) => degree.set(region, (degree.get(region) ?? 0) + by);
  for (const joins of forest.values()) for (const region of joins) count(region, 1);
  for (let changed = true; changed; ) {
    changed = false;
    for (const [k, joins] of forest) {
      const kept = joins.filter((region) => ends.has(region) || degree.get(region)! > 1);
      if (kept.length === joins.length) continue;
      changed = true;
      for (const region of joins) if (!kept.includes(region)) count(region, -1);
      if (kept.length > 1) forest.set(k, kept);
      else {
        for (const region of kept) count(region, -1);
        forest.delete(k);
      }
    }
  }
  return [...forest.keys()];
}
