// Runs the agglomeration over the tuning half with out-of-fold odds of the proposals; writes every
// pair of regions that it looks at, whether they are of two true regions, and prints the scores:
//
//   node bench/gaps/train/dump-closure.mjs <folder> [--sets …] [--drawings 150] [--pass 2]
//
// In pass 1 pairs are judged by the sum of their odds, later by <folder>/closure.folds.json.
import { createWriteStream, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { parseArgs } from 'node:util';
import { eachDrawing, GAPS, SETS } from '../dataset.mjs';
import { scoreCase } from '../score.mjs';
import { judge, loadInternals, majority, suggestFor, truthAreas, truthOfFaces } from './case.mjs';

const { values, positionals } = parseArgs({
  allowPositionals: true,
  options: {
    sets: { type: 'string', default: SETS.join() },
    drawings: { type: 'string', default: '150' },
    pass: { type: 'string', default: '1' },
    plausible: { type: 'string', default: '-2.5' },
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
  return model === undefined ? (row) => row[1] : (row) => inner.oddsOf(model, row, 0);
};
const firstRow = new Map();
let at = 0;
for (const { set, group, name, gap, rows } of meta.cases) {
  firstRow.set([set, group, name, gap].join(), at);
  at += rows;
}

const suffix = values.pass === '1' ? '' : values.pass;
const rowsFile = createWriteStream(join(folder, `closure${suffix}.rows`));
const answersFile = createWriteStream(join(folder, `closure${suffix}.answers`));
const cases = [];
const scores = new Map();
const request = { gaps: GAPS, half: 'tune', drawings: Number(values.drawings), size: 512 };
for await (const some of eachDrawing({
  ...request,
  sets: values.sets.split(','),
  doubled: false,
})) {
  for (const one of some) {
    const { proposals, packed, stroke } = suggestFor(inner, one);
    const first = firstRow.get([one.set, one.group, one.name, one.gap].join());
    const bridges = proposals
      .map((proposal, k) => ({ ...proposal, odds: odds[first + k], width: stroke.median }))
      .filter((bridge) => bridge.odds > Number(values.plausible))
      .sort((p, q) => q.odds - p.odds);
    const groups = inner.groupRivals(bridges);
    bridges.forEach((bridge, k) => {
      bridge.group = groups[k];
    });
    const pixels = bridges.map((bridge) => bridge.pixels);
    const faces = inner.mapFaces(packed, pixels);
    const borders = inner.findBorders(faces, pixels);
    const sums = truthOfFaces(faces, one.truth, one.width);
    const areas = truthAreas(one.truth, one.count);
    const parts = [...sums];
    const rows = [];
    const answers = [];
    const watch = {
      see(row, a, b) {
        const { apart, weight } = judge(parts[a], parts[b], areas, 12);
        rows.push(...row);
        answers.push(apart ? 1 : 0, weight);
      },
      join(keep, drop) {
        const sum = new Map(parts[keep]);
        for (const [t, n] of parts[drop]) sum.set(t, (sum.get(t) ?? 0) + n);
        parts[keep] = sum;
      },
    };
    const regions = values.oracle
      ? sums.map((sum) => majority(sum).region)
      : inner.agglomerate({
          faces,
          borders,
          bridges,
          separation: separationFor(one.group),
          strokeWidth: stroke.median,
          widest: stroke.p90,
          bias: Number(values.bias),
          marks: new Int32Array(faces.count + 1),
          watch,
        }).region;
    const labels = new Int32Array(one.width * one.height);
    for (let y = 0; y < one.height; y++) {
      for (let r = faces.runs.rowStart[y]; r < faces.runs.rowStart[y + 1]; r++) {
        const label = regions[faces.ids[r]];
        labels.fill(label, y * one.width + faces.runs.start[r], y * one.width + faces.runs.end[r]);
      }
    }
    const { corrections, splits, f1 } = scoreCase(one, labels);
    const key = `${one.set} ${one.gap}`;
    const sum = scores.get(key) ?? { n: 0, corrections: 0, splits: 0, f1: 0 };
    scores.set(key, {
      n: sum.n + 1,
      corrections: sum.corrections + corrections,
      splits: sum.splits + splits,
      f1: sum.f1 + f1,
    });
    rowsFile.write(Buffer.from(Float64Array.from(rows).buffer));
    answersFile.write(Buffer.from(Float64Array.from(answers).buffer));
    const { set, group, name, gap } = one;
    cases.push({ set, group, name, gap, rows: answers.length / 2 });
  }
}
await Promise.all([rowsFile, answersFile].map((file) => new Promise((done) => file.end(done))));
writeFileSync(
  join(folder, `closure${suffix}.json`),
  JSON.stringify({ columns: inner.SEPARATION, cases }),
);
for (const set of values.sets.split(',')) {
  const line = GAPS.map((gap) => {
    const sum = scores.get(`${set} ${gap}`);
    if (sum === undefined) return '-';
    const mean = (value) => (value / sum.n).toFixed(2);
    return `${gap}: ${mean(sum.corrections)} [${mean(sum.splits)}] ${(sum.f1 / sum.n).toFixed(3)}`;
  });
  console.log(set, line.join('  '));
}
