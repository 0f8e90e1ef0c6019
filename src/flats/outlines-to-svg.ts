import { parseColor } from '../color/hex.ts';
import { type DenseFlats, flatsArgument } from '../palette/flats-argument.ts';
import type { FlatsLike } from '../palette/types.ts';
import { checkResolution } from '../png/encode.ts';
import type { Resolution } from '../png/types.ts';
import type { Outline } from '../polygon/outline.ts';
import { decimals, pixelInside, ringData, scaledRingData } from '../polygon/ring-data.ts';
import { checkRings } from '../polygon/rings-argument.ts';
import {
  checkCallback,
  checkList,
  checkNumber,
  checkOptions,
  checkRecord,
  checkSize,
  checkString,
} from '../raster/checks.ts';
import { wrongValue } from '../raster/errors.ts';
import { escapeText } from '../raster/escape-text.ts';
import { GOLDEN, MURMUR, MURMUR_TOO } from '../raster/scatter.ts';
import { xmlId } from '../raster/xml-id.ts';

export interface OutlinesToSvgOptions {
  /** Color `#rrggbb` of a region. @default that of its swatch; without flats one by its label */
  readonly fill?: ((label: number) => string) | undefined;
  /** Text that names a region; undefined for none. @default none */
  readonly title?: ((label: number) => string | undefined) | undefined;
  /**
   * Flats whose regions these are, of the size of the picture: regions stand in a group for each swatch.
   * @default none
   */
  readonly flats?: FlatsLike | undefined;
  /**
   * Pixels per meter: the picture and its coordinates are then in millimeters, to four decimals.
   * @default none, and coordinates in pixels
   */
  readonly resolution?: Resolution | undefined;
}

/**
 * Outlines as an SVG picture: one `<path>` per region, hard-edged.
 *
 * Paths are filled even-odd, have `shape-rendering="crispEdges"` and the id `region-<label>`. With
 * `flats`, each swatch that has a region is a group, in the order of the palette: its fill is the color
 * (none for `bare`), its `<title>` the name, its id the name too, with `_` for what an id cannot hold and a
 * number where two would be the same. A region has the swatch of the pixel in the middle of its widest
 * span on its middle row. Texts are escaped. O(points), and O(pixels) to check flats.
 *
 * @param outlines - As `outlineRegions` gives them.
 * @param size - `[width, height]` of the picture, in pixels.
 * @throws TypeError or RangeError for bad arguments.
 * @example
 * ```ts
 * import { outlineRegions, outlinesToSvg, raster } from 'underink';
 * const palette = [{ name: 'bare', color: '#000000' }, { name: 'otter fur', color: '#8a5d42' }];
 * const flats = { indices: raster(new Uint8Array([1, 1]), [2, 1]), palette };
 * const outlines = outlineRegions(raster(new Int32Array([1, 1]), [2, 1]));
 * const svg = outlinesToSvg(outlines, [2, 1], { flats });
 * console.log(/<g id[^>]*>/.exec(svg)?.[0]); // <g id="otter_fur" fill="#8a5d42">
 * console.log(/<path[^>]*>/.exec(svg)?.[0]); // <path id="region-1" d="M0 0h2v1h-2z"/>
 * ```
 */
export function outlinesToSvg(
  outlines: readonly Outline[],
  size: readonly [number, number],
  options?: OutlinesToSvgOptions,
): string {
  const names = ['fill', 'title', 'flats', 'resolution'] as const;
  const checked = checkOptions(options, 'outlinesToSvg', names);
  const flats = flatsOption(checked.flats, size);
  const fill = checkCallback(checked.fill, 'fill') ?? (flats === undefined ? colorOf : undefined);
  const title = checkCallback(checked.title, 'title');
  const scale = scaleOption(checked.resolution);
  const draw = (ring: Outline['rings'][number]): string =>
    scale === undefined ? ringData(ring) : scaledRingData(ring, scale);
  const taken = new Set<string>();
  const paths = checkList(outlines, 'outlines', 'what outlineRegions gives').map((outline, i) => {
    const name = `outlines[${i}]`;
    const { label, rings } = checkRecord(outline, name, 'an outline { label, rings }');
    checkNumber(label, `${name}.label`, { integer: true });
    checkRings(rings, `${name}.rings`);
    const color = fill?.(label);
    if (fill !== undefined) parseColor(color!, `fill(${label})`);
    const text = title?.(label);
    if (text !== undefined) checkString(text, `title(${label})`, 'a string or undefined');
    const own = color === undefined ? '' : ` fill="${color}"`;
    const head = `<path id="region-${label}"${own} d="${rings.map(draw).join('')}"`;
    taken.add(`region-${label}`);
    return text === undefined ? `${head}/>` : `${head}><title>${escapeText(text)}</title></path>`;
  });
  const [width, height] = size;
  const sides =
    scale === undefined
      ? `width="${width}" height="${height}" viewBox="0 0 ${width} ${height}"`
      : inMillimeters(decimals(width * scale[0]), decimals(height * scale[1]));
  return [
    `<svg xmlns="http://www.w3.org/2000/svg" ${sides}>`,
    '<g fill-rule="evenodd" shape-rendering="crispEdges">',
    ...(flats === undefined ? paths : groupPaths(paths, outlines, flats, taken)),
    '</g>',
    '</svg>\n',
  ].join('\n');
}

function inMillimeters(width: string, height: string): string {
  return `width="${width}mm" height="${height}mm" viewBox="0 0 ${width} ${height}"`;
}

/** The flats, of the size of the picture. */
function flatsOption(
  value: FlatsLike | undefined,
  size: readonly [number, number],
): DenseFlats | undefined {
  const [width, height] = checkSize(size, 'size');
  if (value === undefined) return undefined;
  const flats = flatsArgument(value, 'flats');
  if (flats.indices.width !== width || flats.indices.height !== height) {
    throw wrongValue(
      'size',
      `that of flats, ${flats.indices.width} × ${flats.indices.height}`,
      size,
    );
  }
  return flats;
}

/** Millimeters of a pixel across and down. */
function scaleOption(resolution: Resolution | undefined): [number, number] | undefined {
  if (resolution === undefined) return undefined;
  checkResolution(resolution);
  if (resolution.unit !== 'meter') throw wrongValue('resolution.unit', '"meter"', resolution.unit);
  return [1000 / resolution.x, 1000 / resolution.y];
}

/** Paths by swatch, each group with its name; those on no pixel of the picture are bare. */
function groupPaths(
  paths: readonly string[],
  outlines: readonly Outline[],
  { indices, palette }: DenseFlats,
  taken: Set<string>,
): string[] {
  const { data, width, height } = indices;
  const bySwatch = new Map<number, string[]>();
  outlines.forEach(({ rings }, i) => {
    const [x, y] = pixelInside(rings);
    const inside = x >= 0 && x < width && y >= 0 && y < height;
    const index = inside ? data[y * width + x]! : 0;
    const group = bySwatch.get(index) ?? [];
    group.push(paths[i]!);
    bySwatch.set(index, group);
  });
  return [...bySwatch.keys()]
    .sort((a, b) => a - b)
    .flatMap((index) => {
      const { name, color } = palette[index]!;
      const fill = index === 0 ? 'none' : color;
      return [
        `<g id="${xmlId(name, taken)}" fill="${fill}">`,
        `<title>${escapeText(name)}</title>`,
        ...bySwatch.get(index)!,
        '</g>',
      ];
    });
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
