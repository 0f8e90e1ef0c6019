// Large pages and the worst of them: every call finishes, in time that grows as the page does, in bounded
// memory. `node bench/scale/run.mjs [--sizes 3162x3162,10000x10000] [--patterns "line art,noise"]
// [--calls layFlats,…] [--seconds 600]`, after `npm run build`. Prints a table a pattern: milliseconds
// and bytes a pixel by size, and how the time grew from the first size to the last. It fails where a
// call does not end in time, or grows by more than 1.2 times what the pixels do.
import { execFile } from 'node:child_process';
import { fileURLToPath } from 'node:url';
import { parseArgs, promisify } from 'node:util';
import { CALLS } from './calls.mjs';
import { PATTERNS } from './patterns.mjs';

const { values } = parseArgs({
  options: {
    sizes: { type: 'string', default: '3162x3162,10000x10000' },
    patterns: { type: 'string', default: PATTERNS.join() },
    calls: { type: 'string', default: Object.keys(CALLS).join() },
    seconds: { type: 'string', default: '600' },
  },
});
/** Growth beyond that of the pixels: of 10 to 100 megapixels at most 12 times the time. */
const MOST_GROWTH = 1.2;
/** Shorter times tell nothing about growth. */
const LEAST_MS = 100;

const child = fileURLToPath(new URL('./child.mjs', import.meta.url));
const sizes = values.sizes.split(',').map((size) => size.split('x').map(Number));
const pixels = sizes.map(([width, height]) => width * height);
const problems = [];

async function measure(pattern, call, [width, height]) {
  const args = ['--expose-gc', '--max-old-space-size=16384', child, pattern, call, width, height];
  try {
    const options = { timeout: 1000 * Number(values.seconds) };
    const { stdout } = await promisify(execFile)(process.execPath, args.map(String), options);
    return JSON.parse(stdout);
  } catch (error) {
    problems.push(`${call} on ${pattern}, ${width} × ${height}: ${error.stderr || 'not in time'}`);
    return undefined;
  }
}

const cell = (one) => (one ? `${one.ms.toFixed(0)} ms, ${one.bytesPerPixel.toFixed(1)} B/px` : '-');

for (const pattern of values.patterns.split(',')) {
  console.log(`\n### ${pattern}\n`);
  console.log(`| call | ${sizes.map((size) => size.join(' × ')).join(' | ')} | growth | found |`);
  console.log(`|---|${sizes.map(() => '--:|').join('')}--:|---|`);
  for (const call of values.calls.split(',')) {
    const own = [];
    for (const size of sizes) own.push(await measure(pattern, call, size));
    const [first, last] = [own[0], own.at(-1)];
    const growth = first && last ? last.ms / first.ms : Number.NaN;
    const most = (MOST_GROWTH * pixels.at(-1)) / pixels[0];
    if (growth > most && first.ms > LEAST_MS) {
      problems.push(`${call} on ${pattern} grew ${growth.toFixed(1)} times, at most ${most}`);
    }
    const found = String(last?.found ?? '').slice(0, 40);
    console.log(`| ${call} | ${own.map(cell).join(' | ')} | ${growth.toFixed(1)} | ${found} |`);
  }
}
for (const problem of problems) console.error(problem);
process.exitCode = problems.length > 0 ? 1 : 0;
