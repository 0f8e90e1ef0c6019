// Seeded numbers: the same text always gives the same ones.
import { createHash } from 'node:crypto';

/** Numbers in [0, 1) from a text: xorshift32 (Marsaglia 2003) over the start of its SHA-256. */
export function seeded(text) {
  let state = createHash('sha256').update(text).digest().readInt32LE(0) || 1;
  return () => {
    state ^= state << 13;
    state ^= state >>> 17;
    state ^= state << 5;
    return (state >>> 0) / 2 ** 32;
  };
}

/** A number between two others. */
export function between(random, low, high) {
  return low + (high - low) * random();
}

/** One of a list. */
export function pick(random, list) {
  return list[Math.floor(random() * list.length)];
}

/** Smooth noise in [-1, 1] over the plane, one value per lattice cell of side 1. */
export function smoothNoise(random) {
  const values = Float64Array.from({ length: 4096 }, () => 2 * random() - 1);
  const at = (x, y) => values[(Math.imul(x, 73) + Math.imul(y, 1151)) & 4095];
  return (x, y) => {
    const [i, j] = [Math.floor(x), Math.floor(y)];
    const [s, t] = [ease(x - i), ease(y - j)];
    const top = at(i, j) + s * (at(i + 1, j) - at(i, j));
    const low = at(i, j + 1) + s * (at(i + 1, j + 1) - at(i, j + 1));
    return top + t * (low - top);
  };
}

function ease(t) {
  return t * t * (3 - 2 * t);
}
