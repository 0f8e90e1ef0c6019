// Compares ways to close gaps on drawings with known truth, after `npm run build`:
//
//   node bench/gaps/run.mjs [--sets vector,hand,brush] [--gaps 0,2,4,6,8,12,16,24] [--half tune]
//     [--drawings 120] [--size 512] [--doubled] [--methods none,dilate,ball,link,tree,seal]
//     [--set seal.maxGap=auto,8,16 --set seal.caution=0.3,0.5] [--worst 6] [--out bench/gaps/out]
//     [--folder DIR] [--method FILE.mjs]
//
// The set nib, to train on, is drawn where --sets names it. With --folder, the drawings are those of a
// folder, with their truth (see own.mjs); --method brings methods of a file's exports.
// Writes cases.csv, summary.json, a curve per set and score, one per setting with three values or more,
// and the worst cases as pictures. compare.mjs sets two summaries beside each other.
import { mkdirSync, writeFileSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { parseArgs } from 'node:util';
import { curvesOf, sweepsOf } from './curves.mjs';
import { eachDrawing, GAPS, loadCases, REPORTED } from './dataset.mjs';
import { METHODS, settingsOf } from './methods.mjs';
import { libraryOf, ownDrawings, setOf } from './own.mjs';
import { scoreCase } from './score.mjs';
import { csvOf, summarize, tableOf } from './tables.mjs';
import { writeWorst } from './worst.mjs';

const { values } = parseArgs({
  options: {
    sets: { type: 'string', default: REPORTED.join() },
    gaps: { type: 'string', default: GAPS.join() },
    half: { type: 'string', default: 'tune' },
    drawings: { type: 'string', default: '120' },
    size: { type: 'string', default: '512' },
    doubled: { type: 'boolean', default: false },
    methods: { type: 'string' },
    method: { type: 'string', multiple: true, default: [] },
    folder: { type: 'string' },
    set: { type: 'string', multiple: true, default: [] },
    worst: { type: 'string', default: '6' },
    out: { type: 'string', default: fileURLToPath(new URL('out', import.meta.url)) },
  },
});
const { folder } = values;
const request = {
  sets: folder === undefined ? values.sets.split(',') : [setOf(folder)],
  gaps: folder === undefined ? values.gaps.split(',').map(Number) : [0],
  half: values.half,
  drawings: Number(values.drawings),
  size: Number(values.size),
  doubled: values.doubled,
};
const known = { ...METHODS };
for (const file of values.method) Object.assign(known, await import(pathToFileURL(resolve(file))));
const asked = values.methods?.split(',') ?? Object.keys(known);
const methods = asked.map((name) => {
  if (!Object.hasOwn(known, name)) {
    throw new RangeError(`--methods must be of ${Object.keys(known).join(', ')}, got ${name}`);
  }
  return { name, settings: settingsOf(name, values.set, known) };
});

const rows = [];
for await (const cases of folder === undefined ? eachDrawing(request) : ownDrawings(folder)) {
  for (const one of cases) {
    const { set, half, group, name, gap } = one;
    for (const method of methods) {
      const { study, run } = known[method.name];
      const studied = study(one);
      for (const { label, options } of method.settings) {
        const scores = scoreCase(one, run(studied, options));
        rows.push({ set, half, group, name, gap, method: method.name, label, options, ...scores });
      }
    }
  }
}

const summary = summarize(rows);
mkdirSync(values.out, { recursive: true });
writeFileSync(join(values.out, 'cases.csv'), csvOf(rows));
writeFileSync(
  join(values.out, 'summary.json'),
  `${JSON.stringify({ library: libraryOf(), request, summary }, null, 1)}\n`,
);
for (const set of request.sets) {
  if (!rows.some((row) => row.set === set)) {
    console.log(`\n${set}: no drawings (is the package openclipart-svg installed?)`);
    continue;
  }
  const intact = folder === undefined ? 'control' : 'as drawn';
  console.log(`\n${tableOf(set, summary, request.gaps, intact)}`);
  const curves = folder === undefined ? curvesOf(set, summary, request.gaps) : [];
  for (const [name, svg] of [...curves, ...sweepsOf(set, summary)]) {
    writeFileSync(join(values.out, name), svg);
  }
}
const loadSet = (set) =>
  folder === undefined ? loadCases({ ...request, sets: [set] }) : [...ownDrawings(folder)].flat();
await writeWorst(rows, { methods: known, loadSet }, Number(values.worst), values.out);
console.log('\ncorrections [of them false splits] / F1 at IoU 0.9; files in', values.out);
