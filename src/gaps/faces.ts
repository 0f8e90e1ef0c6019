import { findRoot, singleSets } from '../runs/union.ts';
import type { BridgePixels } from './bridge-pixels.ts';
import { type FaceMap, faceAt } from './face-map.ts';

/**
 * The 4-connected regions of paper, whichever bridges are drawn.
 *
 * Faces of a map, into which ink and all bridges at once cut the paper, and the single pixels of
 * bridges are the nodes of a union-find. A bridge that opens joins its pixels to what lies beside
 * them, so the sets are at any time the regions that a labeling of the sealed mask would give,
 * without another look at the picture. Bridges start drawn and can only be opened.
 *
 * O(faces + bridge pixels) to build; about 30 bytes per bridge pixel.
 */
export class Faces {
  private readonly map: FaceMap;
  private readonly count: number;
  private readonly net: BridgePixels;
  /** Bridges drawn over each bridge pixel. */
  private readonly over: Uint16Array;
  private readonly parent: Int32Array;
  private readonly areas: Float64Array;
  /** Group of points that must stay apart from other groups, by root; 0 is none. */
  private readonly groups: Int32Array;
  private readonly nodes: readonly Int32Array[];

  /** Map and pixels are of these bridges, whose nodes are those of `nodesOf`. */
  constructor(map: FaceMap, net: BridgePixels, nodes: readonly Int32Array[]) {
    const { count } = map;
    this.map = map;
    this.net = net;
    this.count = count;
    const size = count + 1 + net.count;
    this.parent = singleSets(size);
    this.areas = new Float64Array(size).fill(1);
    this.areas.set(map.area);
    this.groups = new Int32Array(size);
    this.over = new Uint16Array(net.count);
    this.nodes = nodes;
    for (const own of nodes) for (const node of own) this.over[node - count - 1]!++;
  }

  /** The nodes of bridges, given by their pixels. O(bridge pixels). */
  static nodesOf(
    { count }: FaceMap,
    net: BridgePixels,
    bridges: readonly Int32Array[],
  ): Int32Array[] {
    return bridges.map((pixels) => pixels.map((p) => count + 1 + net.numberOf(p)));
  }

  /** Node of a pixel: its face, itself when it belongs to a bridge, 0 on ink. */
  nodeAt(x: number, y: number): number {
    const number = this.net.numberOf(y * this.map.parts.width + x);
    return number < 0 ? faceAt(this.map, x, y) : this.count + 1 + number;
  }

  /** A face beside the pixel of a bridge; the node itself where it is a face, 0 for none. */
  faceBeside(node: number): number {
    if (node <= this.count) return node;
    for (let k = 0; k < 4; k++) {
      const side = this.sideOf(node - this.count - 1, k);
      if (side !== 0 && side <= this.count) return side;
    }
    return 0;
  }

  root(node: number): number {
    return findRoot(this.parent, node);
  }

  /** Pixels of a region. */
  area(root: number): number {
    return this.areas[root]!;
  }

  /** Pixels of the regions of less than `limit` pixels beside drawn bridges. O(faces) beside them. */
  slivers(drawn: readonly number[], limit: number): number[] {
    const { runs, numbers, idOf, width, first, area } = this.map.parts;
    const small = new Set<number>();
    for (const bridge of drawn) {
      for (const root of this.beside(bridge)) if (this.areas[root]! < limit) small.add(root);
    }
    const pixels: number[] = [];
    if (small.size === 0) return pixels;
    for (let face = 1; face <= this.count; face++) {
      if (!small.has(this.root(face))) continue;
      let left = area[face]!;
      for (let y = Math.floor(first[face]! / width); left > 0; y++) {
        for (let r = runs.from[y]!; r < runs.to[y]!; r++) {
          if (idOf[numbers[r]!] !== face) continue;
          for (let x = runs.start[r]!; x < runs.end[r]!; x++) pixels.push(y * width + x);
          left -= runs.end[r]! - runs.start[r]!;
        }
      }
    }
    this.net.places.forEach((p, i) => {
      if (small.has(this.root(this.count + 1 + i))) pixels.push(p);
    });
    return pixels;
  }

