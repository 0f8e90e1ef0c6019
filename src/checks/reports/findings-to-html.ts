import { pixelsArgument } from '../../raster/arguments.ts';
import { checkNumber, checkOptions, checkString } from '../../raster/checks.ts';
import { escapeText } from '../../raster/escape-text.ts';
import type { Dense, PixelData, PixelsLike } from '../../raster/types.ts';
import { checkFindings } from '../finding.ts';
import { type Crop, cropOf, cropRound } from './crop.ts';
import { sheetsOption } from './sheets-option.ts';
import { STYLE, STYLE_HASH } from './style.ts';
import {
  countWords,
  groupBySheet,
  messageWords,
  type ReportedFinding,
  type SheetGroup,
  totalWords,
} from './words.ts';

export interface FindingsToHtmlOptions {
  /** Heading and title of the page. @default 'Findings' */
  readonly title?: string | undefined;
  /** Names of all sheets that were checked, so that those without a finding are told. @default [] */
  readonly sheets?: readonly string[] | undefined;
  /**
   * The sheet as a person looks at it, such as `composeSheet` gives: it is shown small, and cut to a
   * crop of each place. Of many sheets, a function from the name to the picture, called once for each
   * with findings, so that one picture at a time is held. @default none: words alone
   */
  readonly picture?: PixelsLike | ((sheet: string) => PixelsLike | undefined) | undefined;
  /** Crops of a sheet at most; findings after those are told in words. @default 200 */
  readonly crops?: number | undefined;
}

/** The sheet is shown with at most so many pixels along a side. */
const SHEET_SIDE = 960;
/** A crop is magnified by a whole number to at most this width. */
const CROP_WIDTH = 320;

/**
 * Findings as a page to look through: one file of HTML that needs no other and no script, with its
 * own Content-Security-Policy. It has a summary, and for each sheet the picture with the numbered
 * places, and a list of the findings with a crop of each, magnified to pixels, its place outlined.
 * Severities are told in words and by color, pictures have texts, and the page follows the reader's
 * light or dark. The numbers are those of `findingsToText`. O(findings + pixels).
 *
 * @param findings - As `checkFlats` or `checkSheets` gives them, or read back from JSON.
 * @returns The text of the file; the same for the same findings and pictures, everywhere.
 * @throws TypeError or RangeError for findings, options or pictures that are none, and for findings
 *   that lie outside their picture.
 * @example
 * ```ts
 * import { checkFlats, findingsToHtml, paintFlats, raster } from 'underink';
 * const palette = [{ name: 'bare', color: '#000000' }, { name: 'fur', color: '#8a5d42' }];
 * const flats = { indices: raster(new Uint8Array([1, 0, 1, 1]), [4, 1]), palette };
 * const html = findingsToHtml(checkFlats(flats), { picture: paintFlats(flats) });
 * console.log(html.match(/<p>.*findings.*<\/p>/)?.[0]); // <p>3 findings: 1 error, 2 warnings</p>
 * ```
 */
export function findingsToHtml(
  findings: readonly ReportedFinding[],
  options?: FindingsToHtmlOptions,
): string {
  const names = ['title', 'sheets', 'picture', 'crops'] as const;
  const {
    title = 'Findings',
    sheets,
    picture,
    crops = 200,
  } = checkOptions(options, 'findingsToHtml', names);
  const heading = escapeText(checkString(title, 'title'));
  checkNumber(crops, 'crops');
  const groups = groupBySheet(checkFindings(findings), sheetsOption(sheets));
  const policy = `default-src 'none'; img-src data:; style-src 'sha256-${STYLE_HASH}'`;
  return [
    '<!doctype html>',
    '<html lang="en">',
    '<head>',
    '<meta charset="utf-8">',
    `<meta http-equiv="Content-Security-Policy" content="${policy}">`,
    '<meta name="viewport" content="width=device-width, initial-scale=1">',
    `<title>${heading}</title>`,
    `<style>${STYLE}</style>`,
    '</head>',
    '<body>',
    '<main>',
    `<h1>${heading}</h1>`,
    `<p>${totalWords(groups)}</p>`,
    ...contentsOf(groups),
    ...groups.flatMap((group, k) => section(group, k + 1, pictureOf(picture, group), crops)),
    '</main>',
    '</body>',
    '</html>\n',
  ].join('\n');
}

