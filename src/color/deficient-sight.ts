import { type Lab, labOfLinear, linearOf } from './lab.ts';

/**
 * Linear sRGB as people without the long-wave (protanopia) or the medium-wave cones (deuteranopia)
 * see it, row by row.
 *
 * Source: G. M. Machado, M. M. Oliveira, L. A. F. Fernandes 2009, A physiologically-based model for
 * simulation of color vision deficiency, doi:10.1109/TVCG.2009.113; the authors' tables for
 * severity 1.0, the weaker forms lying between these and normal sight.
 */
const PROTANOPIA: readonly number[] = [
  0.152286, 1.052583, -0.204868, 0.114503, 0.786281, 0.099216, -0.003882, -0.048116, 1.051998,
];
const DEUTERANOPIA: readonly number[] = [
  0.367322, 0.860646, -0.227968, 0.280085, 0.672501, 0.047413, -0.01182, 0.04294, 0.968881,
];

/** A color in normal sight, then in protanopia, then in deuteranopia; of three sRGB samples. */
export function labsInAllSight(red: number, green: number, blue: number): readonly Lab[] {
  const r = linearOf(red);
  const g = linearOf(green);
  const b = linearOf(blue);
  const seen = [PROTANOPIA, DEUTERANOPIA].map((matrix) =>
    labOfLinear(...seenThrough(matrix, r, g, b)),
  );
  return [labOfLinear(r, g, b), ...seen];
}

/** Linear light through a matrix; what leaves the gamut is brought to its border. */
function seenThrough(
  m: readonly number[],
  r: number,
  g: number,
  b: number,
): [number, number, number] {
  if (r === g && g === b) return [r, g, b]; // the rows sum to 1, grays stay but for rounding
  return [
    inGamut(m[0]! * r + m[1]! * g + m[2]! * b),
    inGamut(m[3]! * r + m[4]! * g + m[5]! * b),
    inGamut(m[6]! * r + m[7]! * g + m[8]! * b),
  ];
}

function inGamut(value: number): number {
  return Math.min(1, Math.max(0, value));
}
