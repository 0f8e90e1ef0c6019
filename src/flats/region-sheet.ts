import { lineAlone } from '../ink/line-alone.ts';
import { writePng } from '../png/write-png.ts';
import { outlineRegions } from '../polygon/outline.ts';
import { ringData } from '../polygon/ring-data.ts';
import { checkSameSize, maskArgument, pixelsArgument } from '../raster/arguments.ts';
import { base64 } from '../raster/base64.ts';
import { checkOptions } from '../raster/checks.ts';
import { escapeText } from '../raster/escape-text.ts';
import { raster } from '../raster/raster.ts';
import type { MaskLike, PixelsLike, Point } from '../raster/types.ts';
import { type LaidRegions, listRegions, type Region } from './list-regions.ts';
import { type Label, type PlacedLabel, placeLabels } from './place-labels.ts';

export interface RegionSheetOptions {
  /** Line art to show, on transparent paper or a scan, whose paper is cleared. @default the ink of `laid` */
  readonly line?: PixelsLike | undefined;
}

/** A bridge as the sheet shows it. */
export interface SheetBridge {
  readonly from: Point;
  readonly to: Point;
  readonly drawn: boolean;
  readonly doubtful: boolean;
  readonly forced?: boolean | undefined;
}

/** What `layFlats` or `applyPlan` gives. */
export interface SheetRegions extends LaidRegions {
  readonly report?:
    | (LaidRegions['report'] & { readonly bridges?: readonly SheetBridge[] | undefined })
    | undefined;
}

/** Room for the drawing on A4, upright, in mm: margins and the legend are taken off. */
const SHORT_SIDE = 170;
const LONG_SIDE = 245;
/** All in mm on the printed page. */
const MARGIN = 10;
const LEGEND_ROW = 6;
const LEGEND_TEXT = 2.6;
const LEAST_TEXT = 2.1;
const MOST_TEXT = 3.6;
/** Bridges are drawn at least so long, or nobody would see them. */
const LEAST_BRIDGE = 3;
/** Width of a digit and height of digits in sizes of text, as sans-serif faces have them at most. */
const DIGIT = 0.64;
const CAPITAL = 0.74;

const RED = '#c4320a';
/** Styles of bridges, in the order of the legend. */
const STYLES = [
  { name: 'gap closed', dash: '', double: false },
  { name: 'closed because points ask for it', dash: '', double: true },
  { name: 'closed in doubt', dash: '0.8 0.45', double: false },
  { name: 'left open in doubt', dash: '0.02 0.7', double: false },
] as const;

/**
 * A picture of the regions for people, to print on A4 or to look at: the line with each region's
 * number, the id in `listRegions` and in reports.
 *
 * A number stands at the widest place of its region where it fits there, else beside it, with a
 * leader from that place. Regions that no mark names are hatched; without flats none is. Gaps that
 * were closed are drawn solid, those that only points ask for double, those closed in doubt dashed,
 * those left open in doubt dotted; short ones are drawn longer than they are. A legend says what
 * occurs, and how many numbers found no room. The `<title>` of a number holds its swatch.
 *
 * @param laid - The result of `layFlats` or `applyPlan`, or `{ labels, flats?, ink? }`.
 * @returns The text of the SVG, in pixels of the drawing, with its size on paper in mm. It holds the
 * line as a PNG. O(pixels + regions · places looked at).
 * @throws TypeError or RangeError for rasters that are none, or whose sizes differ.
 * @example
 * ```ts
 * import { raster, regionSheet } from 'underink';
 * const labels = raster(new Int32Array(100 * 100).fill(7), [100, 100]);
 * console.log(/<title>.*<\/text>/.exec(regionSheet({ labels }))?.[0]); // <title>7</title>7</text>
 * ```
 */
