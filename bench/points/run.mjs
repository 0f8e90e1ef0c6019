// One point a region: how many sheets are right at once, after `npm run build`:
//
//   node bench/points/run.mjs [--sets vector,hand,brush] [--gaps 0,3,6,10,16] [--half report]
//     [--drawings 120] [--at widest|random] [--leave 0.1] [--areas regions|colors] [--out FILE]
//
// The plan has one point in each true region (with --areas colors in each area of one of the
// artist's colors, of the set brush), at its widest place or anywhere in it; --leave leaves out a
// share of them. The area with most of the picture's border is named ground. Prints a table in Markdown; --out keeps every wrong piece as JSON.
import { writeFileSync } from 'node:fs';
import { parseArgs } from 'node:util';
import { checkFlats, layFlats, raster } from 'underink';
import { eachDrawing, REPORTED } from '../gaps/dataset.mjs';
import { seeded } from '../gaps/random.mjs';
import { colorAreas, randomPoints, widestPoints } from './points.mjs';
import { scoreSwatches } from './score.mjs';

const { values } = parseArgs({
  options: {
    sets: { type: 'string', default: REPORTED.join() },
    gaps: { type: 'string', default: '0,3,6,10,16' },
    half: { type: 'string', default: 'report' },
    drawings: { type: 'string', default: '120' },
    at: { type: 'string', default: 'widest' },
    leave: { type: 'string', default: '0' },
    areas: { type: 'string', default: 'regions' },
    unnamed: { type: 'string', default: 'claim' },
    out: { type: 'string' },
  },
});
const request = {
  sets: values.sets.split(','),
  gaps: values.gaps.split(',').map(Number),
  half: values.half,
  drawings: Number(values.drawings),
  size: 512,
  doubled: false,
};
/** How far from a wrong piece what the report says may lie, in pixels. */
const NEAR = 10;

const rows = new Map();
const kept = [];
for await (const cases of eachDrawing(request)) for (const one of cases) add(one, judge(one));
console.log(table());
if (values.out !== undefined) writeFileSync(values.out, `${JSON.stringify(kept, null, 1)}\n`);

/** Lays a case by its points and compares. */
function judge(one) {
  const { ink, width, height, set, name, gap } = one;
  const areas = values.areas === 'colors' ? colorAreas(one) : one;
  const random = seeded(`points ${set} ${name} ${gap}`);
  const points = values.at === 'random' ? randomPoints(areas, random) : widestPoints(areas);
  const given = points.map(() => random() >= Number(values.leave));
  const ground = groundOf(areas);
  const names = points.map((_, i) => (i + 1 === ground ? 'ground' : `area ${i + 1}`));
  const plan = {
    version: 1,
    size: [width, height],
    palette: names.map((name) => ({ name, color: '#808080' })),
    marks: points.flatMap((point, i) => (given[i] ? [{ point, swatch: names[i] }] : [])),
  };
  const options = { plan, unnamed: values.unnamed };
  const { flats, sealed, report } = layFlats({ ink: raster(ink, [width, height]) }, options);
  const found = Int32Array.from(flats.indices.data, (index) =>
    index <= points.length ? index : 0,
  );
  const { right, pieces } = scoreSwatches(one, areas.truth, found);
  const leftOut = pieces.filter(({ truth }) => !given[truth - 1]);
  const wrong = pieces.filter(({ truth }) => given[truth - 1]);
  const told = placesTold(report, checkFlats(flats, { ink: sealed, report }));
  return {
    right,
    pieces: wrong,
    leftOut: leftOut.length,
    told: wrong.filter((piece) => told.some((place) => isNear(piece, place))).length,
    low: report.bridges.filter((b) => b.drawn && b.probability < 0.1).length,
    unreported: report.bridges.filter((b) => b.drawn && b.probability < 0.5 && !b.forced).length,
    forced: report.bridges.filter((b) => b.forced).length,
    claimed: report.claimed.length,
    conflicts: report.conflicts.length,
  };
}

/** The area with most pixels at the picture's border: its point names the ground. */
function groundOf({ truth, count, width, height }) {
  const sums = new Int32Array(count + 1);
  for (let x = 0; x < width; x++) for (const y of [0, height - 1]) sums[truth[y * width + x]]++;
  for (let y = 0; y < height; y++) for (const x of [0, width - 1]) sums[truth[y * width + x]]++;
  sums[0] = 0;
  return sums.indexOf(Math.max(...sums));
}

/** Every place that the report or a check names. */
function placesTold(report, findings) {
  const doubtful = report.bridges.filter((bridge) => bridge.doubtful || bridge.forced);
  return [
    ...report.unnamed.map(({ inside }) => inside),
    ...report.conflicts.flatMap(({ point, leaks = [] }) => [point, ...leaks.map(({ at }) => at)]),
    ...report.claimed.map(({ at }) => at),
    ...doubtful.flatMap(({ from, to }) => [from, to]),
    ...findings.map(({ at }) => at),
  ];
}

function isNear({ bounds: [x0, y0, x1, y1] }, [x, y]) {
  const dx = Math.max(x0 - x, 0, x - x1);
  const dy = Math.max(y0 - y, 0, y - y1);
  return dx * dx + dy * dy <= NEAR * NEAR;
}

function add({ set, gap, name }, result) {
  const key = `${set} ${gap}`;
  const row = rows.get(key) ?? { set, gap, cases: 0, pieces: 0, right: 0, clean: 0 };
  rows.set(key, row);
  row.cases++;
  row.right += result.right;
  row.pieces += result.pieces.length;
  row.clean += result.pieces.length === 0 ? 1 : 0;
  for (const count of ['leftOut', 'told', 'low', 'unreported', 'forced', 'claimed', 'conflicts']) {
    row[count] = (row[count] ?? 0) + result[count];
  }
  for (const piece of result.pieces) kept.push({ set, gap, name, ...piece });
}

function table() {
  const head =
    '| set | gap | drawings | pieces to mend a drawing | right at once | paper right | claimed | ' +
    'forced | conflicts | told of the wrong pieces |';
  const lines = [...rows.values()].map((row) => {
    const each = (count) => (count / row.cases).toFixed(2);
    const told = row.pieces === 0 ? '–' : `${row.told} of ${row.pieces}`;
    const clean = `${((100 * row.clean) / row.cases).toFixed(1)} %`;
    const paper = `${((100 * row.right) / row.cases).toFixed(3)} %`;
    const counts = [each(row.claimed), each(row.forced), each(row.conflicts)];
    return `| ${row.set} | ${row.gap === 0 ? 'none' : `${row.gap} px`} | ${row.cases} | ${(row.pieces / row.cases).toFixed(3)} | ${clean} | ${paper} | ${counts.join(' | ')} | ${told} |`;
  });
  const sum = (count) => [...rows.values()].reduce((total, row) => total + row[count], 0);
  return [
    head,
    head.replaceAll(/[^|]+/g, ' --- '),
    ...lines,
    '',
    `bridges drawn below a probability of 0.1: ${sum('low')}; below one half and not said to be ` +
      `forced: ${sum('unreported')}; wrong pieces of areas that were left out: ${sum('leftOut')}`,
  ].join('\n');
}
