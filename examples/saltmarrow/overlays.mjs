import { raster } from 'underink';

/**
 * A colored map of regions: hues by the golden angle, so that ids that follow one another differ;
 * the region of the first pixel, the ground, is pale.
 * @param {import('underink').Labels} labels
 */
export function paintMap(labels) {
  const count = labels.data.reduce((most, id) => Math.max(most, id), 0);
  const colors = new Uint8Array(3 * (count + 1));
  for (let id = 1; id <= count; id++) {
    const hue = (id * 137.508) % 360;
    for (let c = 0; c < 3; c++) {
      const wave = Math.cos(((hue - c * 120) * Math.PI) / 180);
      colors[3 * id + c] = Math.round(165 + 62 * wave + 18 * ((id % 3) - 1));
    }
  }
  colors.fill(244, 3 * labels.data[0], 3 * labels.data[0] + 3);
  const map = new Uint8Array(3 * labels.data.length);
  for (let i = 0; i < labels.data.length; i++) {
    const at = 3 * labels.data[i];
    map[3 * i] = colors[at];
    map[3 * i + 1] = colors[at + 1];
    map[3 * i + 2] = colors[at + 2];
  }
  return raster(map, [...labels.shape, 3]);
}

const CLOSED = [0, 140, 90];
const OPEN = [230, 150, 0];
const FINDING = [215, 0, 60];

/**
 * The flats, paled, with the ink and what a person should look at: gaps that were closed (green
 * rings), doubtful ones left open (amber rings) and findings of the checks (red boxes).
 */
export function paintFindings(painted, { ink, sealed, findings, report }) {
  const [width, height] = ink.shape;
  const out = new Uint8Array(3 * width * height);
  for (let i = 0; i < width * height; i++) {
    for (let c = 0; c < 3; c++) {
      const paled = 255 - (255 - painted.data[4 * i + c]) * 0.35;
      out[3 * i + c] = ink.data[i] === 1 ? 70 : sealed.data[i] === 1 ? CLOSED[c] : paled;
    }
  }
  const plot = (x, y, color) => {
    const [u, v] = [Math.round(x), Math.round(y)];
    if (u >= 0 && v >= 0 && u < width && v < height) out.set(color, 3 * (v * width + u));
  };
  for (const { from, to, drawn, doubtful } of report.bridges) {
    if (!drawn && !doubtful) continue;
    const [x, y] = [(from[0] + to[0]) / 2, (from[1] + to[1]) / 2];
    for (let r = 22; r < 27; r += 0.5) {
      for (let a = 0; a < 360; a++) {
        const angle = (a * Math.PI) / 180;
        plot(x + r * Math.cos(angle), y + r * Math.sin(angle), drawn ? CLOSED : OPEN);
      }
    }
  }
  for (const { bounds } of findings) {
    const [x0, y0, x1, y1] = bounds;
    for (let t = 3; t < 7; t++) {
      for (let x = x0 - t; x < x1 + t; x++)
        for (const y of [y0 - t, y1 + t - 1]) plot(x, y, FINDING);
      for (let y = y0 - t; y < y1 + t; y++)
        for (const x of [x0 - t, x1 + t - 1]) plot(x, y, FINDING);
    }
  }
  return raster(out, [width, height, 3]);
}
