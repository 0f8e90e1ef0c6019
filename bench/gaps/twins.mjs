// Drawings that look alike although their markup differs.
import { drawVector, UNITS } from './vector.mjs';

/** Pixels of the small pictures, on each side; stroke width in them. */
const SIDE = 96;
const PEN = (2 * SIDE) / UNITS;
/** Shared ink over joint ink from which two drawings are twins. */
const ALIKE = 0.9;

/** Pairs of places in a list of drawings whose small pictures have nearly the same ink. */
export function findTwins(drawings) {
  const pictures = drawings.map((drawing) => {
    const { ink } = drawVector(drawing, SIDE, PEN);
    const words = new Uint32Array(ink.length / 32);
    let area = 0;
    for (let i = 0; i < ink.length; i++) {
      words[i >> 5] |= ink[i] << (i & 31);
      area += ink[i];
    }
    return { words, area };
  });
  // By area, so that only drawings of nearly the same amount of ink are compared.
  const order = pictures.map((_, i) => i).sort((i, j) => pictures[i].area - pictures[j].area);
  const pairs = [];
  for (let p = 0; p < order.length; p++) {
    const one = pictures[order[p]];
    for (let q = p + 1; q < order.length; q++) {
      const other = pictures[order[q]];
      if (one.area < ALIKE * other.area) break;
      const shared = sharedInk(one.words, other.words);
      if (shared >= ALIKE * (one.area + other.area - shared)) pairs.push([order[p], order[q]]);
    }
  }
  return pairs;
}

function sharedInk(a, b) {
  let count = 0;
  for (let k = 0; k < a.length; k++) {
    let bits = a[k] & b[k];
    bits -= (bits >>> 1) & 0x55555555;
    bits = (bits & 0x33333333) + ((bits >>> 2) & 0x33333333);
    count += Math.imul((bits + (bits >>> 4)) & 0x0f0f0f0f, 0x01010101) >>> 24;
  }
  return count;
}
