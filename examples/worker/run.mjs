// Runs the worker on the demo's sheet: `npm run build && node examples/worker/run.mjs`. Opens the page,
// corrects it, stops an update on its way, takes a correction back, and moves the page to a second
// worker.
import { deepStrictEqual, ok, strictEqual } from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import { Worker } from 'node:worker_threads';
import { readPng } from 'underink';
import { PageClient } from './page-client.mjs';

const here = (path) => new URL(path, import.meta.url);
const start = () => new Worker(here('page-worker.mjs'));
const { pixels } = readPng(readFileSync(here('../saltmarrow/model-sheet.png')));
const plan = JSON.parse(readFileSync(here('../saltmarrow/plan.json'), 'utf8'));
const [width, height, channels] = pixels.shape;

const worker = start();
const page = new PageClient(worker);
const stages = new Set();
const input = { data: pixels.data, width, height, channels: channels ?? 1 };
const first = await page.open(input, {
  plan,
  transfer: [pixels.data.buffer],
  onProgress: ({ stage }) => stages.add(stage),
});
strictEqual(first.picture.data.length, 4 * width * height);
console.log(`opened: ${first.report.regions} regions, by way of ${[...stages].join(', ')}`);

const [x, y] = plan.marks[0].point;
const polygon = [
  [
    [x, y],
    [x + 200, y],
    [x + 100, y + 200],
  ],
];
const corrected = {
  ...plan,
  marks: [...plan.marks, { polygon, swatch: plan.palette[0].name, over: true }],
};
const update = await page.update(corrected);
console.log(`a polygon: changed ${update.changed}, regions new ${update.addedIds.length}`);
const region = await page.regionAt([x + 100.5, y + 50.5]);
const { bounds, area } = await page.regionMask(region);
console.log(`the region there has ${area} px within ${bounds}`);

const stopped = page
  .update({ ...corrected, settings: { caution: 0.1 } })
  .catch((error) => error.name);
page.stop();
strictEqual(await stopped, 'AbortError');
console.log('an update was stopped; the page is as before');
strictEqual(await page.regionAt([x + 100.5, y + 50.5]), region);

const undone = await page.update(plan);
deepStrictEqual(undone.report.regions, first.report.regions);
console.log(`undone: changed ${undone.changed}`);

const other = start();
const moved = new PageClient(other);
const again = await moved.open(await page.save());
strictEqual(again.report.regions, first.report.regions);
ok(again.picture.data.every((value, i) => value === first.picture.data[i]));
console.log('moved to another worker: the same picture');
await Promise.all([worker.terminate(), other.terminate()]);
