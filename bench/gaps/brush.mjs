// Set `brush`: drawings by many hands with the artists' own flats, as line art.
import { readFileSync } from 'node:fs';
import { renderSvg } from './vector.mjs';

/** Pixels on the longer side; luma (Rec. 601) below which a pixel is ink. */
const SIDE = 700;
const INK = 80;

/** Ink of a drawing, and the colors of its pixels as 0xrrggbb. */
export function drawBrush({ path }) {
  const svg = readFileSync(path, 'utf8');
  const original = renderSvg(svg, { mode: 'original' });
  const mode = original.width >= original.height ? 'width' : 'height';
  const { width, height, data } = renderSvg(svg, { mode, value: SIDE });
  const ink = new Uint8Array(width * height);
  const colors = new Int32Array(width * height);
  for (let i = 0, p = 0; i < ink.length; i++, p += 4) {
    const [r, g, b] = data.subarray(p, p + 3);
    colors[i] = (r << 16) | (g << 8) | b;
    ink[i] = 0.299 * r + 0.587 * g + 0.114 * b < INK ? 1 : 0;
  }
  return { width, height, ink, colors };
}
