// One run of the bench in a process of its own: `child.mjs <page file> time|memory`, prints JSON.
import { createHash } from 'node:crypto';
import { readFileSync } from 'node:fs';
import { performance } from 'node:perf_hooks';
import { layFlats, raster } from 'underink';
import { watchMemory } from './memory.mjs';
import { HEIGHT, WIDTH } from './page.mjs';

const [, , file, mode] = process.argv;
const pixels = raster(new Uint8Array(readFileSync(file).buffer), [WIDTH, HEIGHT]);
const watch = mode === 'memory' ? watchMemory() : undefined;
const pauses = [];
const stages = new Map();

const started = performance.now();
let last = started;
let stage = 'start';
const step = (next) => {
  const now = performance.now();
  stages.set(stage, (stages.get(stage) ?? 0) + now - last);
  pauses.push({ ms: now - last, between: `${stage} and ${next}` });
  watch?.sample();
  stage = next;
  last = performance.now();
};
const { flats, labels, report } = layFlats(pixels, {
  onProgress: (progress) => step(progress.stage),
});
step('end');
const ms = performance.now() - started;

const hash = createHash('sha256').update(new Uint8Array(flats.indices.data.buffer));
hash.update(new Uint8Array(labels.data.buffer));
console.log(
  JSON.stringify({
    ms,
    stages: Object.fromEntries(stages),
    pauses: pauses.sort((a, b) => b.ms - a.ms).slice(0, 5),
    regions: report.regions,
    bridges: report.bridges.filter((bridge) => bridge.drawn).length,
    checksum: hash.digest('hex').slice(0, 16),
    rssMiB: process.resourceUsage().maxRSS / 1024,
    peakBytes: watch?.peak,
  }),
);
