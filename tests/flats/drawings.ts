/**
 * Lines of openmoji drawings (npm package `openmoji`, CC BY-SA 4.0): the group `line` of the color
 * SVGs, black on white, with no two drawings alike.
 */
import { createHash } from 'node:crypto';
import { readdirSync, readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { dirname, join } from 'node:path';
import { Resvg } from '@resvg/resvg-js';
import { inkCoverage } from '../../src/ink/coverage.ts';
import { thresholdInk } from '../../src/ink/threshold.ts';
import { raster } from '../../src/raster/raster.ts';
import type { Mask, Pixels } from '../../src/raster/types.ts';

export interface Drawing {
  name: string;
  /** RGBA, opaque. */
  pixels: Pixels<Uint8Array>;
}

/**
 * Every `step`-th file in the order of names, until there are `count` with lines of their own; `dashes`
 * of SVG, in 72nds of a side, part the lines.
 */
export function drawings(count: number, size: number, step = 197, dashes = ''): Drawing[] {
  const found = new Map<string, Drawing>();
  const files = readdirSync(FOLDER).sort();
  for (let i = 0; found.size < count; i = (i + step) % files.length) {
    const name = files[i]!.replace('.svg', '');
    const line = lineGroup(name);
    if (line === '') continue;
    const hash = createHash('sha256').update(line.replaceAll(/\s+/g, ' ')).digest('hex');
    if (!found.has(hash)) found.set(hash, { name, pixels: render(line, size, dashes) });
  }
  return [...found.values()];
}

/** One drawing by its name, such as `1F600`. */
export function drawing(name: string, size: number): Pixels<Uint8Array> {
  return render(lineGroup(name), size);
}

const require: NodeJS.Require = createRequire(import.meta.url);
const FOLDER: string = join(dirname(require.resolve('openmoji/package.json')), 'color', 'svg');

/** What the group `line` holds; in these files it is the last but for its closing tags. */
function lineGroup(name: string): string {
  const svg = readFileSync(join(FOLDER, `${name}.svg`), 'utf8');
  const open = /<g\b[^>]*\bid="line"[^>]*>/.exec(svg);
  if (open === null || open[0].endsWith('/>')) return '';
  const from = open.index + open[0].length;
  const tags = /<g\b[^>]*?(\/?)>|<\/g>/g;
  tags.lastIndex = from;
  for (let depth = 1; ; ) {
    const tag = tags.exec(svg)!;
    if (tag[0] === '</g>') depth--;
    else if (tag[1] === '') depth++;
    if (depth === 0) return svg.slice(from, tag.index).trim();
  }
}

function render(line: string, size: number, dashes = ''): Pixels<Uint8Array> {
  const svg = `<svg viewBox="0 0 72 72" width="72" height="72" xmlns="http://www.w3.org/2000/svg"><g stroke-dasharray="${dashes}">${line}</g></svg>`;
  const image = new Resvg(svg, {
    fitTo: { mode: 'width', value: size },
    background: '#ffffff',
    font: { loadSystemFonts: false },
  }).render();
  return raster(new Uint8Array(image.pixels), [image.width, image.height, 4]);
}

/** The same drawings as ink masks: at least half covered. */
export function inkDrawings(count: number, size: number): { name: string; ink: Mask }[] {
  return drawings(count, size).map(({ name, pixels }) => {
    const coverage = inkCoverage(pixels);
    return { name, ink: thresholdInk(coverage, { method: 'fixed', level: 127 }) };
  });
}
