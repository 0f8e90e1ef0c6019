// Numbers that only look random, the same for the same seed.

/** Numbers below a bound from xorshift32 (Marsaglia 2003). */
export function numbers(seed) {
  let state = Math.imul(seed + 1, 0x9e3779b1) | 0 || 1;
  return (bound) => {
    state ^= state << 13;
    state ^= state >>> 17;
    state ^= state << 5;
    return Math.floor(((state >>> 0) / 2 ** 32) * bound);
  };
}

/** One of a list. */
export const pick = (list, random) => list[random(list.length)];