  /** Marks the region of a node as one of a group; a region keeps its first group. */
  setGroup(node: number, group: number): void {
    const root = this.root(node);
    if (this.groups[root] === 0) this.groups[root] = group;
  }

  /** Roots of the regions beside a bridge that is drawn, each once. */
  beside(bridge: number): number[] {
    const roots: number[] = [];
    for (const node of this.nodes[bridge]!) {
      for (let k = 0; k < 4; k++) {
        const side = this.sideOf(node - this.count - 1, k);
        if (!this.isOpen(side)) continue;
        const root = this.root(side);
        if (!roots.includes(root)) roots.push(root);
      }
    }
    return roots;
  }

  /** Groups of the regions beside a bridge that is drawn, each once. */
  groupsBeside(bridge: number): number[] {
    const groups = this.beside(bridge).map((root) => this.groups[root]!);
    return groups.filter((group, i) => group !== 0 && groups.indexOf(group) === i);
  }

  /** Whether opening the bridge would make one region of two. */
  separates(bridge: number): boolean {
    return this.meets(bridge, (root) => root, false);
  }

  /** Whether opening the bridge would bring two groups together. */
  keepsApart(bridge: number): boolean {
    return this.meets(bridge, (root) => this.groups[root]!, true);
  }

  /**
   * Whether two different marks, 0 for none, lie beside a stretch of the bridge: pixels that are
   * neighbors, with no ink between, and that no other bridge keeps closed. With `own`, marks of the
   * pixels themselves count too.
   */
  private meets(bridge: number, markOf: (root: number) => number, own: boolean): boolean {
    let mark = 0;
    let previous = 0;
    for (const node of this.nodes[bridge]!) {
      const i = node - this.count - 1;
      if (previous === 0 || !this.areNeighbors(previous, i)) mark = 0;
      previous = node;
      if (this.over[i]! > 1) {
        previous = 0;
        continue;
      }
      for (let k = own ? -1 : 0; k < 4; k++) {
        const side = k < 0 ? node : this.sideOf(i, k);
        const other = k < 0 || this.isOpen(side) ? markOf(this.root(side)) : 0;
        if (other !== 0 && mark !== 0 && other !== mark) return true;
        mark ||= other;
      }
    }
    return false;
  }

  /** Whether a node lies at one of the four sides of a bridge pixel. */
  private areNeighbors(node: number, i: number): boolean {
    for (let k = 0; k < 4; k++) if (this.sideOf(i, k) === node) return true;
    return false;
  }

  open(bridge: number): void {
    const { over, count } = this;
    for (const node of this.nodes[bridge]!) {
      const i = node - count - 1;
      if (--over[i]! > 0) continue;
      for (let k = 0; k < 4; k++) {
        const side = this.sideOf(i, k);
        if (this.isOpen(side)) this.join(node, side);
      }
    }
  }

  /** Node at a side of a bridge's pixel; 0 is ink. */
  private sideOf(pixel: number, k: number): number {
    const side = this.net.sides[4 * pixel + k]!;
    return side < 0 ? this.count - side : side;
  }

  private isOpen(node: number): boolean {
    return node !== 0 && (node <= this.count || this.over[node - this.count - 1] === 0);
  }

  private join(a: number, b: number): void {
    const { parent, areas, groups } = this;
    const rootA = this.root(a);
    const rootB = this.root(b);
    if (rootA === rootB) return;
    const [keep, drop] = rootA < rootB ? [rootA, rootB] : [rootB, rootA];
    parent[drop] = keep;
    areas[keep]! += areas[drop]!;
    if (groups[keep] === 0) groups[keep] = groups[drop]!;
  }
}
