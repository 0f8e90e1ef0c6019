import { raster } from '../raster/raster.ts';
import { labelEqual } from '../regions/label-equal.ts';
import { type DenseFlats, flatsArgument } from './flats-argument.ts';
import { checkSheetNames, type NamedFlats } from './sheets.ts';
import { BARE } from './swatches.ts';
import type { FlatsLike } from './types.ts';

/** Where a swatch is used. */
export interface SwatchUse {
  readonly name: string;
  /** Its color `#rrggbb`; more than one where sheets disagree, in the order of the sheets. */
  readonly colors: readonly string[];
  /** Pixels, over all sheets. */
  readonly area: number;
  /** Connected regions (4-connected), over all sheets. */
  readonly regions: number;
  /** Names of the sheets on which it has a pixel; empty for flats that are no sheet. */
  readonly sheets: readonly string[];
}

/** The swatches of flats, or of all sheets. */
export interface PaletteUse {
  /** `bare` first, then in the order of the palettes. */
  readonly swatches: readonly SwatchUse[];
  /** Names of the swatches other than `bare` that no pixel has. */
  readonly unused: readonly string[];
}

/**
 * What each swatch is used for: its area, its regions, its sheets; and which are not used at all.
 *
 * A swatch of one name is one swatch on all sheets, whatever its color there.
 *
 * @param flats - Flats, or a list of sheets with unique names.
 * @returns A line for each swatch. O(pixels + swatches); four bytes a pixel of the largest sheet.
 * @throws TypeError or RangeError for flats that are none, and for two sheets of one name.
 * @example
 * ```ts
 * import { paletteUse, raster } from 'underink';
 * const palette = ['bare', 'shell', 'scarf'].map((name) => ({ name, color: '#c86400' }));
 * const flats = { indices: raster(new Uint8Array([1, 0, 1, 1]), [4, 1]), palette };
 * const { swatches, unused } = paletteUse(flats);
 * console.log(swatches[1]?.area, swatches[1]?.regions, unused); // 3 2 [ 'scarf' ]
 * ```
 */
export function paletteUse(flats: FlatsLike | readonly NamedFlats[]): PaletteUse {
  const uses = new Map<string, Use>();
  if (isList(flats)) {
    checkSheetNames(flats, 'flats');
    const dense = flats.map((sheet, i) => flatsArgument(sheet.flats, `flats[${i}].flats`));
    dense.forEach((sheet, i) => {
      addSheet(uses, sheet, flats[i]!.name);
    });
  } else addSheet(uses, flatsArgument(flats, 'flats'), undefined);
  const swatches = Array.from(uses, ([name, use]) => ({ name, ...use, colors: [...use.colors] }));
  const unused = swatches.filter(({ name, area }) => name !== BARE && area === 0);
  return { swatches, unused: unused.map(({ name }) => name) };
}

interface Use {
  readonly colors: Set<string>;
  area: number;
  regions: number;
  readonly sheets: string[];
}

function isList(flats: FlatsLike | readonly NamedFlats[]): flats is readonly NamedFlats[] {
  return Array.isArray(flats);
}

function addSheet(
  uses: Map<string, Use>,
  { indices, palette }: DenseFlats,
  sheet: string | undefined,
): void {
  const { data, width, height } = indices;
  const areas = new Float64Array(palette.length);
  const regions = new Float64Array(palette.length);
  const { data: labels } = labelEqual(raster(data, [width, height])).labels;
  // Labels are numbered by first pixel: one greater than all before it starts a region.
  let found = 0;
  for (let i = 0; i < data.length; i++) {
    const index = data[i]!;
    areas[index]! += 1;
    if (labels[i]! > found) {
      found++;
      regions[index]! += 1;
    }
  }
  palette.forEach(({ name, color }, i) => {
    let use = uses.get(name);
    if (use === undefined) {
      use = { colors: new Set(), area: 0, regions: 0, sheets: [] };
      uses.set(name, use);
    }
    use.colors.add(color);
    use.area += areas[i]!;
    use.regions += regions[i]!;
    if (sheet !== undefined && areas[i]! > 0) use.sheets.push(sheet);
  });
}
