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

/** Height of a cell, side of the square of color in it, the space beside it, the margin, in px. */
const CELL_HEIGHT = 88;
const SQUARE = 72;
const SPACE = 12;
const MARGIN = 24;
const TITLE_HEIGHT = 52;
/** Sizes of the text of cells and of the title, in px. */
const TEXT = 14;
const TITLE = 28;
/** Room for a name, in px, and colors of one swatch that are listed. */
const NAME_WIDTH = 250;
const MOST_COLORS = 3;

/**
 * Widths of characters in parts of the text's size: no narrower than in DejaVu Sans Bold, as wide a
 * sans-serif font as systems have. The first line that matches counts; what none does is `WIDEST`.
 */
const WIDTHS: readonly (readonly [RegExp, number])[] = [
  [/[ !'(),.:;Iijlftr[\]|-]/, 0.5],
  [/[%@MWmw]/, 1.12],
  [/[a-z0-9]/, 0.72],
  [/[!-~]/, 0.88],
];
const WIDEST = 1.4;

/**
 * A picture of the palette for people to look at, as SVG: each swatch with its name, its color, its
 * area and its regions.
 *
 * Swatches stand in the order of the palette, row by row; `bare` is there where pixels are bare, its
 * square crossed out. A swatch that has several colors on several sheets shows them all, side by
 * side. Columns are as wide as their texts in a wide font; long names are cut, and each whole name
 * is the `<title>` of its cell. Texts are escaped.
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
  const cells = swatches.map((swatch) => linesOf(swatch, total));
  const widest = cells.flat().reduce((most, line) => Math.max(most, widthOf(line)), 0);
  const column = SQUARE + 3 * SPACE + widest;
  const titleWidth = title === undefined ? 0 : widthOf(title, TITLE);
  const width = 2 * MARGIN + Math.max(wide * column, titleWidth);
  const height = 2 * MARGIN + top + rows * CELL_HEIGHT - (CELL_HEIGHT - SQUARE);
  return [
    `<svg xmlns="http://www.w3.org/2000/svg" width="${width}" height="${height}" viewBox="0 0 ${width} ${height}">`,
    `<rect width="${width}" height="${height}" fill="#ffffff"/>`,
    `<g font-family="sans-serif" font-size="${TEXT}" fill="#202020">`,
    ...(title === undefined
      ? []
      : [
          `<text x="${MARGIN}" y="48" font-size="${TITLE}" font-weight="bold">${escapeText(title)}</text>`,
        ]),
    ...swatches.map((swatch, i) => {
      const x = MARGIN + (i % wide) * column;
      const y = top + MARGIN + Math.floor(i / wide) * CELL_HEIGHT;
      return cell(swatch, cells[i]!, x, y);
    }),
    '</g>',
    '</svg>\n',
  ].join('\n');
}

/** What stands beside the square of a swatch. */
function linesOf({ name, colors, area, regions }: SwatchUse, total: number): string[] {
  return [
    shorten(name),
    name === BARE ? 'nothing laid' : colorList(colors),
    `${grouped(area)} px (${percent(area, total)}), ${grouped(regions)} ${regions === 1 ? 'region' : 'regions'}`,
  ];
}

function cell({ name, colors }: SwatchUse, lines: readonly string[], x: number, y: number): string {
  const left = x + SQUARE + SPACE;
  const texts = lines.map((line, i) => {
    const weight = i === 0 ? ' font-weight="bold"' : '';
    return `<text x="${left}" y="${y + 19 + 22 * i}"${weight}>${escapeText(line)}</text>`;
  });
  const [right, bottom] = [x + SQUARE, y + SQUARE];
  const edge = `<rect x="${x}" y="${y}" width="${SQUARE}" height="${SQUARE}" fill="none" stroke="#808080"/>`;
  const cross = `<path d="M${x} ${y}L${right} ${bottom}M${x} ${bottom}L${right} ${y}" stroke="#808080"/>`;
  const inside = name === BARE ? [cross] : colorStripes(colors, x, y);
  return `<g><title>${escapeText(name)}</title>${inside.join('')}${edge}${texts.join('')}</g>`;
}

function colorList(colors: readonly string[]): string {
  if (colors.length <= MOST_COLORS) return colors.join(' ');
  const shown = colors.slice(0, MOST_COLORS - 1);
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

/** The first characters that fit, not code units, so that none is cut in two. */
function shorten(name: string): string {
  if (widthOf(name) <= NAME_WIDTH) return name;
  let cut = '';
  for (const letter of name) {
    if (widthOf(`${cut}${letter}…`) > NAME_WIDTH) break;
    cut += letter;
  }
  return `${cut}…`;
}

/** Whole pixels that a text takes at most. */
function widthOf(text: string, size: number = TEXT): number {
  let width = 0;
  for (const letter of text) {
    width += WIDTHS.find(([letters]) => letters.test(letter))?.[1] ?? WIDEST;
  }
  return Math.ceil(width * size);
}
