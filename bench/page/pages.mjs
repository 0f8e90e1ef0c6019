// The pages that are corrected: the demo's model sheet with its plan, and A4 with openmoji drawings.
import { readFileSync } from 'node:fs';
import { raster, readPng } from 'underink';
import { drawPage, HEIGHT, WIDTH } from '../lay-flats/page.mjs';

/** Pixels of a page and the plan that is corrected. */
export function pageOf(name) {
  if (name === 'saltmarrow') return saltmarrow();
  if (name === 'a4-600') return a4(drawPage(), WIDTH, HEIGHT);
  if (name === 'a4-300') return a4(halved(drawPage()), WIDTH >> 1, HEIGHT >> 1);
  throw new RangeError(`--pages must be of saltmarrow, a4-300, a4-600, got ${name}`);
}

function saltmarrow() {
  const read = (file) =>
    readFileSync(new URL(`../../examples/saltmarrow/${file}`, import.meta.url));
  const plan = JSON.parse(read('plan.json'));
  const { marks, palette } = JSON.parse(read('corrections.json'));
  plan.marks.push(...marks);
  plan.palette.push(...palette);
  return { pixels: readPng(read('model-sheet.png')).pixels, plan };
}

function a4(gray, width, height) {
  const palette = ['shell', 'scarf', 'plumes', 'fur'].map((swatch, i) => {
    return { name: swatch, color: `#${i + 4}0${i + 5}0${i + 6}0` };
  });
  return {
    pixels: raster(gray, [width, height]),
    plan: { version: 1, size: [width, height], palette, marks: [] },
  };
}

/** Half as large: means of 2 × 2 pixels. */
function halved(gray) {
  const [width, height] = [WIDTH >> 1, HEIGHT >> 1];
  const half = new Uint8Array(width * height);
  for (let y = 0; y < height; y++) {
    for (let x = 0; x < width; x++) {
      const p = 2 * y * WIDTH + 2 * x;
      half[y * width + x] =
        (gray[p] + gray[p + 1] + gray[p + WIDTH] + gray[p + WIDTH + 1] + 2) >> 2;
    }
  }
  return half;
}
