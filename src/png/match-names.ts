import { ciede2000 } from '../color/color-difference.ts';
import { type Lab, labOf } from '../color/lab.ts';
import type { Flats, Swatch } from '../palette/types.ts';

/** How the names of a side file met the colors of a picture. */
export interface NamesReport {
  /** Names whose color some pixel has, in the order of the side file. */
  readonly matched: readonly string[];
  /** Swatches of the side file that no pixel has, `bare` aside: unused, recolored, or shadowed. */
  readonly missing: readonly MissingName[];
  /** Colors of the picture that the side file has no name for; each is a swatch at the palette's end. */
  readonly unknown: readonly UnknownColor[];
}

export interface MissingName extends Swatch {
  /** The swatch before it that has the same color, and so its pixels. */
  readonly sharedWith?: string;
}

export interface UnknownColor {
  /** What its swatch is called. */
  readonly name: string;
  readonly color: string;
  readonly pixels: number;
  /** The missing swatch whose color is nearest, which may have been recolored to this. */
  readonly nearest?: string;
  /** CIEDE2000 of the two. */
  readonly difference?: number;
}

/**
 * Compares what a picture has with the palette of a side file, whose swatches are the first of the flats.
 * O(pixels + unknown · missing).
 */
export function matchNames(flats: Flats, named: readonly Swatch[]): NamesReport {
  const { indices, palette } = flats;
  const { data } = indices;
  const pixels = new Float64Array(palette.length);
  for (let i = 0; i < data.length; i++) pixels[data[i]!]!++;
  const matched: string[] = [];
  const missing: MissingName[] = [];
  const byColor = new Map<string, string>();
  named.forEach(({ name, color }, i) => {
    if (i === 0) return;
    const sharedWith = byColor.get(color);
    if (pixels[i]! > 0) matched.push(name);
    else missing.push({ name, color, ...(sharedWith !== undefined && { sharedWith }) });
    if (sharedWith === undefined) byColor.set(color, name);
  });
  const candidates = missing
    .filter(({ sharedWith }) => sharedWith === undefined)
    .map(({ name, color }) => ({ name, lab: labOf(color, 'color') }));
  const unknown = palette.slice(named.length).map(({ name, color }, k) => ({
    name,
    color,
    pixels: pixels[named.length + k]!,
    ...nearestOf(labOf(color, 'color'), candidates),
  }));
  return { matched, missing, unknown };
}

/** The nearest candidate, ties to the first; nothing where there is none. */
function nearestOf(
  lab: Lab,
  candidates: readonly { readonly name: string; readonly lab: Lab }[],
): { nearest?: string; difference?: number } {
  let nearest: string | undefined;
  let difference = Number.POSITIVE_INFINITY;
  for (const candidate of candidates) {
    const d = ciede2000(lab, candidate.lab);
    if (d >= difference) continue;
    difference = d;
    nearest = candidate.name;
  }
  return nearest === undefined ? {} : { nearest, difference };
}
