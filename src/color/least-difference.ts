import { chromaWeight } from './color-difference.ts';
import { cosine, sine } from './elementary.ts';
import type { Lab } from './lab.ts';

/** S_L at a mean lightness of 0 or 100, its greatest: 1 + 0.015 · 2500 / √2520 = 1.747. */
export const MOST_SL = 1.75;

/**
 * No more than CIEDE2000, and quick. |R_T| <= 2 sin 60°, so c² + H² + R_T c H is at least
 * (1 − sin 60°)(c² + H²) > 0.133 (c² + H²); unweighted, c and H are the distance of (a′, b), which
 * is no shorter than that of (a, b); and S_C, S_H <= 1 + 0.045 · 1.5 · mean chroma.
 */
export function leastDifference([L1, a1, b1]: Lab, [L2, a2, b2]: Lab): number {
  const chroma = Math.sqrt(a1 * a1 + b1 * b1) + Math.sqrt(a2 * a2 + b2 * b2);
  const weight = 1 + 0.03375 * chroma;
  const dL = (L1 - L2) / MOST_SL;
  const da = (a1 - a2) / weight;
  const db = (b1 - b2) / weight;
  return Math.sqrt(dL * dL + 0.133 * (da * da + db * db));
}

const COS_30 = /* @__PURE__ */ cosine(30);
const COS_6 = /* @__PURE__ */ cosine(6);
const SIN_6 = /* @__PURE__ */ sine(6);
const COS_63 = /* @__PURE__ */ cosine(63);
const SIN_63 = /* @__PURE__ */ sine(63);
const COS_275 = /* @__PURE__ */ cosine(275);
const SIN_275 = /* @__PURE__ */ sine(275);
/** T is below this whatever the hue: 1 and the sum of its amplitudes. */
const MOST_T = 1.93;
/** 2 sin 60°, and what is left of it 60° and more from the hue 275°: 2 sin(60° e^(−5.76)). */
const BLUE_TURN = 1.7321;
const OTHER_TURN = 0.0067;
/** Above the rounding of 2 (C₁′ C₂′ − (a₁′, b₁) · (a₂′, b₂)) for chromas up to 500. */
const ROUNDING = 1e-8;

/**
 * No more than CIEDE2000 but for 1e-9, and mostly all of it, without an angle.
 *
 * ΔH′² is 2 (C₁′ C₂′ − (a₁′, b₁) · (a₂′, b₂)); the mean hue is the direction of the sum of the two
 * unit vectors, and the cosines of T are polynomials of its coordinates. Only R_T, which takes an
 * exponential, is put at its greatest for the side of the hue circle that the pair is on. With
 * k = |R_T| the form c² + H² − k c H, over all H not below the one known, is least there or at
 * H = k c / 2.
 */
export function nearDifference([L1, a1, b1]: Lab, [L2, a2, b2]: Lab): number {
  const C = (Math.sqrt(a1 * a1 + b1 * b1) + Math.sqrt(a2 * a2 + b2 * b2)) / 2;
  const scale = 1.5 - 0.5 * chromaWeight(C);
  const A1 = scale * a1;
  const A2 = scale * a2;
  const C1 = Math.sqrt(A1 * A1 + b1 * b1);
  const C2 = Math.sqrt(A2 * A2 + b2 * b2);
  const Cm = (C1 + C2) / 2;
  let T = MOST_T;
  let turn = BLUE_TURN;
  const ux = A1 * C2 + A2 * C1;
  const uy = b1 * C2 + b2 * C1;
  const length = Math.sqrt(ux * ux + uy * uy);
  if (length > 1e-3 * C1 * C2) {
    const x = ux / length;
    const y = uy / length;
    T = hueWeight(x, y);
    if (COS_275 * x + SIN_275 * y < 0.5) turn = OTHER_TURN;
  }
  const k = turn * chromaWeight(Cm);
  const L = (L1 + L2) / 2 - 50;
  const l = (L1 - L2) / (1 + (0.015 * L * L) / Math.sqrt(20 + L * L));
  const c = Math.abs(C1 - C2) / (1 + 0.045 * Cm);
  const square = 2 * (C1 * C2 - A1 * A2 - b1 * b2) - ROUNDING;
  const H = square > 0 ? Math.sqrt(square) / (1 + 0.015 * Cm * T) : 0;
  const form = H >= (k * c) / 2 ? c * c + H * H - k * c * H : c * c * (1 - (k * k) / 4);
  return Math.sqrt(l * l + form);
}

/** T of the hue with cosine x and sine y. */
function hueWeight(x: number, y: number): number {
  const x2 = 2 * x * x - 1;
  const y2 = 2 * x * y;
  const x3 = 4 * x * x * x - 3 * x;
  const y3 = 3 * y - 4 * y * y * y;
  const x4 = 2 * x2 * x2 - 1;
  const y4 = 2 * x2 * y2;
  return (
    1 -
    0.17 * (COS_30 * x + 0.5 * y) +
    0.24 * x2 +
    0.32 * (COS_6 * x3 - SIN_6 * y3) -
    0.2 * (COS_63 * x4 + SIN_63 * y4)
  );
}
