// The first call of one operation in this process and those that follow, for `run.mjs --cold`, as JSON:
// `node cold.mjs BUNDLE PAGE WIDTH HEIGHT OPERATION ROUNDS`.
import { readFileSync } from 'node:fs';
import { loadBundle } from './builds.mjs';
import { operationsOn } from './operations.mjs';

const [bundle, file, width, height, number, rounds] = process.argv.slice(2);
// A copy, since what is read may begin anywhere in memory.
const data = Uint8Array.from(readFileSync(file));
const page = { data, width: Number(width), height: Number(height) };
const { own, needs } = operationsOn(page, await loadBundle(bundle))[Number(number)];
for (const make of needs) make();
const times = Array.from({ length: 1 + Number(rounds) }, () => {
  const start = performance.now();
  const { ms } = own();
  return ms ?? performance.now() - start;
});
const [first, ...warm] = times;
console.log(JSON.stringify({ first, warm }));
