/** 2³² over the golden ratio, the multiplier of Fibonacci hashing (Knuth, TAOCP 3, section 6.4). */
export const GOLDEN = 0x9e3779b1;
/** The two multipliers of the finalizer of MurmurHash3 (A. Appleby, public domain). */
export const MURMUR = 0x85ebca6b;
export const MURMUR_TOO = 0xc2b2ae35;

/**
 * A number of 32 bits that depends on all bits of another one: equal for equal numbers, as good as
 * drawn at random for different ones. The finalizer of MurmurHash3.
 */
export function scatter(value: number): number {
  let bits = value | 0;
  bits = Math.imul(bits ^ (bits >>> 16), MURMUR);
  bits = Math.imul(bits ^ (bits >>> 13), MURMUR_TOO);
  return (bits ^ (bits >>> 16)) >>> 0;
}

/** A number of 32 bits for a pixel. */
export function scatterPlace(x: number, y: number): number {
  return scatter(scatter(x + 1) ^ Math.imul(y + 1, GOLDEN));
}
