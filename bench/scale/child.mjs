// One call on one page in a process of its own, so that its memory is its own:
// `child.mjs <pattern> <call> <width> <height>` prints JSON.
import { readFileSync, writeFileSync } from 'node:fs';
import { CALLS, inputsOf } from './calls.mjs';
import { drawPattern } from './patterns.mjs';

const [, , pattern, call, ...sides] = process.argv;
const [width, height] = sides.map(Number);
const of = inputsOf(drawPattern(pattern, width, height), width, height);
const { needs, run } = CALLS[call];
for (const name of needs) of(name);
globalThis.gc?.();
// Linux: the highest resident size is counted anew from here on.
writeFileSync('/proc/self/clear_refs', '5');
const resident = (field) =>
  1024 *
  Number(new RegExp(`${field}:\\s+(\\d+)`).exec(readFileSync('/proc/self/status', 'utf8'))[1]);
const before = resident('VmRSS');
const start = performance.now();
let found;
try {
  found = run(of, [width, height]);
} catch (error) {
  // more regions than swatches is an answer, too: a documented error
  if (!(error instanceof RangeError) || !/ must /.test(error.message)) throw error;
  found = error.message;
}
const ms = performance.now() - start;
const bytes = Math.max(0, resident('VmHWM') - before);
console.log(JSON.stringify({ ms, bytesPerPixel: bytes / (width * height), found }));
