// One small picture for each word of the job (docs/guide/01-words.md).
import { composeSheet, findFringe, findHalo, layFlats, paintFlats, raster } from 'underink';
import { border, boxAround, bridge, dot, frame, picture, ring } from './canvas.mjs';
import { halved } from './damage.mjs';
import { coverage, height, laid, pixels, plan, sheet, width, withIndices } from './saltmarrow.mjs';

const { flats, ink } = laid;
const indexOf = (name) => flats.palette.findIndex((swatch) => swatch.name === name);
const near = (at) => boxAround(at, 1);
const close = (at, times = 16) => boxAround(at, times);

const hem = [2792, 640];
await picture('ink', [
  { pixels, box: near(hem), caption: 'the line', marks: [frame(close(hem))] },
  { pixels, box: close(hem), caption: '16 times: its ink, outlined', marks: [border(ink)] },
]);

const gap = laid.report.bridges.find(({ from }) => Math.hypot(from[0] - 2908, from[1] - 640) < 9);
const bell = [2840, 640];
const lip = gap.from.map((v, k) => (v + gap.to[k]) / 2);
await picture('gap', [
  { pixels, box: near(bell), caption: 'the line', marks: [frame(close(lip, 10))] },
  {
    pixels,
    box: close(lip, 10),
    caption: '10 times: the gap, bridged',
    marks: [bridge(gap.from, gap.to)],
  },
]);

/** Flats with the ink over them as a veil. */
function veiled(painted) {
  const data = painted.data.slice();
  for (let i = 0; i < width * height; i++) {
    const share = 1 - (0.62 * coverage.data[i]) / 255;
    for (let c = 0; c < 3; c++) data[4 * i + c] *= share;
  }
  return raster(data, painted.shape);
}
const scarf = [741, 790];
const seam = [712, 862];
const isScarf = raster(
  flats.indices.data.map((index) => Number(index === indexOf('heron scarf'))),
  [width, height],
);
await picture('seam', [
  { pixels: sheet, box: near(scarf), caption: 'what one sees', marks: [frame(close(seam, 8))] },
  {
    pixels: veiled(paintFlats(flats)),
    box: close(seam, 8),
    caption: '8 times, the ink as a veil: the seam',
    marks: [border(isScarf, '#ffffff')],
  },
]);

// Flats that somebody made half as large: edges are blends.
const soft = halved(paintFlats(flats));
const token = [1296, 372];
const edge = [1276, 383];
const fringe = findFringe(soft);
await picture('fringe', [
  {
    pixels: soft,
    box: near(token),
    caption: 'flats, received at half size',
    marks: [frame(close(edge, 10))],
  },
  {
    pixels: soft,
    box: close(edge, 10),
    caption: '10 times: the blended pixels',
    marks: [border(fringe.mask)],
  },
]);

// The ground comes over the rim of a line.
const rim = overRim();
const halo = findHalo(rim.flats, coverage);
await picture('halo', [
  { pixels: sheet, box: close(rim.at, 10), caption: '10 times: the flat goes under the line' },
  {
    pixels: composeSheet(rim.flats, { line: pixels }),
    box: close(rim.at, 10),
    caption: 'it stops short: light shows at the line',
    marks: [border(halo.mask)],
  },
]);

const hole = [585, 1130];
const holed = flats.indices.data.slice();
for (let y = -3; y < 3; y++) {
  const reach = [2, 4, 5, 5, 4, 2][y + 3];
  const from = (hole[1] + y) * width + hole[0] - reach;
  holed.fill(0, from, from + 2 * reach);
}
const isBare = raster(
  holed.map((index) => Number(index === 0)),
  [width, height],
);
const bare = composeSheet(withIndices(holed), { line: pixels });
await picture('bare', [
  { pixels: bare, box: near(hole), caption: 'a coat with a hole', marks: [frame(close(hole, 10))] },
  {
    pixels: bare,
    box: close(hole, 10),
    caption: '10 times: no flat here',
    marks: [border(isBare)],
  },
]);

// Only a point in the neck: the cheek, which a closed gap parts from it, is claimed.
const neck = [590.5, 420.5];
const naming = { ...plan, marks: [{ point: neck, swatch: 'heron plumage' }] };
const [apart, claimed] = ['each', 'claim'].map((unnamed) =>
  layFlats(pixels, { plan: naming, unnamed }),
);
const [claim] = claimed.report.claimed;
const closing = apart.report.bridges.find(
  ({ drawn, from }) => drawn && isNear(from, [633, 315], 12),
);
const face = [560, 320];
await picture('claimed', [
  {
    pixels: composeSheet(apart.flats, { line: pixels }),
    box: near(face),
    caption: 'one point, and a gap that was closed',
    marks: [dot(neck), bridge(closing.from, closing.to)],
  },
  {
    pixels: composeSheet(claimed.flats, { line: pixels }),
    box: near(face),
    caption: 'what only that gap parts off is claimed',
    marks: [dot(neck), ring(claim.at, 14)],
  },
]);

// A gap that is closed only because the points on both sides ask for it.
const [inside, outside] = [
  { point: [2337.5, 721.5], swatch: 'brass' },
  { point: [2343.5, 754.5], swatch: 'ground' },
];
const [one, two] = [[outside], [outside, inside]].map((marks) =>
  layFlats(pixels, { plan: { ...plan, marks }, unnamed: 'claim' }),
);
const forced = two.report.bridges.find((bridge) => bridge.forced);
const whistle = boxAround([2340, 737], 4);
await picture('forced', [
  {
    pixels: composeSheet(one.flats, { line: pixels }),
    box: whistle,
    caption: '4 times: in doubt, a gap is left open',
    marks: [dot(outside.point)],
  },
  {
    pixels: composeSheet(two.flats, { line: pixels }),
    box: whistle,
    caption: 'two points ask for two regions: forced',
    marks: [dot(outside.point), dot(inside.point), bridge(forced.from, forced.to)],
  },
]);

function isNear([x0, y0], [x1, y1], within) {
  return Math.hypot(x0 - x1, y0 - y1) < within;
}

/** The ground laid over the soft rim of the coat's line, and where. */
function overRim() {
  const { data } = flats.indices;
  const [coat, ground] = [indexOf('heron coat'), indexOf('ground')];
  const isRim = (i) =>
    data[i] === coat &&
    coverage.data[i] > 60 &&
    coverage.data[i] < 200 &&
    [-1, 1, -width, width].some((d) => coverage.data[i + d] === 0 && data[i + d] === coat);
  const start = 1000 * width;
  const at = start + data.subarray(start).findIndex((_, i) => isRim(start + i));
  const indices = data.slice();
  for (let y = -7; y <= 7; y++) {
    for (let x = -7; x <= 7; x++) {
      const i = at + y * width + x;
      if (coverage.data[i] > 0 && data[i] === coat) indices[i] = ground;
    }
  }
  return { flats: withIndices(indices), at: [at % width, Math.floor(at / width)] };
}
