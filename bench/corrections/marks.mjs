// How long the marks of a plan take to act, by how many there are: `node bench/corrections/marks.mjs`,
// after `npm run build`. Prints the median of some rounds and the longest pause between two calls of
// `onProgress`, which `layFlats` gives while marks act.
import { performance } from 'node:perf_hooks';
import { applyPlan, layFlats, raster } from 'underink';

const ROUNDS = 3;
const palette = ['shell', 'scarf', 'fur'].map((name, i) => ({ name, color: `#${i + 1}02030` }));
const swatchOf = (i) => palette[i % palette.length].name;

/** A page of one region, or of square cells of so many pixels. */
function page(side, cell = side) {
  const columns = Math.ceil(side / cell);
  const id = (i) => 1 + Math.floor((i % side) / cell) + columns * Math.floor(i / side / cell);
  return raster(
    Int32Array.from({ length: side * side }, (_, i) => id(i)),
    [side, side],
  );
}

const square = (x0, y0, x1, y1) => [
  [
    [x0, y0],
    [x1, y0],
    [x1, y1],
    [x0, y1],
  ],
];

/** Squares one in another. */
const nested = (count, side) =>
  Array.from({ length: count }, (_, i) => {
    const inset = ((i + 1) * side) / (2 * count + 4);
    return {
      polygon: square(inset, inset, side - inset, side - inset),
      swatch: swatchOf(i),
      over: true,
    };
  });

/** Squares side by side, and a point beside each. */
const scattered = (count, side) => {
  const columns = Math.ceil(Math.sqrt(count));
  const step = side / columns;
  return Array.from({ length: count }, (_, i) => {
    const [x, y] = [(i % columns) * step, Math.floor(i / columns) * step];
    const polygon = square(x + 1, y + 1, x + step / 2, y + step / 2);
    return [
      { polygon, swatch: swatchOf(i), over: true },
      { point: [x + 0.75 * step, y + 0.75 * step], swatch: 'fur' },
    ];
  }).flat();
};

const fills = (count, side) =>
  Array.from({ length: count }, (_, i) => ({
    fill: [(i * 37) % side, (i * 91) % side],
    swatch: swatchOf(i),
    over: true,
  }));

const ring = (points, side) =>
  Array.from({ length: points }, (_, i) => {
    const angle = (2 * Math.PI * i) / points;
    const radius = side * (i % 2 === 0 ? 0.48 : 0.3);
    return [side / 2 + radius * Math.cos(angle), side / 2 + radius * Math.sin(angle)];
  });

const strips = (count, side) =>
  Array.from({ length: count }, (_, i) => ({
    cut: [
      [0, ((i + 1) * side) / (count + 1)],
      [side, ((i + 1) * side) / (count + 1)],
    ],
  }));

const jobs = [
  [
    'a polygon of 150,000 points, over',
    page(1500),
    [{ polygon: [ring(150_000, 1500)], swatch: 'fur', over: true }],
  ],
  ...[100, 200, 400, 800].map((n) => [`${n} nested polygons, over`, page(1000), nested(n, 1000)]),
  ...[500, 1000, 2000, 4000].map((n) => [
    `${n} polygons apart, a point after each`,
    page(1000),
    scattered(n, 1000),
  ]),
  ...[300, 600, 1200, 2400].map((n) => [
    `${n} fills, over, on 10,000 cells`,
    page(1000, 10),
    fills(n, 1000),
  ]),
  ...[25, 50, 100].map((n) => [`${n} cuts across`, page(1000), strips(n, 1000)]),
];

for (const [name, labels, marks] of jobs) {
  const size = labels.shape;
  const plan = { version: 1, size, palette, marks };
  const times = Array.from({ length: ROUNDS }, () => {
    const start = performance.now();
    applyPlan(labels, plan, { unnamed: 'shared' });
    return performance.now() - start;
  }).sort((a, b) => a - b);
  const paper = raster(new Uint8Array(size[0] * size[1]), size);
  let last = performance.now();
  let pause = 0;
  const onProgress = () => {
    pause = Math.max(pause, performance.now() - last);
    last = performance.now();
  };
  layFlats({ ink: paper }, { plan, unnamed: 'shared', onProgress });
  console.log(
    `${name.padEnd(44)} ${times[1].toFixed(0).padStart(6)} ms, longest pause ${pause.toFixed(0)} ms`,
  );
}
