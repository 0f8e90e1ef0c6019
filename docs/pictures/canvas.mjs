// Pictures of panels side by side, each a part of a drawing magnified by whole pixels or reduced, with
// marks drawn over it and a caption under it.
import { mkdirSync, writeFileSync } from 'node:fs';
import { dirname } from 'node:path';
import { fileURLToPath } from 'node:url';
import sharp from 'sharp';
import { indexFlats, outlineRegions, raster, readPng, writeFlats } from 'underink';

const FOLDER = fileURLToPath(new URL('../guide/pictures/', import.meta.url));
const [PAD, GUTTER, CAPTION] = [12, 16, 30];
/** Sides of one of two panels. */
export const [WIDE, HIGH] = [320, 240];
export const RED = '#d60032';
export const BLUE = '#0b62c4';

/**
 * Writes `name.png`. A panel has `pixels` (of the whole drawing), the `box` of it that is shown, its
 * `caption`, and `marks`: SVG in the coordinates of the drawing.
 */
export async function picture(name, panels, { width = WIDE, height = HIGH } = {}) {
  const across = 2 * PAD + panels.length * width + (panels.length - 1) * GUTTER;
  const down = PAD + height + CAPTION;
  const layers = [];
  let overlay = '';
  for (const [i, { pixels, box, caption, marks = [] }] of panels.entries()) {
    const left = PAD + i * (width + GUTTER);
    layers.push({ input: await shown(pixels, box, width, height), left, top: PAD });
    const scale = width / (box[2] - box[0]);
    overlay += `<svg x="${left}" y="${PAD}" width="${width}" height="${height}">
      <g transform="scale(${scale}) translate(${-box[0]} ${-box[1]})">
      ${marks.map((mark) => mark(scale)).join('')}</g></svg>
      <rect x="${left - 0.5}" y="${PAD - 0.5}" width="${width + 1}" height="${height + 1}"
        fill="none" stroke="#8a8f98"/>
      <text x="${left}" y="${PAD + height + 20}" font-family="DejaVu Sans" font-size="14"
        fill="#22262c">${caption}</text>`;
  }
  const svg = `<svg xmlns="http://www.w3.org/2000/svg" width="${across}" height="${down}">${overlay}</svg>`;
  layers.push({ input: Buffer.from(svg), left: 0, top: 0 });
  const sheet = { width: across, height: down, channels: 3, background: '#ffffff' };
  // sharp brings the picture to few colors; the library writes it.
  const few = await sharp({ create: sheet })
    .composite(layers)
    .png({ palette: true, colors: 160, dither: 0 })
    .toBuffer();
  const { bytes } = writeFlats(named(indexFlats(readPng(few).pixels)));
  save(`${name}.png`, bytes);
}

/** Names of one letter or two, which take less of the file than colors do. */
function named(flats) {
  const short = (swatch, i) => (i === 0 ? swatch : { ...swatch, name: i.toString(36) });
  return { ...flats, palette: flats.palette.map(short) };
}

export function save(name, content) {
  mkdirSync(dirname(FOLDER + name), { recursive: true });
  writeFileSync(FOLDER + name, content);
  console.log(`${name}: ${content.length} bytes`);
}

/** A part of a drawing as a PNG of the panel's sides. */
async function shown(pixels, [x0, y0, x1, y1], width, height) {
  const [w, h] = [x1 - x0, y1 - y0];
  const part = Buffer.alloc(3 * w * h);
  const { data, shape, stride, offset } = pixels;
  const channels = shape[2] ?? 1;
  for (let y = 0, k = 0; y < h; y++) {
    for (let x = 0; x < w; x++, k += 3) {
      const [u, v] = [x0 + x, y0 + y];
      const isIn = u >= 0 && v >= 0 && u < shape[0] && v < shape[1];
      const at = offset + u * stride[0] + v * stride[1];
      for (let c = 0; c < 3; c++) {
        const from = channels < 3 ? at : at + c * stride[2];
        part[k + c] = isIn ? data[from] : 255;
      }
    }
  }
  const image = sharp(part, { raw: { width: w, height: h, channels: 3 } });
  const kernel = w <= width ? 'nearest' : 'lanczos3';
  return await image.resize(width, height, { kernel, fit: 'fill' }).png().toBuffer();
}

/** The border of what a mask holds. */
export function border(mask, color = RED, thick = 3) {
  const labels = raster(Int32Array.from(mask.data), mask.shape);
  const path = outlineRegions(labels)
    .flatMap(({ rings }) => rings)
    .map((ring) => `M${ring.map((point) => point.join(' ')).join('L')}Z`)
    .join('');
  return (scale) =>
    `<path d="${path}" fill="none" stroke="${color}" stroke-width="${thick / scale}"/>`;
}

/** A line from one point to another, with a dot at both ends. */
export function bridge([x0, y0], [x1, y1], color = RED) {
  return (scale) =>
    `<path d="M${x0} ${y0}L${x1} ${y1}" stroke="${color}" stroke-width="${4 / scale}"/>` +
    dot([x0, y0], color, 4)(scale) +
    dot([x1, y1], color, 4)(scale);
}

/** A point that somebody set, ringed in white. */
export function dot([x, y], color = RED, radius = 6) {
  return (scale) =>
    `<circle cx="${x}" cy="${y}" r="${radius / scale}" fill="${color}" stroke="#ffffff"
      stroke-width="${2 / scale}"/>`;
}

/** The frame of a part. */
export function frame([x0, y0, x1, y1], color = RED) {
  return (scale) =>
    `<rect x="${x0}" y="${y0}" width="${x1 - x0}" height="${y1 - y0}" fill="none"
      stroke="${color}" stroke-width="${2.5 / scale}"/>`;
}

/** Straight lines through points. */
export function lines(points, color = RED, close = false) {
  const path = `M${points.map((point) => point.join(' ')).join('L')}${close ? 'Z' : ''}`;
  return (scale) => `<path d="${path}" fill="none" stroke="${color}" stroke-width="${3 / scale}"/>`;
}

/** A ring round a place. */
export function ring([x, y], radius, color = RED) {
  return (scale) =>
    `<circle cx="${x}" cy="${y}" r="${radius / scale}" fill="none" stroke="${color}"
      stroke-width="${3 / scale}"/>`;
}

/** The box of a panel, as many pixels across as fit when each is shown as `times` by `times`. */
export function boxAround([x, y], times, [width, height] = [WIDE, HIGH]) {
  const [w, h] = [width / times, height / times].map(Math.round);
  const [left, top] = [Math.round(x - w / 2), Math.round(y - h / 2)];
  return [left, top, left + w, top + h];
}
