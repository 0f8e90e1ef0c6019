import { wrongKind, wrongValue } from '../raster/errors.ts';
import { angleOf, cosine, expMinus, sine } from './elementary.ts';
import { type Lab, labOf } from './lab.ts';

const POW25_7 = 6_103_515_625; // 25⁷

/** The formula jumps at opposite hues; those that are opposite but for rounding are not past it. */
const OPPOSITE = 180 + 1e-9;

/**
 * How far two colors look apart: CIEDE2000, all weights 1. Below 1 hardly anyone sees it, below 2
 * two flats are easily taken for one.
 *
 * @param a - `#rrggbb` (sRGB), or `[L, a, b]` in CIELAB under D65.
 * @param b - Likewise.
 * @returns ΔE00, symmetric, 0 for equal colors. O(1); the same to the bit in every engine.
 * @throws TypeError or RangeError for what is no color.
 * @see G. Sharma, W. Wu, E. N. Dalal 2005, The CIEDE2000 color-difference formula: implementation
 *   notes, supplementary test data, and mathematical observations, doi:10.1002/col.20070
 * @example
 * ```ts
 * import { colorDifference } from 'underink';
 * console.log(colorDifference('#c86400', '#c86402').toFixed(2)); // 0.16
 * console.log(colorDifference([50, 2.5, 0], [73, 25, -18]).toFixed(4)); // 27.1492
 * ```
 */
export function colorDifference(a: string | Lab, b: string | Lab): number {
  return ciede2000(labArgument(a, 'a'), labArgument(b, 'b'));
}

function labArgument(value: string | Lab, name: string): Lab {
  if (typeof value === 'string') return labOf(value, name);
  const allowed = "a color '#rrggbb' or [L, a, b]";
  const isTriple = Array.isArray(value) && value.length === 3;
  if (!isTriple || value.some((v) => typeof v !== 'number')) throw wrongKind(name, allowed, value);
  if (!value.every(Number.isFinite)) throw wrongValue(name, `${allowed} of finite numbers`, value);
  return value;
}

/** The formula in the steps and names of Sharma, Wu and Dalal (2005); angles in degrees. */
export function ciede2000([L1, a1, b1]: Lab, [L2, a2, b2]: Lab): number {
  const C = (Math.sqrt(a1 * a1 + b1 * b1) + Math.sqrt(a2 * a2 + b2 * b2)) / 2;
  const G = 0.5 * (1 - chromaWeight(C));
  const A1 = (1 + G) * a1;
  const A2 = (1 + G) * a2;
  const C1 = Math.sqrt(A1 * A1 + b1 * b1);
  const C2 = Math.sqrt(A2 * A2 + b2 * b2);
  const h1 = angleOf(b1, A1);
  const h2 = angleOf(b2, A2);

  const gray = C1 * C2 === 0;
  let turn = gray ? 0 : h2 - h1;
  if (turn > OPPOSITE) turn -= 360;
  else if (turn < -OPPOSITE) turn += 360;
  const dL = L2 - L1;
  const dC = C2 - C1;
  const dH = 2 * Math.sqrt(C1 * C2) * sine(turn / 2);

  const L = (L1 + L2) / 2 - 50;
  const Cm = (C1 + C2) / 2;
  let h = h1 + h2;
  if (!gray) h = (Math.abs(h1 - h2) <= OPPOSITE ? h : h < 360 ? h + 360 : h - 360) / 2;
  const T =
    1 -
    0.17 * cosine(h - 30) +
    0.24 * cosine(2 * h) +
    0.32 * cosine(3 * h + 6) -
    0.2 * cosine(4 * h - 63);
  const bump = (h - 275) / 25;
  const RT = -sine(60 * expMinus(bump * bump)) * 2 * chromaWeight(Cm);
  const l = dL / (1 + (0.015 * L * L) / Math.sqrt(20 + L * L));
  const c = dC / (1 + 0.045 * Cm);
  const H = dH / (1 + 0.015 * Cm * T);
  return Math.sqrt(l * l + c * c + H * H + RT * c * H);
}

/** √(C⁷ / (C⁷ + 25⁷)): 0 near gray, 1 for strong colors. */
export function chromaWeight(C: number): number {
  const pow7 = C * C * C * C * C * C * C;
  return Math.sqrt(pow7 / (pow7 + POW25_7));
}
