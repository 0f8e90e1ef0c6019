// Set `glyph`: signs of the monochrome Noto Emoji (SIL Open Font License 1.1), outlines by another hand
// than those of `vector`, to train on.
import { createHash } from 'node:crypto';
import { readdirSync, readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { dirname, join } from 'node:path';
import opentype from 'opentype.js';
import { raster, strokeWidth } from 'underink';
import { between, pick, seeded } from './random.mjs';
import { renderSvg } from './vector.mjs';

const require = createRequire(import.meta.url);
/** Weights of the font, the finest twice as often. */
const WEIGHTS = [300, 300, 400, 500];
/** Stroke widths, and sides of a page, in pixels. */
const THINNEST = 3;
const THICKEST = 14;
const SIDES = { least: 240, most: 700 };
/** Margin round a sign, as a share of its longer side. */
const MARGIN = 0.06;

/**
 * The signs as drawings to tune on: `{ group, half, name, path }`, each in a weight by lot, with
 * `path` the data of an SVG path and its `box`. Ordered by a hash.
 */
export function glyphDrawings() {
  const folder = join(dirname(require.resolve('@fontsource/noto-emoji/package.json')), 'files');
  const drawings = new Map();
  for (const file of readdirSync(folder).sort()) {
    const weight = Number(/-(\d+)-normal\.woff$/.exec(file)?.[1]);
    if (!WEIGHTS.includes(weight)) continue;
    const font = opentype.parse(new Uint8Array(readFileSync(join(folder, file))).buffer);
    for (let i = 0; i < font.glyphs.length; i++) {
      const glyph = font.glyphs.get(i);
      const code = glyph.unicode?.toString(16).toUpperCase();
      if (code === undefined || pick(seeded(`glyph ${code}`), WEIGHTS) !== weight) continue;
      const path = glyph.getPath(0, 0, font.unitsPerEm);
      if (path.commands.length === 0 || drawings.has(code)) continue;
      const { x1, y1, x2, y2 } = path.getBoundingBox();
      const box = [x1, y1, x2 - x1, y2 - y1];
      drawings.set(code, {
        group: `glyph ${code}`,
        half: 'tune',
        name: `${code}-${weight}`,
        path: path.toPathData(2),
        box,
      });
    }
  }
  return [...drawings.values()].sort((a, b) => (hash(a) < hash(b) ? -1 : 1));
}

function hash({ group }) {
  return createHash('sha256').update(group).digest('hex');
}

/** Ink of a sign with strokes of a width by lot; undefined for one that is no line drawing. */
export function drawGlyph({ group, path, box: [x, y, w, h] }) {
  const edge = (1 + 2 * MARGIN) * Math.max(w, h);
  const view = [x + w / 2 - edge / 2, y + h / 2 - edge / 2, edge, edge].join(' ');
  const svg = `<svg viewBox="${view}" xmlns="http://www.w3.org/2000/svg"><path d="${path}"/></svg>`;
  const pen = between(seeded(`pen ${group}`), THINNEST, THICKEST);
  const known = drawn(svg, SIDES.most);
  const side = (SIDES.most * pen) / penOf(known);
  if (side < SIDES.least) return undefined;
  return side < SIDES.most ? drawn(svg, Math.round(side)) : known;
}

function drawn(svg, side) {
  const { width, height, data } = renderSvg(svg, { mode: 'width', value: side });
  const ink = Uint8Array.from({ length: width * height }, (_, i) => (data[4 * i] < 128 ? 1 : 0));
  return { width, height, ink };
}

function penOf({ width, height, ink }) {
  return strokeWidth(raster(ink, [width, height])).median;
}