export function regionSheet(laid: SheetRegions, options?: RegionSheetOptions): string {
  const { line } = checkOptions(options, 'regionSheet', ['line']);
  const regions = listRegions(laid);
  const labels = outlinesOf(laid, regions);
  const { width, height } = labels;
  const upright = width <= height;
  const unit = Math.max(
    width / (upright ? SHORT_SIDE : LONG_SIDE),
    height / (upright ? LONG_SIDE : SHORT_SIDE - 15),
  );
  const ink = laid.ink === undefined ? undefined : maskArgument(laid.ink, 'ink').data;
  const numbers = placeNumbers(regions, ink, width, height, unit);
  const bridges = laid.report?.bridges ?? [];
  const margin = MARGIN * unit;
  const lost = numbers.filter((number) => number === undefined).length;
  const legend = inRows(legendOf(bridges, labels.hatched !== '', lost), width / unit);
  const sheetWidth = width + 2 * margin;
  const sheetHeight = height + 2 * margin + LEGEND_ROW * legend.length * unit;
  const n = (value: number): string => String(Math.round(value * 100) / 100);
  const mm = (value: number): string => n(value / unit);
  return [
    `<svg xmlns="http://www.w3.org/2000/svg" width="${mm(sheetWidth)}mm" height="${mm(sheetHeight)}mm" viewBox="${n(-margin)} ${n(-margin)} ${n(sheetWidth)} ${n(sheetHeight)}">`,
    `<defs><pattern id="hatch" width="${n(1.5 * unit)}" height="${n(1.5 * unit)}" patternUnits="userSpaceOnUse" patternTransform="rotate(45)"><path d="M0 0V${n(1.5 * unit)}" stroke="#3b74ad" stroke-opacity="0.55" stroke-width="${n(0.4 * unit)}"/></pattern></defs>`,
    `<rect x="${n(-margin)}" y="${n(-margin)}" width="${n(sheetWidth)}" height="${n(sheetHeight)}" fill="#ffffff"/>`,
    `<rect width="${width}" height="${height}" fill="none" stroke="#b8b8b8" stroke-width="${n(0.15 * unit)}"/>`,
    ...(labels.hatched === ''
      ? []
      : [`<path fill="url(#hatch)" fill-rule="evenodd" d="${labels.hatched}"/>`]),
    ...lineImage(laid.ink, line, width, height),
    `<g fill="none" stroke="${RED}" stroke-linecap="round">`,
    ...bridges.flatMap((bridge) => bridgePath(bridge, unit, n)),
    '</g>',
    `<g font-family="Helvetica, Arial, 'DejaVu Sans', sans-serif" fill="#111111" text-anchor="middle">`,
    ...numberTexts(regions, numbers, unit, n),
    '</g>',
    ...legend.flatMap((row, k) => {
      return legendTexts(row, height + margin + (k * LEGEND_ROW - 2) * unit, unit, n);
    }),
    '</svg>\n',
  ].join('\n');
}

type Format = (value: number) => string;

/** Path of the regions to hatch, with the sides of the picture. */
function outlinesOf(
  { labels, flats }: SheetRegions,
  regions: readonly Region[],
): { width: number; height: number; hatched: string } {
  const outlines = outlineRegions(labels);
  const [width, height] =
    'shape' in labels && labels.shape !== undefined
      ? [labels.shape[0]!, labels.shape[1]!]
      : [(labels as { width: number }).width, (labels as { height: number }).height];
  if (flats === undefined) return { width, height, hatched: '' };
  const unnamed = new Set(
    regions.flatMap(({ id, named, border, swatch }) => {
      return named || (border && swatch === flats.ground) ? [] : [id];
    }),
  );
  const rings = outlines.flatMap(({ label, rings }) => (unnamed.has(label) ? rings : []));
  return { width, height, hatched: rings.map(ringData).join('') };
}

