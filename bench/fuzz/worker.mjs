// The cases of a run, in turns of all subjects; `at` tells the main thread which one is on.
import { existsSync, mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { performance } from 'node:perf_hooks';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { workerData } from 'node:worker_threads';
import { build } from 'esbuild';
import { ownFiles, subjects } from './subjects.mjs';
import { tryCase } from './try-case.mjs';

const { at, count, from, only } = workerData;
const root = fileURLToPath(new URL('../..', import.meta.url));

const files = [...ownFiles(), ...suiteFiles()];
const all = subjects({ files, resealed: await resealing() });
const names = Object.keys(all).filter((name) => only === undefined || name === only);
if (names.length === 0) throw new RangeError(`only must be one of ${Object.keys(all).join(', ')}`);
console.log(`${count} cases of ${names.join(', ')}; ${files.length} PNGs`);
const tallies = Object.fromEntries(names.map((name) => [name, { taken: 0, refused: 0, ms: 0 }]));
for (let number = from; number < from + count; number++) {
  at[0] = number;
  const name = names[number % names.length];
  const start = performance.now();
  const { end, kind } = tryCase(name, all[name], Math.floor(number / names.length));
  const ms = performance.now() - start;
  const tally = tallies[name];
  tally[end]++;
  if (ms > tally.ms) Object.assign(tally, { ms, slowest: `case ${number}, ${kind}` });
}
console.table(tallies);

/** Puts on saved data the sum that the library would; the sum is inside the package. */
async function resealing() {
  const outdir = mkdtempSync(join(tmpdir(), 'underink-fuzz-'));
  try {
    const outfile = join(outdir, 'sum.mjs');
    await build({
      entryPoints: [join(root, 'src/raster/data-sum.ts')],
      bundle: true,
      format: 'esm',
      outfile,
    });
    const { dataSum } = await import(pathToFileURL(outfile).href);
    return ({ sum: _, ...data }) => ({ ...data, sum: dataSum(data) });
  } finally {
    rmSync(outdir, { recursive: true });
  }
}

/** PngSuite by Willem van Schaik, from Debian's `libsixel-examples`, where that is installed. */
function suiteFiles() {
  const suite = '/usr/share/doc/libsixel-examples/examples/images/pngsuite';
  if (!existsSync(suite)) return [];
  return readdirSync(suite, { recursive: true })
    .filter((name) => name.endsWith('.png') && !name.startsWith('corrupted'))
    .sort()
    .map((name) => Uint8Array.from(readFileSync(join(suite, name))));
}
