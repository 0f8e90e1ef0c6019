// Runs the agglomeration over the tuning half with out-of-fold odds of the proposals; writes every
// pair of regions that it looks at, whether they are of two true regions, and prints the scores:
//
//   node bench/gaps/train/dump-closure.mjs <folder> [--sets …] [--drawings 320] [--pass 2]
//
// In pass 1 pairs are judged by their worst gap, later by <folder>/closure.folds.json.
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { parseArgs } from 'node:util';
import { deserialize } from 'node:v8';
import { GAPS } from '../dataset.mjs';
import { scoreCase } from '../score.mjs';
import {
  Dump,
  eachTuneCase,
  facesOf,
  fromPlaces,
  judge,
  loadInternals,
  majority,
  paint,
  placesFile,
  Tally,
  TRAINED,
  truthOfFaces,
} from './case.mjs';

const { values, positionals } = parseArgs({
  allowPositionals: true,
  options: {
    sets: { type: 'string', default: TRAINED },
    drawings: { type: 'string', default: '320' },
    pass: { type: 'string', default: '1' },
    plausible: { type: 'string', default: '-4' },
    bias: { type: 'string', default: '0' },
    oracle: { type: 'boolean', default: false },
  },
});
const folder = positionals[0];
const inner = await loadInternals();
const meta = JSON.parse(readFileSync(join(folder, 'local.json'), 'utf8'));
const bytes = readFileSync(join(folder, 'local.odds'));
const odds = new Float64Array(bytes.buffer, bytes.byteOffset, bytes.length / 8);
const folds =
  values.pass === '1'
    ? undefined
    : JSON.parse(readFileSync(join(folder, 'closure.folds.json'), 'utf8'));
/** Pairs of a drawing are judged by the model that has not seen it. */
const separationFor = (group) => {
  const model = folds?.models[folds.of[group] ?? 0];
  return model === undefined ? (row) => row[WORST] : (row) => inner.oddsOf(model, row, 0);
};
const WORST = inner.SEPARATION.indexOf('worstOdds');
const firstRow = new Map();
let at = 0;
for (const { set, group, name, gap, rows } of meta.cases) {
  firstRow.set([set, group, name, gap].join(), at);
  at += rows;
}

const suffix = values.pass === '1' ? '' : values.pass;
const dump = new Dump(folder, `closure${suffix}`, inner.SEPARATION);
const tally = new Tally();
for await (const one of eachTuneCase(values)) {
  const first = firstRow.get([one.set, one.group, one.name, one.gap].join());
  const file = join(folder, 'places', placesFile(one));
  const suggested = fromPlaces(inner, deserialize(readFileSync(file)), one);
  const mine = odds.subarray(first, first + suggested.proposals.length);
  const task = facesOf(inner, one, suggested, mine, Number(values.plausible));
  const { faces } = task;
  const sums = truthOfFaces(faces, one.truth, one.width);
  const parts = [...sums];
  const rows = [];
  const answers = [];
  class Watched extends inner.Agglomeration {
    judge(pair, row) {
      const { apart, weight } = judge(parts[pair.a], parts[pair.b], 12);
      rows.push(...row);
      answers.push(apart ? 1 : 0, weight);
      return super.judge(pair, row);
    }

    joined(keep, drop) {
      const sum = new Map(parts[keep]);
      for (const [t, n] of parts[drop]) sum.set(t, (sum.get(t) ?? 0) + n);
      parts[keep] = sum;
    }
  }
  const separation = separationFor(one.group);
  const regions = values.oracle
    ? sums.map((sum) => majority(sum).region)
    : new Watched({ ...task, separation, bias: Number(values.bias) }).run().region;
  tally.add(one, scoreCase(one, paint(faces, regions, one)));
  dump.add(one, rows, answers);
}
await dump.close();
for (const set of values.sets.split(',')) console.log(tally.line(set, GAPS));
