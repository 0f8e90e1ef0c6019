// Scores of fitted models on drawings that they have not seen:
//
//   node bench/gaps/train/evaluate.mjs <folder> [--suffix -without-brush] [--half report]
//     [--sets vector,hand,brush] [--drawings 120] [--bias 0]
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { parseArgs } from 'node:util';
import { eachDrawing, GAPS, REPORTED } from '../dataset.mjs';
import { scoreCase } from '../score.mjs';
import { facesOf, loadInternals, paint, suggestFor, Tally } from './case.mjs';

const { values, positionals } = parseArgs({
  allowPositionals: true,
  options: {
    suffix: { type: 'string', default: '' },
    half: { type: 'string', default: 'report' },
    sets: { type: 'string', default: REPORTED.join() },
    drawings: { type: 'string', default: '120' },
    plausible: { type: 'string', default: '-4' },
    bias: { type: 'string', default: '0' },
  },
});
const inner = await loadInternals();
const read = (stage) =>
  JSON.parse(readFileSync(join(positionals[0], `${stage}.model${values.suffix}.json`), 'utf8'));
const [local, closure] = [read('local'), read('closure')];
const tally = new Tally();
const sets = values.sets.split(',');
const request = { sets, gaps: GAPS, half: values.half, drawings: Number(values.drawings) };
for await (const some of eachDrawing({ ...request, size: 512, doubled: false })) {
  for (const one of some) {
    const suggested = suggestFor(inner, one);
    const odds = suggested.proposals.map((_, k) =>
      inner.oddsOf(local, suggested.rows, k * inner.EVIDENCE.length),
    );
    const task = facesOf(inner, one, suggested, odds, Number(values.plausible));
    const separation = (row) => inner.oddsOf(closure, row, 0);
    const rule = { ...task, separation, bias: Number(values.bias) };
    const { region } = new inner.Agglomeration(rule).run();
    tally.add(one, scoreCase(one, paint(task.faces, region, one)));
  }
}
for (const set of sets) console.log(tally.line(set, GAPS));
