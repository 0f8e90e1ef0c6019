/**
 * Whether the point (x, y) lies on the edge's line or right of it: the sign of
 * (x − x0)(y1 − y0) − (y − y0)(x1 − x0), for y0 < y1, without any rounding.
 *
 * Where the four differences are exact in doubles, as they are for most coordinates that people or
 * programs write, the two products are compared by their rounded values and, if those agree, by
 * their rounding errors (Dekker 1971, DOI 10.1007/BF01397083). Otherwise whole numbers of any length
 * decide.
 */
export function isAtOrRight(
  x: number,
  y: number,
  x0: number,
  y0: number,
  x1: number,
  y1: number,
): boolean {
  const a = x - x0;
  const b = y1 - y0;
  const c = y - y0;
  const d = x1 - x0;
  const exact = isExact(a, x, x0) && isExact(b, y1, y0) && isExact(c, y, y0) && isExact(d, x1, x0);
  if (!exact || !isTame(a) || !isTame(b) || !isTame(c) || !isTame(d)) {
    return wholeSide(x, y, x0, y0, x1, y1);
  }
  const p = a * b;
  const q = c * d;
  // Rounding keeps order: where the rounded products differ, they tell the order of the exact ones.
  if (p !== q) return p > q;
  return productError(a, b, p) >= productError(c, d, q);
}

/** Whether `difference`, the rounded u − v, is u − v (the tail of Knuth's two-sum is 0). */
function isExact(difference: number, u: number, v: number): boolean {
  const back = u - difference;
  return difference + back - u === 0 && back - v === 0;
}

/** Whether products with such factors, and their errors, stay clear of under- and overflow. */
function isTame(factor: number): boolean {
  const size = Math.abs(factor);
  return size === 0 || (size > 2 ** -400 && size < 2 ** 400);
}

/** a·b − p, for p the rounded product. */
function productError(a: number, b: number, p: number): number {
  const splitA = 134_217_729 * a;
  const splitB = 134_217_729 * b;
  const highA = splitA - (splitA - a);
  const highB = splitB - (splitB - b);
  const lowA = a - highA;
  const lowB = b - highB;
  return lowA * lowB - (p - highA * highB - lowA * highB - highA * lowB);
}

function wholeSide(x: number, y: number, x0: number, y0: number, x1: number, y1: number): boolean {
  const shift = Math.max(...[x, y, x0, y0, x1, y1].map(fractionBits));
  const whole = (value: number): bigint => {
    const bits = fractionBits(value);
    return (
      BigInt(value * 2 ** Math.min(bits, 500) * 2 ** Math.max(0, bits - 500)) <<
      BigInt(shift - bits)
    );
  };
  const [wx, wy, wx0, wy0, wx1, wy1] = [x, y, x0, y0, x1, y1].map(whole) as [
    bigint,
    bigint,
    bigint,
    bigint,
    bigint,
    bigint,
  ];
  return (wx - wx0) * (wy1 - wy0) >= (wy - wy0) * (wx1 - wx0);
}

/** Binary places after the point that hold a value exactly. */
function fractionBits(value: number): number {
  let bits = 0;
  let scaled = value;
  // Doubling is exact; a double has at most 1,074 such places.
  while (!Number.isInteger(scaled)) {
    scaled *= 2;
    bits++;
  }
  return bits;
}
