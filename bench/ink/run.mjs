// How well each method finds the ink of degraded pages: `node bench/ink/run.mjs [--pages 25]`,
// after `npm run build`. Prints tables in Markdown: F1 of the pixels of ink against the clean page's.
import { parseArgs } from 'node:util';
import { inkCoverage, raster, removeSpecks, thresholdInk } from 'underink';
import { DEGRADATIONS, degrade } from './degrade.mjs';
import { HEIGHT, inkPages, WIDTH } from './pages.mjs';

const { values } = parseArgs({ options: { pages: { type: 'string', default: '25' } } });
const count = Number(values.pages);
if (!Number.isInteger(count) || count < 1) {
  throw new RangeError(`--pages must be a whole number >= 1, got ${values.pages}`);
}
const METHODS = {
  default: (pixels) => thresholdInk(inkCoverage(pixels)),
  otsu: (pixels) => thresholdInk(inkCoverage(pixels), { method: 'otsu' }),
  fixed: (pixels) => thresholdInk(inkCoverage(pixels), { method: 'fixed' }),
  sauvola: (pixels) => thresholdInk(inkCoverage(pixels), { method: 'sauvola' }),
  hysteresis: (pixels) => thresholdInk(inkCoverage(pixels), { method: 'hysteresis' }),
  'blue dropped': (pixels) => thresholdInk(inkCoverage(pixels, { dropHue: true })),
  'specks removed': (pixels) => removeSpecks(thresholdInk(inkCoverage(pixels))),
};
const pages = inkPages(count);
for (const { name, unit, steps } of DEGRADATIONS) {
  console.log(`| ${name}, ${unit} | ${Object.keys(METHODS).join(' | ')} |`);
  console.log(`| --- |${' ---: |'.repeat(Object.keys(METHODS).length)}`);
  for (const step of steps) {
    const sums = Object.keys(METHODS).map(() => [0, 0, 0]);
    for (const page of pages) {
      const pixels = raster(degrade(page, name, step), [WIDTH, HEIGHT, 3]);
      Object.values(METHODS).forEach((method, m) => {
        const found = method(pixels).data;
        for (let i = 0; i < found.length; i++) {
          sums[m][0] += found[i] & page.ink[i];
          sums[m][1] += found[i];
          sums[m][2] += page.ink[i];
        }
      });
    }
    const scores = sums.map(([both, found, truth]) => ((2 * both) / (found + truth)).toFixed(3));
    console.log(`| ${step} | ${scores.join(' | ')} |`);
  }
  console.log();
}
