/**
 * A sum of decision trees that gives log-odds, as text. Nodes lie in depth-first order, a tree behind
 * the other; the branch to take where the value is at most the limit comes right behind its node.
 */
export interface PackedTrees {
  readonly base: number;
  /** Names of the columns that nodes ask for. */
  readonly columns: readonly string[];
  /** A digit per node: the place of its column in `columns`, 63 for a leaf. */
  readonly node: string;
  /**
   * Four digits per node, the first the highest: limit, or of a leaf its value, as 18 bits of a
   * whole number, 5 of its decimal exponent plus 16, and a bit that is 1 for a negative one.
   */
  readonly limit: string;
}

/** The same, to walk: the node to go to where the value is more is `no`; leaves have column −1. */
export interface Trees {
  readonly base: number;
  readonly roots: Int32Array;
  readonly column: Int8Array;
  readonly limit: Float64Array;
  readonly no: Int32Array;
}

/** The digits of packed trees, lowest first (those of base64, RFC 4648). */
const DIGITS = 'ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/';
const LEAF = 63;

/** Trees for rows whose columns have these names, in this order. O(nodes). */
export function unpackTrees(packed: PackedTrees, names: readonly string[]): Trees {
  const places = packed.columns.map((name) => {
    const place = names.indexOf(name);
    if (place < 0) throw new Error(`the trees ask for a column ${name} that rows do not have`);
    return place;
  });
  const { node: nodes, limit: limits, base } = packed;
  const column = new Int8Array(nodes.length);
  const limit = new Float64Array(nodes.length);
  const no = new Int32Array(nodes.length);
  const roots: number[] = [];
  /** Nodes whose other branch has not begun. */
  const open: number[] = [];
  let begins = true;
  for (let n = 0; n < nodes.length; n++) {
    if (begins) roots.push(n);
    begins = false;
    const digit = DIGITS.indexOf(nodes[n]!);
    column[n] = digit === LEAF ? -1 : places[digit]!;
    limit[n] = numberAt(limits, 4 * n);
    if (digit !== LEAF) {
      open.push(n);
      continue;
    }
    const parent = open.pop();
    if (parent === undefined) begins = true;
    else no[parent] = n + 1;
  }
  return { base, roots: Int32Array.from(roots), column, limit, no };
}

function numberAt(text: string, at: number): number {
  let bits = 0;
  for (let k = 0; k < 4; k++) bits = 64 * bits + DIGITS.indexOf(text[at + k]!);
  const whole = bits & 0x3ffff;
  const exponent = ((bits >> 18) & 31) - 16;
  const size = exponent < 0 ? whole / 10 ** -exponent : whole * 10 ** exponent;
  return bits >> 23 === 1 ? -size : size;
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
