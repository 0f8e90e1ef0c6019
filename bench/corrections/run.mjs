// Flood fills and polygons on a page of A4 at 600 dpi, beside native OpenCV (Debian's
// `python3-opencv`, one thread) and OpenCV.js, in turns in one run:
// `node bench/corrections/run.mjs [--rounds 7]`, after `npm run build`.
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { performance } from 'node:perf_hooks';
import { fileURLToPath } from 'node:url';
import { parseArgs } from 'node:util';
import { fillPolygon, floodFill, labelEqual, measureRegions, raster } from 'underink';
import { drawPage, HEIGHT, WIDTH } from '../lay-flats/page.mjs';
import { startNative } from '../native.mjs';
import { localPolygons, pagePolygons } from './polygons.mjs';

const { values } = parseArgs({ options: { rounds: { type: 'string', default: '7' } } });
const rounds = Number(values.rounds);
if (!Number.isInteger(rounds) || rounds < 3) {
  throw new RangeError(`--rounds must be a whole number >= 3, got ${values.rounds}`);
}

const page = drawPage().map((v) => (v < 128 ? 0 : 255));
const polygons = [...pagePolygons(1000, WIDTH, HEIGHT), ...localPolygons(1000, WIDTH, HEIGHT)];
// OpenCV's whole coordinates are centers of pixels.
const rings = polygons.map((polygon) => polygon.map(([x, y]) => [x + 0.5, y + 0.5]));
const seeds = seedsOf(page);
const jobs = [
  { name: 'flood, the largest region', target: 0.6, do: 'flood', seeds: seeds.slice(0, 1) },
  { name: 'flood, 200 regions', target: 0.6, do: 'flood', seeds },
  { name: 'polygons across the page', target: 1.5, do: 'polygons', from: 0, to: 1000 },
  { name: 'polygons of 50 to 1500 px', target: 1.5, do: 'polygons', from: 1000, to: 2000 },
];

const folder = mkdtempSync(join(tmpdir(), 'corrections-'));
try {
  const native = await openNative(folder);
  const peers = { underink: own, native, 'OpenCV.js': await startWasm() };
  for (const job of jobs) print(job, await compare(job, peers));
  native.stop();
} finally {
  rmSync(folder, { recursive: true });
}

/** A pixel of each of 200 paper regions, the largest first. */
function seedsOf(data) {
  const { labels } = labelEqual(raster(data, [WIDTH, HEIGHT]));
  const { area } = measureRegions(labels);
  const paper = new Map();
  for (let i = 0; i < data.length; i++) {
    if (data[i] === 255 && !paper.has(labels.data[i])) paper.set(labels.data[i], i);
  }
  return [...paper]
    .sort(([a], [b]) => area[b] - area[a])
    .slice(0, 200)
    .map(([, i]) => [i % WIDTH, Math.floor(i / WIDTH)]);
}

async function compare(job, peers) {
  const times = Object.fromEntries(Object.keys(peers).map((name) => [name, []]));
  const totals = {};
  // Turns that are not counted, until the code is compiled: floods are short.
  const warm = job.do === 'flood' ? 4 : 1;
  for (let round = 1 - warm; round <= rounds; round++) {
    for (const [name, peer] of Object.entries(peers)) {
      const { ms, total } = await peer(job);
      if (round > 0) times[name].push(ms);
      totals[name] = total;
    }
  }
  return { times, totals };
}

function own(job) {
  const data = page.slice();
  const target = raster(data, [WIDTH, HEIGHT]);
  let total = 0;
  const start = performance.now();
  if (job.do === 'flood')
    for (const seed of job.seeds) total += floodFill(target, seed, 77).changed;
  else {
    for (let k = job.from; k < job.to; k++) {
      fillPolygon(target, [rings[k]], ((k - job.from) % 250) + 1);
    }
  }
  const ms = performance.now() - start;
  if (job.do === 'polygons') for (let i = 0; i < data.length; i++) if (data[i] !== page[i]) total++;
  return { ms, total };
}

function openNative(to) {
  const files = [join(to, 'page.gray'), join(to, 'polygons.json')];
  writeFileSync(files[0], page);
  writeFileSync(files[1], JSON.stringify(polygons));
  const script = fileURLToPath(new URL('peer.py', import.meta.url));
  return startNative(script, [...files, `${WIDTH}`, `${HEIGHT}`], rounds);
}

async function startWasm() {
  const cv = createRequire(import.meta.url)('@techstark/opencv-js');
  if (cv.Mat === undefined) {
    await new Promise((resolve) => {
      cv.onRuntimeInitialized = resolve;
    });
  }
  const whole = new cv.Mat(HEIGHT, WIDTH, cv.CV_8UC1);
  whole.data.set(page);
  const contours = polygons.map((p) => {
    const list = new cv.MatVector();
    list.push_back(cv.matFromArray(p.length, 1, cv.CV_32SC2, p.flat()));
    return list;
  });
  return (job) => {
    const target = whole.clone();
    const rect = new cv.Rect();
    let total = 0;
    const start = performance.now();
    if (job.do === 'flood') {
      const zero = new cv.Scalar(0);
      for (const [x, y] of job.seeds) {
        const mask = new cv.Mat();
        const at = new cv.Point(x, y);
        total += cv.floodFill(
          target,
          mask,
          at,
          new cv.Scalar(77),
          rect,
          zero,
          zero,
          4 | cv.FLOODFILL_FIXED_RANGE,
        );
        mask.delete();
      }
    } else {
      for (let k = job.from; k < job.to; k++) {
        cv.fillPoly(target, contours[k], new cv.Scalar(((k - job.from) % 250) + 1));
      }
    }
    const ms = performance.now() - start;
    if (job.do === 'polygons') {
      const { data } = target;
      for (let i = 0; i < data.length; i++) if (data[i] !== page[i]) total++;
    }
    target.delete();
    return { ms, total };
  };
}

function print({ name, target }, { times, totals }) {
  console.log(`${name}: target ${target} × native`);
  const median = (list) => [...list].sort((a, b) => a - b)[list.length >> 1];
  const base = median(times.native);
  for (const [peer, list] of Object.entries(times)) {
    const ratio = (median(list) / base).toFixed(2);
    const spread = `${Math.min(...list).toFixed(1)} to ${Math.max(...list).toFixed(1)}`;
    console.log(
      `  ${peer.padEnd(9)} ${ratio} × native, median ${median(list).toFixed(1)} ms (${spread}), ${totals[peer]} pixels`,
    );
  }
  if (name.startsWith('polygons')) {
    console.log(
      '  (OpenCV’s polygons hold their border too, so its pixel counts are a little higher)',
    );
  }
}
