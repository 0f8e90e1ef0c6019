/*
 * Roots, angles and powers by + − × ÷ and Math.sqrt alone: those are exact to the last bit in every
 * engine, while Math.cbrt, pow, exp, sin, cos and atan2 are not, and a color difference must decide
 * the same everywhere. Absolute error of each is below 1e-13 (degrees: 1e-12).
 */

const DEGREE = Math.PI / 180;

/** Cube root of x >= 0. */
export function cubeRoot(x: number): number {
  return root(x, 3, 8);
}

/** Fifth root of x >= 0. */
export function fifthRoot(x: number): number {
  return root(x, 5, 32);
}

/**
 * Newton's iteration from above, where it falls without a break until it has converged; powers of
 * two are taken out first, which is exact and leaves x in [1 / power, 1), where `power` is 2ⁿ.
 */
function root(x: number, n: number, power: number): number {
  if (x === 0) return 0;
  let scale = 1;
  let rest = x;
  for (; rest >= 1; rest /= power) scale *= 2;
  for (; rest * power < 1; rest *= power) scale /= 2;
  let guess = 1;
  for (;;) {
    let down = rest;
    for (let i = 1; i < n; i++) down /= guess;
    const next = ((n - 1) * guess + down) / n;
    if (next >= guess) return guess * scale;
    guess = next;
  }
}

/** Direction of (x, y) in degrees, 0 to 360; 0 for the origin. */
export function angleOf(y: number, x: number): number {
  if (x === 0 && y === 0) return 0;
  const ax = Math.abs(x);
  const ay = Math.abs(y);
  const acute = ay > ax ? 90 - arctangent(ax / ay) : arctangent(ay / ax);
  const upper = x < 0 ? 180 - acute : acute;
  return y < 0 ? 360 - upper : upper;
}

/** Degrees of 0 <= t <= 1: halved three times, atan t = 2 atan(t / (1 + √(1 + t²))), then the series. */
function arctangent(t: number): number {
  let u = t;
  for (let halving = 0; halving < 3; halving++) u /= 1 + Math.sqrt(1 + u * u);
  const s = u * u;
  let sum = 0;
  for (let k = 17; k >= 1; k -= 2) sum = 1 / k - s * sum;
  return (8 * u * sum) / DEGREE;
}

/** Cosine of an angle in degrees. */
export function cosine(degrees: number): number {
  const turn = Math.abs(degrees - 360 * Math.floor(degrees / 360 + 0.5));
  return turn > 90 ? -acuteCosine(180 - turn) : acuteCosine(turn);
}

/** Sine of an angle in degrees; odd to the last bit. */
export function sine(degrees: number): number {
  return degrees < 0 ? -cosine(90 + degrees) : cosine(90 - degrees);
}

/** 0 to 90 degrees; above 45 as the sine of the rest, so that the argument stays below π/4. */
function acuteCosine(degrees: number): number {
  const odd = degrees > 45 ? 1 : 0;
  const t = (odd === 1 ? 90 - degrees : degrees) * DEGREE;
  let sum = 1;
  for (let k = 16 + odd; k >= 2; k -= 2) sum = 1 - (sum * t * t) / (k * (k - 1));
  return odd === 1 ? t * sum : sum;
}

/** e to the power of −x for x >= 0: the series at x / 2ⁿ <= 1/8, squared n times. */
export function expMinus(x: number): number {
  let t = x;
  let squarings = 0;
  for (; t > 0.125; t /= 2) squarings++;
  let sum = 1;
  for (let k = 12; k >= 1; k--) sum = 1 - (sum * t) / k;
  for (; squarings > 0; squarings--) sum *= sum;
  return sum;
}
