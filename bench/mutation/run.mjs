// Mutation testing by Stryker: small faults are put into `src`, one at a time, and the tests of the folder
// must notice. Not part of the tests: a mutant takes about a second. Results are kept in `out`.
// `node bench/mutation/run.mjs --folder runs,color [--sample 150] [--seed 1] [--survivors] [--uncovered]`, or `--all`:
// a seeded random sample of each folder's mutants (all of them without `--sample`), or those that survived
// the last run of that seed.
import { existsSync, mkdirSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { parseArgs } from 'node:util';
import { Stryker } from '@stryker-mutator/core';
import { keyOf } from './plugins.mjs';
import { testsOf, UNTOUCHED } from './subjects.mjs';

const { values } = parseArgs({
  options: {
    folder: { type: 'string' },
    all: { type: 'boolean', default: false },
    sample: { type: 'string' },
    seed: { type: 'string', default: '1' },
    uncovered: { type: 'boolean', default: false },
    survivors: { type: 'boolean', default: false },
  },
});
const root = new URL('../..', import.meta.url);
process.chdir(root.pathname);
const out = new URL('out/', import.meta.url);
const every = readdirSync('src', { withFileTypes: true })
  .filter((entry) => entry.isDirectory())
  .map(({ name }) => name);
const folders = values.all ? every : values.folder?.split(',');
if (!folders?.every((folder) => every.includes(folder))) {
  throw new RangeError(`--folder must be a list of ${every.join(', ')}, got ${values.folder}`);
}

mkdirSync(out, { recursive: true });
console.log('folder      mutants   run killed timeout survived uncovered  score   95 % interval');
for (const folder of folders) {
  const kept = new URL(`${folder}-${values.seed}.json`, out);
  const before = values.survivors ? JSON.parse(readFileSync(kept, 'utf8')) : undefined;
  const all = await mutate(folder, {
    keys: before && missedOf(before).map(({ key }) => key),
    size: values.sample === undefined ? Number.MAX_SAFE_INTEGER : Number(values.sample),
    seed: Number(values.seed),
  });
  if (values.uncovered) listUncovered(all);
  const drawn = all.filter(({ status }) => status !== 'CompileError');
  const results = before ? renewed(before, drawn) : drawn;
  writeFileSync(kept, JSON.stringify(results, null, 1));
  report(folder, all.length, results);
}

/** The mutants of a folder, each with what became of it; those not drawn are `CompileError`. */
async function mutate(folder, sample) {
  process.env.UNDERINK_MUTATION_TESTS = testsOf(folder).join();
  const tempDirName = `bench/mutation/out/sandbox-${folder}-${process.pid}`;
  const stryker = new Stryker({
    mutate: [`src/${folder}/**/*.ts`, '!src/*/index.ts', ...UNTOUCHED.map((file) => `!${file}`)],
    plugins: ['@stryker-mutator/vitest-runner', new URL('plugins.mjs', import.meta.url).pathname],
    testRunner: 'vitest',
    vitest: { configFile: 'bench/mutation/vitest.config.ts', related: false },
    checkers: ['sample'],
    sample,
    ignorers: ['error-words'],
    coverageAnalysis: 'perTest',
    concurrency: 1,
    timeoutMS: 5000,
    timeoutFactor: 1.5,
    reporters: ['dots'],
    dryRunTimeoutMinutes: 15,
    disableTypeChecks: false,
    tempDirName,
    cleanTempDir: 'always',
    ignorePatterns: ['dist', 'docs/api', '**/out', '**/out-*', '.ci'],
    warnings: { slow: false },
    logLevel: process.env.UNDERINK_MUTATION_LOG ?? 'warn',
    allowConsoleColors: false,
  });
  try {
    const mutants = await stryker.runMutationTest();
    return mutants
      .filter(({ status }) => status !== 'Ignored')
      .map((mutant) => ({
        key: keyOf(mutant),
        status: mutant.status,
        covered: mutant.static || mutant.coveredBy?.length > 0,
        killedBy: mutant.killedBy?.[0],
        reason: mutant.statusReason,
      }));
  } finally {
    if (existsSync(tempDirName)) rmSync(tempDirName, { recursive: true });
  }
}

/** The lines with mutants that no test reaches, by file; for these nothing need be run. */
function listUncovered(all) {
  const lines = new Map();
  for (const { key, covered } of all) {
    if (covered) continue;
    const [file, line] = key.split(':');
    lines.set(file, (lines.get(file) ?? new Set()).add(Number(line)));
  }
  for (const [file, set] of lines) console.log(`  ${file}: ${[...set].sort((a, b) => a - b)}`);
}

function missedOf(results) {
  return results.filter(({ status }) => status === 'Survived' || status === 'NoCoverage');
}

function renewed(before, drawn) {
  const now = new Map(drawn.map((result) => [result.key, result]));
  return before.map((result) => now.get(result.key) ?? result);
}

/** One line of figures, then the mutants that no test noticed, or only by the clock. */
function report(folder, mutants, results) {
  const count = (wanted) => results.filter(({ status }) => status === wanted).length;
  const [killed, timeout] = [count('Killed'), count('Timeout')];
  const [survived, uncovered] = [count('Survived'), count('NoCoverage')];
  const n = killed + timeout + survived + uncovered;
  const [score, low, high] = wilson(killed + timeout, n);
  const columns = [
    folder.padEnd(10),
    ...[mutants, n, killed, timeout, survived, uncovered].map((v) => `${v}`.padStart(7)),
  ];
  const interval = n < mutants ? `${percent(low)} to ${percent(high)}` : 'whole';
  console.log(columns.join(' '), `${percent(score)} %`, interval);
  const other = results.length - n;
  if (other > 0) console.log(`  ${other} could not be run`);
  for (const { key, status } of results) {
    if (status !== 'Killed') console.log(`  ${status} ${key}`);
  }
}

/** A share and its 95 % interval (Wilson 1927). */
function wilson(hits, n) {
  const z = 1.96;
  const p = hits / n;
  const middle = (p + z ** 2 / (2 * n)) / (1 + z ** 2 / n);
  const half = (z / (1 + z ** 2 / n)) * Math.sqrt((p * (1 - p)) / n + z ** 2 / (4 * n ** 2));
  return [p, middle - half, middle + half];
}

function percent(share) {
  return (100 * share).toFixed(1);
}
