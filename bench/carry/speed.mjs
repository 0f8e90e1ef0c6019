// How long carrying over takes on a page of A4 at 600 dpi beside `layFlats`, after `npm run build`, in
// processor time, which other work on the machine changes little.
import {
  carryFlats,
  carryPlan,
  draftPlan,
  inkCoverage,
  layFlats,
  raster,
  thresholdInk,
} from 'underink';
import { drawPage, HEIGHT, WIDTH } from '../lay-flats/page.mjs';

const ink = thresholdInk(inkCoverage(raster(drawPage(), [WIDTH, HEIGHT])));
/** The page seven pixels to the right and four up. */
const moved = raster(new Uint8Array(WIDTH * HEIGHT), [WIDTH, HEIGHT]);
for (let y = 4; y < HEIGHT; y++) {
  const row = ink.data.subarray(y * WIDTH, (y + 1) * WIDTH - 7);
  moved.data.set(row, (y - 4) * WIDTH + 7);
}
const laid = layFlats({ ink });
const plan = draftPlan(laid);

const base = time('layFlats', (onProgress) => layFlats({ ink: moved }, { onProgress }));
for (const [name, run] of [
  ['carryFlats', (onProgress) => carryFlats(laid.flats, ink, moved, { onProgress })],
  ['carryPlan', (onProgress) => carryPlan(plan, ink, moved, { onProgress })],
]) {
  const ms = time(name, run);
  console.log(`${name}: ${(ms / base).toFixed(2)} times layFlats`);
}

/** Processor time of a call in ms; prints that, the time of its stages and its longest pause likewise. */
function time(name, run) {
  const stages = new Map();
  const started = cpuMs();
  let last = started;
  let stage = 'start';
  let pause = [0, ''];
  const step = (next) => {
    const now = cpuMs();
    stages.set(stage, (stages.get(stage) ?? 0) + now - last);
    if (now - last > pause[0]) pause = [now - last, `${stage} to ${next}`];
    [last, stage] = [now, next];
  };
  run((progress) => step(progress.stage));
  step('end');
  const list = [...stages].map(([key, ms]) => `${key} ${ms.toFixed(0)}`).join(', ');
  const ms = last - started;
  console.log(
    `${name}: ${ms.toFixed(0)} ms (${list}); longest pause ${pause[0].toFixed(0)} ms, ${pause[1]}`,
  );
  return ms;
}

function cpuMs() {
  const { user, system } = process.cpuUsage();
  return (user + system) / 1000;
}
