import { checkNumber, checkOptions, checkString } from '../raster/checks.ts';
import { escapeText } from '../raster/escape-text.ts';
import { paletteUse, type SwatchUse } from './palette-use.ts';
import type { NamedFlats } from './sheets.ts';
import { BARE } from './swatches.ts';
import type { FlatsLike } from './types.ts';

export interface SwatchSheetOptions {
  /** Swatches side by side. @default 4 */
  readonly columns?: number | undefined;
  /** Text above the swatches. @default none */
  readonly title?: string | undefined;
}

/** Sides of a cell and of the square of color in it, the space between them, the margin, in px. */
const CELL_WIDTH = 330;
const CELL_HEIGHT = 88;
const SQUARE = 72;
const SPACE = 12;
const MARGIN = 24;
const TITLE_HEIGHT = 52;
/** Characters of a name that fit beside the square, and colors. */
const MOST_LETTERS = 22;
const COLORS_LISTED = 3;

/**
 * A picture of the palette for people to look at, as SVG: each swatch with its name, its color, its
 * area and its regions.
 *
 * Swatches stand in the order of the palette, row by row; `bare` is there where pixels are bare. A
 * swatch that has several colors on several sheets shows them all, side by side. Long names are
 * cut; each whole name is the `<title>` of its cell. Texts are escaped.
 *
 * @param flats - Flats, or a list of sheets with unique names.
 * @returns The text of the SVG. O(pixels + swatches).
 * @throws TypeError or RangeError for flats that are none, and for a bad option.
 * @example
 * ```ts
 * import { raster, swatchSheet } from 'underink';
 * const palette = [
 *   { name: 'bare', color: '#000000' },
 *   { name: 'fur & tail', color: '#c86400' },
 * ];
 * const flats = { indices: raster(new Uint8Array([1, 1]), [2, 1]), palette };
 * console.log(/<title>.*?<\/title>/.exec(swatchSheet(flats))?.[0]); // <title>fur &amp; tail</title>
 * ```
 */
export function swatchSheet(
  flats: FlatsLike | readonly NamedFlats[],
  options?: SwatchSheetOptions,
): string {
  const { columns = 4, title } = checkOptions(options, 'swatchSheet', ['columns', 'title']);
  checkNumber(columns, 'columns', { min: 1, max: 1000, integer: true });
  if (title !== undefined) checkString(title, 'title');
  const swatches = paletteUse(flats).swatches.filter(({ name, area }) => name !== BARE || area > 0);
  const total = swatches.reduce((sum, { area }) => sum + area, 0);
  const top = title === undefined ? 0 : TITLE_HEIGHT;
  const wide = Math.min(columns, Math.max(1, swatches.length));
  const rows = Math.max(1, Math.ceil(swatches.length / wide));
  const width = 2 * MARGIN + wide * CELL_WIDTH;
  const height = 2 * MARGIN + top + rows * CELL_HEIGHT - (CELL_HEIGHT - SQUARE);
  const cells = swatches.map((swatch, i) => {
    const x = MARGIN + (i % wide) * CELL_WIDTH;
    const y = top + MARGIN + Math.floor(i / wide) * CELL_HEIGHT;
    return cell(swatch, total, x, y);
  });
  return [
    `<svg xmlns="http://www.w3.org/2000/svg" width="${width}" height="${height}" viewBox="0 0 ${width} ${height}">`,
    `<rect width="${width}" height="${height}" fill="#ffffff"/>`,
    '<g font-family="sans-serif" font-size="14" fill="#202020">',
    ...(title === undefined
      ? []
      : [
          `<text x="${MARGIN}" y="48" font-size="28" font-weight="bold">${escapeText(title)}</text>`,
        ]),
    ...cells,
    '</g>',
    '</svg>\n',
  ].join('\n');
}

function cell(swatch: SwatchUse, total: number, x: number, y: number): string {
  const { name, colors, area, regions } = swatch;
  const isBare = name === BARE;
  const left = x + SQUARE + SPACE;
  const lines = [
    shorten(name),
    isBare ? 'nothing laid' : colorList(colors),
    `${grouped(area)} px (${percent(area, total)}), ${grouped(regions)} ${regions === 1 ? 'region' : 'regions'}`,
  ];
  const texts = lines.map((line, i) => {
    const weight = i === 0 ? ' font-weight="bold"' : '';
    return `<text x="${left}" y="${y + 19 + 22 * i}"${weight}>${escapeText(line)}</text>`;
  });
  const edge = `<rect x="${x}" y="${y}" width="${SQUARE}" height="${SQUARE}" fill="none" stroke="#808080"/>`;
  const stripes = isBare ? [] : colorStripes(colors, x, y);
  return `<g><title>${escapeText(name)}</title>${stripes.join('')}${edge}${texts.join('')}</g>`;
}

function colorList(colors: readonly string[]): string {
  if (colors.length <= COLORS_LISTED) return colors.join(' ');
  const shown = colors.slice(0, COLORS_LISTED - 1);
  return `${shown.join(' ')} and ${colors.length - shown.length} more`;
}

/** Tenths of a percent; a swatch that has pixels never reads as one that has none. */
function percent(area: number, total: number): string {
  const share = total === 0 ? 0 : (100 * area) / total;
  return area > 0 && share < 0.05 ? '<0.1 %' : `${share.toFixed(1)} %`;
}

/** Digits in threes, the same in every locale. */
function grouped(count: number): string {
  return String(count).replace(/\B(?=(\d{3})+$)/g, ',');
}

function colorStripes(colors: readonly string[], x: number, y: number): string[] {
  const width = SQUARE / colors.length;
  return colors.map((color, i) => {
    return `<rect x="${x + i * width}" y="${y}" width="${width}" height="${SQUARE}" fill="${color}"/>`;
  });
}

/** The first characters, not code units, so that none is cut in two. */
function shorten(name: string): string {
  const letters = Array.from(name);
  return letters.length <= MOST_LETTERS ? name : `${letters.slice(0, MOST_LETTERS - 1).join('')}…`;
}
