import type { Outline } from './outline.ts';

/** Path data of a ring in whole pixels, each step from the point before. */
export function ringData(ring: Outline['rings'][number]): string {
  let [x, y] = ring[0] ?? [0, 0];
  let data = `M${x} ${y}`;
  for (const [u, v] of ring.slice(1)) {
    if (v === y) data += `h${u - x}`;
    else if (u === x) data += `v${v - y}`;
    else data += `l${u - x} ${v - y}`;
    [x, y] = [u, v];
  }
  return `${data}z`;
}

/**
 * Path data of a ring in another unit, `scale` of it a pixel, by four decimals. Each point stands by
 * itself, so that rings that share corners share them after rounding too.
 */
export function scaledRingData(
  ring: Outline['rings'][number],
  [sx, sy]: readonly [number, number],
): string {
  const points = ring.map(([x, y]) => `${decimals(x * sx)} ${decimals(y * sy)}`);
  return `M${points.join('L')}z`;
}

/** A number of at most four decimals: a ten thousandth of a millimeter. */
export function decimals(value: number): string {
  return String(Math.round(value * 10_000) / 10_000);
}

/**
 * The pixel in the middle of the widest span of an outline on its middle row: inside of it, and away
 * from its border where simplification has moved that. The first of equals. O(corners).
 */
export function pixelInside(rings: Outline['rings']): [x: number, y: number] {
  const [ring = []] = rings;
  let top = Number.POSITIVE_INFINITY;
  let bottom = Number.NEGATIVE_INFINITY;
  for (const [, y] of ring) {
    if (y < top) top = y;
    if (y > bottom) bottom = y;
  }
  const row = Math.floor((top + bottom - 1) / 2);
  const crossings = rings.flatMap((one) => rowCrossings(one, row + 0.5)).sort((a, b) => a - b);
  let best = 0;
  for (let i = 0; i + 1 < crossings.length; i += 2) {
    const width = crossings[i + 1]! - crossings[i]!;
    if (width > crossings[best + 1]! - crossings[best]!) best = i;
  }
  return [Math.floor(((crossings[best] ?? 0) + (crossings[best + 1] ?? 1)) / 2), row];
}

function rowCrossings(ring: Outline['rings'][number], y: number): number[] {
  const found: number[] = [];
  let [x0, y0] = ring.at(-1) ?? [0, 0];
  for (const [x1, y1] of ring) {
    if (y0 < y !== y1 < y) found.push(x0 + ((y - y0) * (x1 - x0)) / (y1 - y0));
    [x0, y0] = [x1, y1];
  }
  return found;
}
