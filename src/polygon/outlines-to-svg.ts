import { parseColor } from '../color/hex.ts';
import {
  checkCallback,
  checkList,
  checkNumber,
  checkOptions,
  checkRecord,
  checkSize,
  checkString,
} from '../raster/checks.ts';
import { escapeText } from '../raster/escape-text.ts';
import { GOLDEN, MURMUR, MURMUR_TOO } from '../raster/scatter.ts';
import type { Outline } from './outline.ts';
import { checkRings } from './rings-argument.ts';

export interface OutlinesToSvgOptions {
  /** Color `#rrggbb` of a region. @default one that follows from the label */
  readonly fill?: ((label: number) => string) | undefined;
  /** Text that names a region; undefined for none. @default none */
  readonly title?: ((label: number) => string | undefined) | undefined;
}

/**
 * Outlines as an SVG picture: one `<path>` per region, hard-edged, in pixels.
 *
 * Paths are filled even-odd, have `shape-rendering="crispEdges"` and the id `region-<label>`. Titles
 * are escaped. O(points).
 *
 * @param outlines - As `outlineRegions` gives them.
 * @param size - `[width, height]` of the picture, in pixels.
 * @throws TypeError or RangeError for bad arguments.
 * @example
 * ```ts
 * import { outlineRegions, outlinesToSvg, raster } from 'underink';
 * const outlines = outlineRegions(raster(new Int32Array([1, 1]), [2, 1]));
 * const svg = outlinesToSvg(outlines, [2, 1], { fill: () => '#8a5d42' });
 * console.log(/<path[^>]*>/.exec(svg)?.[0]); // <path id="region-1" fill="#8a5d42" d="M0 0h2v1h-2z"/>
 * ```
 */
export function outlinesToSvg(
  outlines: readonly Outline[],
  size: readonly [number, number],
  options?: OutlinesToSvgOptions,
): string {
  const checked = checkOptions(options, 'outlinesToSvg', ['fill', 'title']);
  const fill = checkCallback(checked.fill, 'fill') ?? colorOf;
  const title = checkCallback(checked.title, 'title');
  const [width, height] = checkSize(size, 'size');
  const paths = checkList(outlines, 'outlines', 'what outlineRegions gives').map((outline, i) => {
    const name = `outlines[${i}]`;
    const { label, rings } = checkRecord(outline, name, 'an outline { label, rings }');
    checkNumber(label, `${name}.label`, { integer: true });
    checkRings(rings, `${name}.rings`);
    const color = fill(label);
    parseColor(color, `fill(${label})`);
    const text = title?.(label);
    if (text !== undefined) checkString(text, `title(${label})`, 'a string or undefined');
    const head = `<path id="region-${label}" fill="${color}" d="${rings.map(ringData).join('')}"`;
    return text === undefined ? `${head}/>` : `${head}><title>${escapeText(text)}</title></path>`;
  });
  return [
    `<svg xmlns="http://www.w3.org/2000/svg" width="${width}" height="${height}" viewBox="0 0 ${width} ${height}">`,
    '<g fill-rule="evenodd" shape-rendering="crispEdges">',
    ...paths,
    '</g>',
    '</svg>\n',
  ].join('\n');
}

/** Path data of a ring, each step from the point before. */
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

/** A color for a label: multiples of odd constants of hashing, so that labels in a row differ much. */
function colorOf(label: number): string {
  const channel = (factor: number): string =>
    (72 + ((Math.imul(label, factor) >>> 24) * 160) / 255).toFixed(0).padStart(3, '0');
  const hex = [GOLDEN, MURMUR, MURMUR_TOO].map((factor) =>
    Number(channel(factor)).toString(16).padStart(2, '0'),
  );
  return `#${hex.join('')}`;
}
