// Carrying flats and plans over to revisions with known truth, after `npm run build`:
//
//   node bench/carry/run.mjs [--sets vector,hand,brush] [--kinds removed,added,…] [--half report]
//     [--drawings 50] [--skip 0] [--gap 4] [--plans] [--worst FOLDER]
//
// Prints a table in Markdown, a row a way to revise; --skip leaves out the first drawings of each set,
// --worst keeps pictures of what went wrong.
import { mkdirSync, writeFileSync } from 'node:fs';
import { parseArgs } from 'node:util';
import { carryFlats, carryPlan, layFlats, raster, writePng } from 'underink';
import { eachDrawing, REPORTED } from '../gaps/dataset.mjs';
import { planOf, scorePlan } from './plans.mjs';
import { grownTruth, KINDS, revise } from './revise.mjs';
import { scoreFlats } from './score.mjs';

const { values } = parseArgs({
  options: {
    sets: { type: 'string', default: REPORTED.join() },
    kinds: { type: 'string', default: KINDS.join() },
    half: { type: 'string', default: 'report' },
    drawings: { type: 'string', default: '50' },
    skip: { type: 'string', default: '0' },
    gap: { type: 'string', default: '4' },
    plans: { type: 'boolean', default: false },
    worst: { type: 'string' },
  },
});
const request = {
  sets: values.sets.split(','),
  gaps: [Number(values.gap)],
  half: values.half,
  drawings: Number(values.drawings),
  size: 512,
  doubled: false,
};
const kinds = values.kinds.split(',');
const rows = new Map(kinds.map((kind) => [kind, emptyRow()]));
if (values.worst !== undefined) mkdirSync(values.worst, { recursive: true });
const seen = new Map();
for await (const [one] of eachDrawing(request)) {
  if (one === undefined) continue;
  const place = seen.get(one.set) ?? 0;
  seen.set(one.set, place + 1);
  if (place < Number(values.skip)) continue;
  const flats = flatsOf(one);
  for (const kind of kinds) {
    const revision = revise(one, kind);
    if (revision === undefined) continue;
    if (values.plans) addPlan(rows.get(kind), one, kind, revision);
    else add(rows.get(kind), one, kind, flats, revision);
  }
}
console.log(values.plans ? planTable() : table());

function emptyRow() {
  const sums = ['cases', 'refused', 'regions', 'wrong', 'unlisted', 'touched', 'listed', 'area'];
  return {
    ...Object.fromEntries(
      [...sums, 'rightArea', 'far', 'ms', 'marks', 'kept', 'aside'].map((k) => [k, 0]),
    ),
    errors: [],
  };
}

/** A swatch for each true region, named by its id. */
function flatsOf(one) {
  const grown = grownTruth(one);
  const palette = [{ name: 'bare', color: '#000000' }];
  for (let id = 1; id <= one.count; id++) {
    const color = `#${((id * 2654435761) >>> 8).toString(16).padStart(6, '0').slice(-6)}`;
    palette.push({ name: `${id}`, color });
  }
  const data = one.count < 256 ? Uint8Array.from(grown) : Uint16Array.from(grown);
  return { indices: raster(data, [one.width, one.height]), palette };
}

function add(row, one, kind, flats, revision) {
  const from = raster(one.ink, [one.width, one.height]);
  const to = raster(Uint8Array.from(revision.ink), [revision.width, revision.height]);
  const started = performance.now();
  let carried;
  try {
    carried = carryFlats(flats, from, to);
  } catch (error) {
    if (!(error instanceof RangeError)) throw error;
    row.refused++;
    if (values.worst) console.error(kind, one.set, one.name, error.message);
    return;
  }
  row.ms += performance.now() - started;
  row.cases++;
  const error = transformError(one, revision.transform, carried.transform);
  row.errors.push(error);
  if (error > 0.5) row.far++;
  const score = scoreFlats(revision, carried);
  for (const key of ['regions', 'wrong', 'unlisted', 'touched', 'listed', 'area', 'rightArea']) {
    row[key] += score[key];
  }
  const others = score.regions - score.touched;
  const over = score.listed - 1.5 * score.touched - 0.02 * others;
  if (values.worst && (score.wrong > 0 || over > 2 || error > 0.5)) {
    console.error(
      kind,
      one.set,
      one.name,
      JSON.stringify({
        wrong: score.wrong,
        unlisted: score.unlisted,
        regions: score.regions,
        touched: score.touched,
        looks: carried.changes
          .filter((c) => c.look)
          .slice(0, 8)
          .map(
            (c) =>
              `${c.kind} ${c.at?.map(Math.floor) ?? `was ${c.was?.map(Math.floor)}`} a${c.area} ${c.swatch} ${c.confidence.toFixed(2)} ${c.lost}`,
          ),
        listed: score.listed,
        error: Number(error.toFixed(2)),
      }),
    );
    drawWorst(
      `${values.worst}/${kind}-${one.set}-${one.name.replace(/\W+/g, '_')}.png`,
      revision,
      carried,
      score,
    );
  }
}

