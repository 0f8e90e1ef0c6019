// Compares ways to close gaps on drawings with known truth, after `npm run build`:
//
//   node bench/gaps/run.mjs [--sets vector,hand,brush] [--gaps 0,2,4,6,8,12,16,24] [--half tune]
//     [--drawings 120] [--size 512] [--doubled] [--methods none,dilate,ball,link,tree,seal]
//     [--set seal.maxGap=auto,8,16 --set seal.caution=0.3,0.5] [--worst 6] [--out bench/gaps/out]
//
// The set nib, to train on, is drawn where --sets names it.
// Writes cases.csv, summary.json, a curve per set and score, and the worst cases as pictures.
import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { parseArgs } from 'node:util';
import { curvesOf } from './curves.mjs';
import { eachDrawing, GAPS, REPORTED } from './dataset.mjs';
import { METHODS, settingsOf } from './methods.mjs';
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
    methods: { type: 'string', default: Object.keys(METHODS).join() },
    set: { type: 'string', multiple: true, default: [] },
    worst: { type: 'string', default: '6' },
    out: { type: 'string', default: fileURLToPath(new URL('out', import.meta.url)) },
  },
});
const request = {
  sets: values.sets.split(','),
  gaps: values.gaps.split(',').map(Number),
  half: values.half,
  drawings: Number(values.drawings),
  size: Number(values.size),
  doubled: values.doubled,
};
const methods = values.methods.split(',').map((name) => {
  if (!Object.hasOwn(METHODS, name)) {
    throw new RangeError(`--methods must be of ${Object.keys(METHODS).join(', ')}, got ${name}`);
  }
  return { name, settings: settingsOf(name, values.set) };
});

const rows = [];
for await (const cases of eachDrawing(request)) {
  for (const one of cases) {
    const { set, half, group, name, gap } = one;
    for (const method of methods) {
      const { study, run } = METHODS[method.name];
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
  `${JSON.stringify({ request, summary }, null, 1)}\n`,
);
for (const set of request.sets) {
  if (!rows.some((row) => row.set === set)) {
    console.log(`\n${set}: no drawings (is the package openclipart-svg installed?)`);
    continue;
  }
  console.log(`\n${tableOf(set, summary, request.gaps)}`);
  for (const [name, svg] of curvesOf(set, summary, request.gaps)) {
    writeFileSync(join(values.out, name), svg);
  }
}
await writeWorst(rows, request, Number(values.worst), values.out);
console.log('\ncorrections [of them false splits] / F1 at IoU 0.9; files in', values.out);
