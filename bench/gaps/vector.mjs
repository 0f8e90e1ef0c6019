// Set `vector`: line groups of openmoji with strokes of another width, rasterized.
import { Resvg } from '@resvg/resvg-js';
import { between, seeded } from './random.mjs';

/** Stroke widths of the drawings, in pixels. */
const THINNEST = 3;
const THICKEST = 14;
/** Units of an openmoji drawing on each side; its strokes are two wide. */
export const UNITS = 72;
const STROKE = 2;

/** The stroke width in which a drawing is drawn, in pixels. */
export function penOf({ group }) {
  return between(seeded(`pen ${group}`), THINNEST, THICKEST);
}

/** Ink of a drawing, `size` pixels on each side, with strokes of `pen` pixels. */
export function drawVector({ markup }, size, pen) {
  const factor = (pen * UNITS) / (size * STROKE);
  const lines = markup.replaceAll(
    /stroke-width="([^"]*)"/g,
    (_, width) => `stroke-width="${Number(width) * factor}"`,
  );
  const svg = `<svg viewBox="0 0 ${UNITS} ${UNITS}" xmlns="http://www.w3.org/2000/svg">${lines}</svg>`;
  const { width, height, data } = renderSvg(svg, { mode: 'width', value: size });
  const ink = Uint8Array.from({ length: width * height }, (_, i) => (data[4 * i] < 128 ? 1 : 0));
  return { width, height, ink };
}

/** RGBA of an SVG over white. */
export function renderSvg(svg, fitTo) {
  const options = { fitTo, background: '#ffffff', font: { loadSystemFonts: false } };
  const image = new Resvg(svg, options).render();
  const { width, height, pixels } = image; // a getter that copies: read once
  return { width, height, data: new Uint8Array(pixels) };
}
