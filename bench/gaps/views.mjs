// How the eight mirrored and turned views of a drawing agree, after `npm run build`:
//
//   node bench/gaps/views.mjs [--sets vector,hand,brush] [--gaps 0,4,8,16] [--drawings 30]
//
// Prints per set the share of views whose regions agree with those of the drawing as it is (adjusted
// Rand index above .99), and the bridges above a probability of .9 that a view has below .5 or not at all.
import { parseArgs } from 'node:util';
import { adjustedRandIndex, labelRegions, raster, sealGaps } from 'underink';
import { eachDrawing, REPORTED } from './dataset.mjs';

const { values } = parseArgs({
  options: {
    sets: { type: 'string', default: REPORTED.join() },
    gaps: { type: 'string', default: '0,4,8,16' },
    half: { type: 'string', default: 'report' },
    drawings: { type: 'string', default: '30' },
  },
});
const AGREE = 0.99;
const SURE = 0.9;
const UNSURE = 0.5;

const rows = new Map(values.sets.split(',').map((set) => [set, { views: 0, agree: 0, lost: 0 }]));
for await (const cases of eachDrawing({
  sets: values.sets.split(','),
  gaps: values.gaps.split(',').map(Number),
  half: values.half,
  drawings: Number(values.drawings),
  size: 512,
  doubled: false,
})) {
  for (const one of cases) compare(one, rows.get(one.set));
}
console.log('| set | views | agree | sure bridges lost |\n| --- | --- | --- | --- |');
for (const [set, { views, agree, lost }] of rows) {
  console.log(`| ${set} | ${views} | ${((100 * agree) / views).toFixed(1)} % | ${lost} |`);
}

function compare({ ink, width, height }, row) {
  const own = sealGaps(raster(ink, [width, height]));
  const labels = labelRegions(own.sealed, { of: 0 }).labels;
  for (let view = 1; view < 8; view++) {
    const [w, h] = view & 4 ? [height, width] : [width, height];
    const placeOf = (x, y) => {
      const [u, v] = [view & 1 ? width - 1 - x : x, view & 2 ? height - 1 - y : y];
      return view & 4 ? [v, u] : [u, v];
    };
    const turned = new Uint8Array(ink.length);
    const expected = new Int32Array(ink.length);
    for (let y = 0; y < height; y++) {
      for (let x = 0; x < width; x++) {
        const [u, v] = placeOf(x, y);
        turned[v * w + u] = ink[y * width + x];
        expected[v * w + u] = labels.data[y * width + x];
      }
    }
    const other = sealGaps(raster(turned, [w, h]));
    const found = labelRegions(other.sealed, { of: 0 }).labels;
    row.views++;
    if (adjustedRandIndex(raster(expected, [w, h]), found) > AGREE) row.agree++;
    const keyOf = (a, b) => [a, b].map(([x, y]) => `${x} ${y}`).join();
    const known = new Map(other.bridges.map((b) => [keyOf(b.from, b.to), b.probability]));
    for (const { from, to, probability } of own.bridges) {
      if (probability <= SURE) continue;
      const places = [from, to].map(([x, y]) => placeOf(x - 0.5, y - 0.5).map((c) => c + 0.5));
      if ((known.get(keyOf(...places)) ?? 0) < UNSURE) row.lost++;
    }
  }
}
