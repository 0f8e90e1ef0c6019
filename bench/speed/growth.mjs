// How time grows with the page, from 1 to 100 megapixels: `node bench/speed/growth.mjs [--most 100]
// [--runs 3]`. Pages are squares of line art with 12 drawings across; prints a table of milliseconds and
// of nanoseconds a pixel, least of the runs, and how many times longer ten times the pixels take.
import { parseArgs } from 'node:util';
import { buildOf } from './builds.mjs';
import { drawSquare } from './pages.mjs';

const { values } = parseArgs({
  options: { most: { type: 'string', default: '100' }, runs: { type: 'string', default: '3' } },
});
const runs = Number(values.runs);
const sizes = [1, 10, 100].filter((megapixels) => megapixels <= Number(values.most));
const lib = await buildOf();
const { raster, thresholdInk, labelRegions, growUnderInk, layFlats, squaredDistance } = lib;
const OPERATIONS = {
  'Otsu and mask': ({ coverage }) => thresholdInk(coverage, { method: 'otsu' }),
  'labeling, 4-connected': ({ ink }) => labelRegions(ink, { of: 0 }),
  'exact distance': ({ ink, side }) => squaredDistance(ink.data, side, side),
  'growing under ink': ({ labels, ink }) => growUnderInk(labels, ink),
  layFlats: ({ gray }) => layFlats(gray),
};
const least = Object.fromEntries(Object.keys(OPERATIONS).map((name) => [name, []]));
for (const megapixels of sizes) {
  const { data, width: side } = drawSquare(Math.round(Math.sqrt(megapixels * 1e6)));
  const gray = raster(data, [side, side]);
  const coverage = raster(
    data.map((tone) => 255 - tone),
    [side, side],
  );
  const ink = thresholdInk(coverage, { method: 'fixed', level: 128 });
  const page = { side, gray, coverage, ink, labels: labelRegions(ink, { of: 0 }).labels };
  for (const [name, run] of Object.entries(OPERATIONS)) {
    let best = Number.POSITIVE_INFINITY;
    for (let i = 0; i < runs; i++) {
      const start = performance.now();
      run(page);
      best = Math.min(best, performance.now() - start);
    }
    least[name].push(best);
  }
}
console.log(`| operation | ${sizes.map((size) => `${size} megapixels`).join(' | ')} | growth |`);
console.log(`|---|${sizes.map(() => '--:|').join('')}--:|`);
for (const [name, times] of Object.entries(least)) {
  const cells = times.map((ms, k) => `${ms.toFixed(0)} ms, ${(ms / sizes[k]).toFixed(1)} ns/px`);
  const growth = times.slice(1).map((ms, k) => (ms / times[k]).toFixed(1));
  console.log(`| ${name} | ${cells.join(' | ')} | ${growth.join(', ')} |`);
}