/** A table of the sheets, where there are names. */
function contentsOf(groups: readonly SheetGroup[]): string[] {
  if (groups.every(({ sheet }) => sheet === undefined)) return [];
  const rows = groups.map(({ sheet, findings }, k) => {
    const name = escapeText(sheet ?? 'no sheet');
    const link = findings.length === 0 ? name : `<a href="#sheet-${k + 1}">${name}</a>`;
    return `<tr><th scope="row">${link}</th><td>${countWords(findings)}</td></tr>`;
  });
  return [
    '<table>',
    '<tr><th scope="col">Sheet</th><th scope="col">Findings</th></tr>',
    ...rows,
    '</table>',
  ];
}

function pictureOf(
  picture: FindingsToHtmlOptions['picture'],
  { sheet, findings }: SheetGroup,
): Dense<PixelData> | undefined {
  if (picture === undefined || findings.length === 0) return undefined;
  if (typeof picture !== 'function') return pixelsArgument(picture, 'picture');
  const own = picture(sheet ?? '');
  return own && pixelsArgument(own, `picture of "${sheet ?? ''}"`);
}

/** The part of a sheet with findings; its place in the list of sheets makes the ids. */
function section(
  { sheet, findings }: SheetGroup,
  k: number,
  picture: Dense<PixelData> | undefined,
  crops: number,
): string[] {
  if (findings.length === 0) return [];
  const items = findings.flatMap((finding, i) => {
    const crop =
      picture !== undefined && i < crops && finding.area > 0
        ? cropRound(picture, finding)
        : undefined;
    return [
      `<li id="finding-${k}-${i + 1}">`,
      `<h3>${i + 1} ${finding.severity}: ${escapeText(finding.check)}</h3>`,
      `<p>${escapeText(messageWords(finding))}</p>`,
      ...(crop === undefined ? [] : figure(crop, finding)),
      '</li>',
    ];
  });
  return [
    `<section id="sheet-${k}">`,
    ...(sheet === undefined ? [] : [`<h2>${escapeText(sheet)}</h2>`]),
    ...(picture === undefined ? [] : overview(picture, findings, k)),
    '<ol>',
    ...items,
    '</ol>',
    '</section>',
  ];
}

function figure(
  { href, width, height, outline, factor, bounds }: Crop,
  finding: ReportedFinding,
): string[] {
  const times = Math.max(1, Math.floor(CROP_WIDTH / Math.max(width, height)));
  const [x0, y0, x1, y1] = bounds;
  const size = `width="${width}" height="${height}"`;
  const scale = factor > 1 ? `1:${factor}` : `${times}:1`;
  const label = `Pixels [${x0}, ${y0}] to [${x1}, ${y1}], shown ${scale}`;
  const near = factor > 1 ? '' : ' class="near"';
  return [
    '<figure>',
    `<svg width="${times * width}" height="${times * height}" viewBox="0 0 ${width} ${height}" role="img" aria-label="${escapeText(messageWords(finding))}">`,
    `<image${near} ${size} href="${href}"/>`,
    `<path class="under" d="${outline}"/>`,
    `<path class="over ${finding.severity}" d="${outline}"/>`,
    '</svg>',
    `<figcaption>${label}</figcaption>`,
    '</figure>',
  ];
}

/** The whole sheet, small, with a numbered frame round each place that is one. */
function overview(
  picture: Dense<PixelData>,
  findings: readonly ReportedFinding[],
  k: number,
): string[] {
  const { width, height } = picture;
  const { href, factor, ...small } = cropOf(picture, [0, 0, width, height], SHEET_SIDE);
  const unit = Math.max(small.width, small.height) / 100;
  const n = (value: number): string => String(Math.round(100 * value) / 100);
  const frames = findings.flatMap(({ bounds, area, severity, check }, i) => {
    if (area === 0) return [];
    const [x0, y0, x1, y1] = bounds.map((v) => v / factor) as [number, number, number, number];
    const [x, y] = [x0 - 0.5 * unit, y0 - 0.5 * unit];
    const frame = `x="${n(x)}" y="${n(y)}" width="${n(x1 - x0 + unit)}" height="${n(y1 - y0 + unit)}"`;
    return [
      `<a href="#finding-${k}-${i + 1}" aria-label="Finding ${i + 1}, ${severity}: ${escapeText(check)}">`,
      `<rect class="under" ${frame}/><rect class="over ${severity}" ${frame}/>`,
      `<text class="number" x="${n(x)}" y="${n(Math.max(2 * unit, y - 0.4 * unit))}" font-size="${n(2 * unit)}" stroke-width="${n(0.5 * unit)}">${i + 1}</text>`,
      '</a>',
    ];
  });
  return [
    `<svg width="${small.width}" height="${small.height}" viewBox="0 0 ${small.width} ${small.height}" role="group" aria-label="The sheet with the places of its findings">`,
    `<image width="${small.width}" height="${small.height}" href="${href}"/>`,
    ...frames,
    '</svg>',
  ];
}
