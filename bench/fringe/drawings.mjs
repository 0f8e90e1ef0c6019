// Color drawings of openmoji (https://openmoji.org, CC BY-SA 4.0), rendered by resvg: antialiased,
// crisp, and crisp at eight times the size, which says how much of each pixel each color covers.
import { createHash } from 'node:crypto';
import { readdirSync, readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { dirname, join } from 'node:path';
import { Resvg } from '@resvg/resvg-js';
import sharp from 'sharp';

/** Crisp samples on each side of a pixel. */
const FINE = 8;
/** Two leading colors so many samples of 64 apart or nearer are a tie. */
const TIE = 4;

/** What makes colors that no area has, or an antialiased crisp rendering: left out. */
const BLENDING = /opacity|Gradient|filter|<text|<mask|<image|<pattern|blend-mode|rgba\(/i;

/**
 * The first `count` drawings, ordered by the hash of their markup so that any count is spread over
 * all, and how many were passed over on the way because they blend.
 */
export function colorDrawings(count) {
  const require = createRequire(import.meta.url);
  const folder = join(dirname(require.resolve('openmoji/package.json')), 'color', 'svg');
  const all = readdirSync(folder)
    .sort()
    .map((file) => ({
      name: file.replace('.svg', ''),
      svg: readFileSync(join(folder, file), 'utf8'),
    }))
    .map((drawing) => ({ ...drawing, key: createHash('sha256').update(drawing.svg).digest('hex') }))
    .sort((a, b) => (a.key < b.key ? -1 : 1));
  const drawings = [];
  let leftOut = 0;
  for (const { name, svg } of all) {
    if (drawings.length === count) break;
    if (BLENDING.test(svg)) leftOut++;
    else drawings.push({ name, svg });
  }
  return { drawings, leftOut };
}

/** RGBA of a drawing over white, `size` pixels on each side, by one of two independent rasterisers. */
export const RENDERERS = { resvg: renderResvg, cairo: renderCairo };

/** RGBA of a drawing over white by resvg: 4 × 4 samples a pixel where it is antialiased. */
async function renderResvg(svg, size, crisp) {
  const options = {
    fitTo: { mode: 'width', value: size },
    background: '#ffffff',
    font: { loadSystemFonts: false },
  };
  const image = new Resvg(shaped(svg, crisp), options).render();
  return new Uint8Array(image.pixels); // a getter that copies: read once
}

/** The same by librsvg over cairo: exact along rows, 15 samples down a pixel. */
async function renderCairo(svg, size, crisp) {
  const markup = shaped(svg, crisp).replace('<svg ', `<svg width="${size}" height="${size}" `);
  const image = sharp(Buffer.from(markup)).flatten({ background: '#ffffff' }).ensureAlpha();
  return new Uint8Array(await image.raw().toBuffer());
}

function shaped(svg, crisp) {
  return crisp ? svg.replace('<svg ', '<svg shape-rendering="crispEdges" ') : svg;
}

/**
 * Everything known of a drawing: `soft` and `hard` (RGBA), `even` (RGBA, the mean of the
 * crisp samples of each pixel), `colors` (words) and, for each pixel,
 * `lead` (the color that covers most of it, as an index into `colors`) and `kind`: 0 off the
 * border, 1 on it, 2 a tie.
 */
export async function truthOf(svg, size, renderer) {
  const render = RENDERERS[renderer];
  const fine = new Uint32Array((await render(svg, size * FINE, true)).slice().buffer);
  const colors = [];
  const indexOf = new Map();
  const lead = new Uint8Array(size * size);
  const kind = new Uint8Array(size * size);
  const seen = new Int32Array(256);
  const list = [];
  const width = size * FINE;
  for (let i = 0; i < lead.length; i++) {
    const x = (i % size) * FINE;
    const y = Math.floor(i / size) * FINE;
    list.length = 0;
    let last = -1;
    let index = 0;
    for (let dy = 0; dy < FINE; dy++) {
      for (let p = (y + dy) * width + x, end = p + FINE; p < end; p++) {
        const word = fine[p];
        if (word !== last) {
          last = word;
          index = indexOf.get(word);
          if (index === undefined) {
            index = colors.length;
            indexOf.set(word, index);
            colors.push(word);
          }
        }
        if (seen[index]++ === 0) list.push(index);
      }
    }
    let best = -1;
    let first = 0;
    let second = 0;
    for (const k of list) {
      const n = seen[k];
      seen[k] = 0;
      if (n > first) {
        second = first;
        first = n;
        best = k;
      } else if (n > second) second = n;
    }
    lead[i] = best;
    kind[i] = list.length === 1 ? 0 : first - second <= TIE ? 2 : 1;
  }
  const soft = await render(svg, size, false);
  const hard = await render(svg, size, true);
  const even = meanOf(fine, size);
  return { size, soft, hard, even, colors, lead, kind };
}

/** RGBA of the mean of each pixel's samples: antialiased without the rasteriser's own rounding. */
function meanOf(fine, size) {
  const bytes = new Uint8Array(fine.buffer);
  const even = new Uint8Array(4 * size * size);
  const width = size * FINE;
  for (let i = 0; i < size * size; i++) {
    const x = (i % size) * FINE;
    const y = Math.floor(i / size) * FINE;
    for (let c = 0; c < 4; c++) {
      let sum = 0;
      for (let dy = 0; dy < FINE; dy++) {
        const row = 4 * ((y + dy) * width + x) + c;
        for (let dx = 0; dx < FINE; dx++) sum += bytes[row + 4 * dx];
      }
      even[4 * i + c] = Math.round(sum / (FINE * FINE));
    }
  }
  return even;
}