/** Carries a plan, lays it and counts the marks that still do what they did. */
function addPlan(row, one, kind, revision) {
  const from = raster(one.ink, [one.width, one.height]);
  const to = raster(Uint8Array.from(revision.ink), [revision.width, revision.height]);
  const { plan, does } = planOf(one);
  const started = performance.now();
  let carried;
  try {
    carried = carryPlan(plan, from, to);
  } catch (error) {
    if (!(error instanceof RangeError)) throw error;
    row.refused++;
    return;
  }
  row.ms += performance.now() - started;
  row.cases++;
  row.aside += carried.aside.length;
  const { flats } = layFlats({ ink: to }, { plan: carried.plan, outside: 'report' });
  // What the plan does not do on its own drawing it need not do here.
  const before = layFlats({ ink: from }, { plan, outside: 'report' });
  const still = { ...one, transform: { a: 1, b: 0, dx: 0, dy: 0 }, unions: [] };
  const failed = new Set(scorePlan(still, does, before.flats).lost.map(({ at }) => at.join()));
  const able = does.filter(({ at }) => !failed.has(at.join()));
  const { counted, kept, lost } = scorePlan(revision, able, flats);
  row.marks += counted;
  row.kept += kept;
  if (values.worst && lost.length > 0) {
    const list = lost
      .slice(0, 6)
      .map((l) => `${l.kind} ${l.at.map(Math.round)} ${l.region} ${l.share.toFixed(2)}`);
    console.error(kind, one.set, one.name, `${lost.length} of ${counted}`, list.join('; '));
  }
}

function transformError({ width, height }, truth, found) {
  const off = ([x, y]) => {
    const [a, b] = [truth.a - found.a, truth.b - found.b];
    return Math.hypot(a * x - b * y + truth.dx - found.dx, b * x + a * y + truth.dy - found.dy);
  };
  return Math.max(
    ...[
      [0, 0],
      [width, 0],
      [0, height],
      [width, height],
    ].map(off),
  );
}

/** Ink black, right paper white, wrong red, wrong and unlisted blue; places to look at green. */
function drawWorst(
  file,
  { ink, width, height, truth },
  { changes, flats },
  { labels, wrongIds, unlistedIds },
) {
  const rgb = new Uint8Array(3 * ink.length);
  const wrong = new Set(wrongIds);
  const unlisted = new Set(unlistedIds);
  for (let p = 0; p < ink.length; p++) {
    const isOff = truth[p] > 0 && Number(flats.palette[flats.indices.data[p]].name) !== truth[p];
    const color = ink[p]
      ? [0, 0, 0]
      : unlisted.has(labels[p])
        ? [80, 80, 255]
        : wrong.has(labels[p])
          ? [255, 80, 80]
          : isOff
            ? [255, 200, 120]
            : truth[p]
              ? [255, 255, 255]
              : [230, 230, 230];
    rgb.set(color, 3 * p);
  }
  for (const { look, at } of changes) {
    if (!look || !at) continue;
    for (let v = -2; v <= 2; v++)
      for (let u = -2; u <= 2; u++) {
        const [x, y] = [Math.floor(at[0]) + u, Math.floor(at[1]) + v];
        if (x >= 0 && y >= 0 && x < width && y < height) rgb.set([0, 200, 0], 3 * (y * width + x));
      }
  }
  writeFileSync(file, writePng(raster(rgb, [width, height, 3])));
}

function table() {
  const head = [
    'revision',
    'cases',
    'refused',
    'area kept %',
    'regions right %',
    'wrong',
    'not listed',
    'truly changed',
    'listed',
    'allowed',
    'transform median',
    'p99 px',
    '> 0.5 px',
    'ms',
  ];
  const lines = [head, head.map(() => '---:')];
  const all = emptyRow();
  for (const [kind, row] of [...rows, ['**together**', all]]) {
    if (row !== all)
      for (const key of Object.keys(all))
        all[key] = key === 'errors' ? all[key].concat(row[key]) : all[key] + row[key];
    const errors = row.errors.sort((a, b) => a - b);
    const allowed = 1.5 * row.touched + 0.02 * Math.max(0, row.regions - row.touched);
    lines.push([
      kind,
      row.cases,
      row.refused,
      percent(row.rightArea, row.area),
      percent(row.regions - row.wrong, row.regions),
      row.wrong,
      row.unlisted,
      row.touched,
      row.listed,
      allowed.toFixed(0),
      (errors[errors.length >> 1] ?? 0).toFixed(2),
      (errors[Math.floor(0.99 * errors.length)] ?? 0).toFixed(2),
      row.far,
      (row.ms / Math.max(1, row.cases)).toFixed(0),
    ]);
  }
  return lines.map((cells) => `| ${cells.join(' | ')} |`).join('\n');
}

function planTable() {
  const head = ['revision', 'plans', 'refused', 'marks', 'still do', '%', 'put aside', 'ms'];
  const lines = [head, head.map(() => '---:')];
  const all = emptyRow();
  for (const [kind, row] of [...rows, ['**together**', all]]) {
    if (row !== all)
      for (const key of Object.keys(all)) all[key] = key === 'errors' ? [] : all[key] + row[key];
    const ms = (row.ms / Math.max(1, row.cases)).toFixed(0);
    lines.push([
      kind,
      row.cases,
      row.refused,
      row.marks,
      row.kept,
      percent(row.kept, row.marks),
      row.aside,
      ms,
    ]);
  }
  return lines.map((cells) => `| ${cells.join(' | ')} |`).join('\n');
}

function percent(part, whole) {
  return whole === 0 ? '' : ((100 * part) / whole).toFixed(2);
}
