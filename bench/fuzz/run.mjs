// Damaged files, saved data, plans, tables and hostile polygons: each case must give a sound result or
// a documented error, soon, in bounded memory. The cases run in a worker of bounded memory; a case that
// takes too long ends the run with its number.
// `node bench/fuzz/run.mjs [--count 1000000] [--from 0] [--only plan]`, after `npm run build`.
import { parseArgs } from 'node:util';
import { Worker } from 'node:worker_threads';

const { values } = parseArgs({
  options: {
    count: { type: 'string', default: '1000000' },
    from: { type: 'string', default: '0' },
    only: { type: 'string' },
  },
});

/** Far above what any case took, of computing: more is a hang. */
const MOST_MS = 10_000;
/** Of the worker's heap, and what the process may grow by: files, bombs and garbage too. */
const MOST_HEAP_MB = 512;
const MOST_GROWTH = 2 ** 30;

const at = new Int32Array(new SharedArrayBuffer(4));
const worker = new Worker(new URL('./worker.mjs', import.meta.url), {
  workerData: { at, count: Number(values.count), from: Number(values.from), only: values.only },
  resourceLimits: { maxOldGenerationSizeMb: MOST_HEAP_MB },
});
const before = process.memoryUsage().rss;
let peak = before;
let [last, since] = [-1, computed()];
const guard = setInterval(() => {
  peak = Math.max(peak, process.memoryUsage().rss);
  if (at[0] !== last) [last, since] = [at[0], computed()];
  const problem =
    computed() - since > MOST_MS
      ? 'takes too long'
      : peak - before > MOST_GROWTH
        ? 'takes too much memory'
        : undefined;
  if (problem === undefined) return;
  console.error(`case ${last} ${problem}`);
  process.exit(1);
}, 100);

/** Milliseconds that the process has computed; on a busy machine fewer than went by. */
function computed() {
  const { user, system } = process.cpuUsage();
  return (user + system) / 1000;
}

worker.on('error', (error) => {
  console.error(`case ${at[0]}:`, error);
  process.exit(1);
});
worker.on('exit', (code) => {
  clearInterval(guard);
  console.log(`memory grew by ${((peak - before) / 2 ** 20).toFixed(0)} MiB at most`);
  process.exitCode = code;
});