function lineImage(
  ink: MaskLike | undefined,
  line: PixelsLike | undefined,
  width: number,
  height: number,
): string[] {
  let png: Uint8Array;
  if (line !== undefined) {
    const dense = pixelsArgument(line, 'line');
    checkSameSize({ width, height }, 'labels', dense, 'line');
    const { data, channels } = lineAlone(dense);
    png = writePng(raster(data, [width, height, channels]));
  } else if (ink !== undefined) {
    const { data } = maskArgument(ink, 'ink');
    const line = new Uint8Array(2 * data.length);
    for (let i = 0; i < data.length; i++) line[2 * i + 1] = data[i] === 0 ? 0 : 255;
    png = writePng(raster(line, [width, height, 2]));
  } else return [];
  const size = `width="${width}" height="${height}"`;
  return [`<image ${size} opacity="0.6" href="data:image/png;base64,${base64(png)}"/>`];
}

function placeNumbers(
  regions: readonly Region[],
  ink: Uint8Array | undefined,
  width: number,
  height: number,
  unit: number,
): (PlacedLabel | undefined)[] {
  const labels = regions.map(({ id, inside: [x, y], radius }): Label => {
    return { x, y, radius, width: DIGIT * String(id).length, height: CAPITAL };
  });
  const margin = (MARGIN - 1) * unit;
  const cell = 0.4 * unit;
  const reach = Math.max(1, Math.round(cell / 2));
  // A cell's share of ink, by five pixels of it.
  const coverAt = (x: number, y: number): number => {
    if (ink === undefined) return 0;
    let sum = 0;
    for (const [dx, dy] of [
      [0, 0],
      [-reach, 0],
      [reach, 0],
      [0, -reach],
      [0, reach],
    ] as const) {
      const [u, v] = [Math.floor(x) + dx, Math.floor(y) + dy];
      if (u >= 0 && v >= 0 && u < width && v < height) sum += ink[v * width + u]!;
    }
    return sum / 5;
  };
  const sizes = [LEAST_TEXT * unit, MOST_TEXT * unit] as const;
  const room = [-margin, -margin, width + margin, height + margin] as const;
  return placeLabels(labels, { room, cell, coverAt, sizes });
}

function numberTexts(
  regions: readonly Region[],
  numbers: readonly (PlacedLabel | undefined)[],
  unit: number,
  n: Format,
): string[] {
  const leaders: string[] = [];
  const texts: string[] = [];
  regions.forEach(({ id, inside: [x, y], swatch }, i) => {
    const number = numbers[i];
    if (number === undefined) {
      leaders.push(`<circle cx="${n(x)}" cy="${n(y)}" r="${n(0.35 * unit)}"/>`);
      return;
    }
    const { leader, size } = number;
    if (leader !== undefined) {
      leaders.push(
        `<path d="M${n(x)} ${n(y)}L${n(leader[0])} ${n(leader[1])}" stroke="#111111" stroke-width="${n(0.14 * unit)}"/>`,
        `<circle cx="${n(x)}" cy="${n(y)}" r="${n(0.35 * unit)}"/>`,
      );
    }
    const title = `<title>${escapeText(swatch === undefined ? `${id}` : `${id}: ${swatch}`)}</title>`;
    const weight = leader === undefined ? ' font-weight="bold"' : '';
    texts.push(
      `<text x="${n(number.x)}" y="${n(number.y + (CAPITAL * size) / 2)}" font-size="${n(size)}"${weight} stroke="#ffffff" stroke-width="${n(0.3 * size)}" stroke-linejoin="round" paint-order="stroke">${title}${id}</text>`,
    );
  });
  return [...leaders, ...texts];
}

/** Index of a bridge's style. */
function styleOf({ drawn, doubtful, forced }: SheetBridge): number {
  if (!drawn) return 3;
  return forced === true ? 1 : doubtful ? 2 : 0;
}

function bridgePath({ from, to, ...rest }: SheetBridge, unit: number, n: Format): string[] {
  const [dx, dy] = [to[0] - from[0], to[1] - from[1]];
  const length = Math.sqrt(dx * dx + dy * dy);
  const [ux, uy] = length === 0 ? [1, 0] : [dx / length, dy / length];
  const half = Math.max(length, LEAST_BRIDGE * unit) / 2;
  const [mx, my] = [(from[0] + to[0]) / 2, (from[1] + to[1]) / 2];
  return strokes(styleOf(rest as SheetBridge), mx, my, ux * half, uy * half, unit, n);
}

