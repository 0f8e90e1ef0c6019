// Line art of the openmoji project (https://openmoji.org, CC BY-SA 4.0), read from the npm package
// `openmoji`: the group `line` of its color drawings, black on white. No picture of it is kept here.
import { createHash } from 'node:crypto';
import { readdirSync, readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { dirname, join } from 'node:path';
import { Resvg } from '@resvg/resvg-js';
import { raster } from 'underink';

/**
 * `count` drawings with distinct line groups, as `{ name, line }`. More than half of the files
 * repeat the lines of another; the first file of each kind stands for it. Ordered by the hash of
 * their lines, so that any count is spread over all of them and stays the same.
 */
export function openmojiDrawings(count) {
  const require = createRequire(import.meta.url);
  const folder = join(dirname(require.resolve('openmoji/package.json')), 'color', 'svg');
  const byHash = new Map();
  for (const file of readdirSync(folder).sort()) {
    const line = lineGroup(readFileSync(join(folder, file), 'utf8'));
    if (line === undefined) continue;
    const hash = createHash('sha256').update(line).digest('hex');
    if (!byHash.has(hash)) byHash.set(hash, { name: file.replace('.svg', ''), line });
  }
  const hashes = [...byHash.keys()].sort();
  return hashes.slice(0, count).map((hash) => byHash.get(hash));
}

/** A drawing's lines, black on white, as RGBA pixels of `size` × `size`. */
export function renderLines({ line }, size) {
  return renderSvg(
    `<svg viewBox="0 0 72 72" width="72" height="72" xmlns="http://www.w3.org/2000/svg">${line}</svg>`,
    { mode: 'width', value: size },
  );
}

/** RGBA pixels of an SVG over white. */
export function renderSvg(svg, fitTo) {
  const options = { fitTo, background: '#ffffff', font: { loadSystemFonts: false } };
  const image = new Resvg(svg, options).render();
  const { width, height, pixels } = image; // a getter that copies: read once
  return raster(new Uint8Array(pixels), [width, height, 4]);
}

/** Markup of the group `line` without ids and spare blanks; undefined where it is empty. */
function lineGroup(svg) {
  const start = svg.search(/<g\b[^>]*\bid="line"/);
  if (start < 0) return undefined;
  const tags = /<g\b[^>]*?(\/?)>|<\/g>/g;
  tags.lastIndex = start;
  let depth = 0;
  let tag = tags.exec(svg);
  while (tag !== null) {
    if (tag[0] === '</g>') depth--;
    else if (tag[1] === '') depth++;
    if (depth === 0) break;
    tag = tags.exec(svg);
  }
  if (tag === null) return undefined;
  const group = svg.slice(start, tags.lastIndex).replaceAll(/ id="[^"]*"/g, '');
  const line = group.replaceAll(/\s+/g, ' ').replaceAll('> <', '><');
  return /<(line|rect|path|circle|polygon|polyline|ellipse)\b/.test(line) ? line : undefined;
}
