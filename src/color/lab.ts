import { cubeRoot, fifthRoot } from './elementary.ts';
import { parseColor } from './hex.ts';

/** A color in CIELAB under D65: lightness 0 to 100, then green to red, then blue to yellow. */
export type Lab = readonly [L: number, a: number, b: number];

/*
 * Linear sRGB to XYZ, from the primaries (0.64, 0.33), (0.30, 0.60), (0.15, 0.06) and the white
 * (0.3127, 0.3290) of IEC 61966-2-1 in whole numbers: the rounded matrix of the standard leaves
 * white with a tint of 0.01.
 */
const WHITE_X = 3127 / 3290;
const WHITE_Z = 3583 / 3290;
const XR = 506752 / 1228815;
const XG = 87881 / 245763;
const XB = 12673 / 70218;
const YR = 87098 / 409605;
const YG = 175762 / 245763;
const YB = 12673 / 175545;
const ZR = 7918 / 409605;
const ZG = 87881 / 737289;
const ZB = 1001167 / 1053270;

/** Linear light, 0 to 1, of each 8 bit sample. */
export const LINEAR: Float64Array = /* @__PURE__ */ linearTable();

/** CIELAB of a color `#rrggbb`. */
export function labOf(color: string, name: string): Lab {
  const [r, g, b] = parseColor(color, name);
  return labOfRgb(r, g, b);
}

/** CIELAB under D65 of three sRGB samples, 0 to 255. */
export function labOfRgb(red: number, green: number, blue: number): Lab {
  return labOfLinear(linearOf(red), linearOf(green), linearOf(blue));
}

/** Linear light, 0 to 1, of an sRGB sample, 0 to 255 (IEC 61966-2-1:1999). */
export function linearOf(sample: number): number {
  return LINEAR[sample]!;
}

/**
 * CIELAB under D65 of linear light, 0 to 1 (CIE 15:2004; the two branches of `f` meet exactly at
 * 216/24389).
 */
export function labOfLinear(r: number, g: number, b: number): Lab {
  if (r === g && g === b) return [116 * f(r) - 16, 0, 0]; // no tint from rounding
  const [X, Y, Z] = xyzOfLinear(r, g, b);
  const x = f(X / WHITE_X);
  const y = f(Y);
  const z = f(Z / WHITE_Z);
  return [116 * y - 16, 500 * (x - y), 200 * (y - z)];
}

/** CIE XYZ of linear light, 0 to 1; Y of white is 1. */
export function xyzOfLinear(
  r: number,
  g: number,
  b: number,
): readonly [x: number, y: number, z: number] {
  return [XR * r + XG * g + XB * b, YR * r + YG * g + YB * b, ZR * r + ZG * g + ZB * b];
}

function f(t: number): number {
  return t > 216 / 24389 ? cubeRoot(t) : ((24389 / 27) * t + 16) / 116;
}

/** Linear light of each sample; t^2.4 = t² · ⁵√t². */
function linearTable(): Float64Array {
  return Float64Array.from({ length: 256 }, (_, sample) => {
    const s = sample / 255;
    if (s <= 0.04045) return s / 12.92;
    const t = (s + 0.055) / 1.055;
    return t * t * fifthRoot(t * t);
  });
}