/** A line of a style from (x − dx, y − dy) to (x + dx, y + dy). */
function strokes(
  style: number,
  x: number,
  y: number,
  dx: number,
  dy: number,
  unit: number,
  n: Format,
): string[] {
  const { dash, double } = STYLES[style]!;
  const half = Math.sqrt(dx * dx + dy * dy);
  const [ox, oy] = double ? [(-dy / half) * 0.45 * unit, (dx / half) * 0.45 * unit] : [0, 0];
  const wide = n((double ? 0.3 : 0.5) * unit);
  const dashes = dash.split(' ').map((d) => n(Number(d) * unit));
  const cap = dash !== '' && !dash.startsWith('0.02') ? ' stroke-linecap="butt"' : '';
  const dashed = dash === '' ? '' : ` stroke-dasharray="${dashes.join(' ')}"${cap}`;
  const one = (sx: number, sy: number): string =>
    `<path d="M${n(x - dx + sx)} ${n(y - dy + sy)}L${n(x + dx + sx)} ${n(y + dy + sy)}" stroke-width="${wide}"${dashed}/>`;
  return double ? [one(ox, oy), one(-ox, -oy)] : [one(0, 0)];
}

interface LegendItem {
  /** Index of a style, or hatching; undefined for words alone. */
  readonly sample?: number | 'hatch';
  readonly text: string;
}

function legendOf(bridges: readonly SheetBridge[], hatched: boolean, lost: number): LegendItem[] {
  const items: LegendItem[] = STYLES.flatMap(({ name }, sample) => {
    const count = bridges.filter((bridge) => styleOf(bridge) === sample).length;
    return count === 0 ? [] : [{ sample, text: `${name} (${count})` }];
  });
  if (hatched) items.unshift({ sample: 'hatch', text: 'no mark names it' });
  if (lost > 0) items.push({ text: `${lost} numbers found no room` });
  return items;
}

/** Width of a row's item in mm, with the space after it. */
function widthOf({ sample, text }: LegendItem): number {
  return (sample === undefined ? 0 : 8) + text.length * 0.54 * LEGEND_TEXT + 5;
}

/** The items in rows of a width in mm, each of at least one. */
function inRows(items: readonly LegendItem[], width: number): LegendItem[][] {
  const rows: LegendItem[][] = [];
  let room = 0;
  for (const item of items) {
    room -= widthOf(item);
    if (rows.length === 0 || room < 0) {
      rows.push([]);
      room = width - widthOf(item);
    }
    rows.at(-1)!.push(item);
  }
  return rows;
}

function legendTexts(items: readonly LegendItem[], top: number, unit: number, n: Format): string[] {
  const size = LEGEND_TEXT * unit;
  const y = top + 3 * unit;
  let x = 0;
  return items.flatMap((item) => {
    const { sample, text } = item;
    const start = x;
    const indent = sample === undefined ? 0 : 8 * unit;
    x += widthOf(item) * unit;
    const picture =
      sample === 'hatch'
        ? [
            `<rect x="${n(start)}" y="${n(y - 2 * unit)}" width="${n(6 * unit)}" height="${n(4 * unit)}" fill="url(#hatch)" stroke="#888888" stroke-width="${n(0.15 * unit)}"/>`,
          ]
        : sample === undefined
          ? []
          : [
              `<g fill="none" stroke="${RED}" stroke-linecap="round">`,
              ...strokes(sample, start + 3 * unit, y, 3 * unit, 0, unit, n),
              '</g>',
            ];
    return [
      ...picture,
      `<text x="${n(start + indent)}" y="${n(y + 0.36 * size)}" font-family="Helvetica, Arial, 'DejaVu Sans', sans-serif" font-size="${n(size)}" fill="#111111">${escapeText(text)}</text>`,
    ];
  });
}
