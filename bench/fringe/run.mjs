// Scores of findFringe and hardenEdges on drawings with known truth: docs/fringe-bench.md.
// node bench/fringe/run.mjs [part …]: the parts named (resvg, cairo, speed, noise), or all, are counted
// anew; the table takes the others as they were counted last.
import { existsSync, mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import * as underink from 'underink';
import { colorDrawings, truthOf } from './drawings.mjs';
import { measureNoise } from './noise.mjs';
import { jpegTrip, scoreFringe, scoreHarden, scoreReference } from './score.mjs';
import { measureSpeed } from './speed.mjs';
import { writeTables } from './tables.mjs';

const COUNT = 300;
const SIZE = 288;
const JPEGS = [
  [95, '4:4:4'],
  [85, '4:4:4'],
  [95, '4:2:0'],
  [85, '4:2:0'],
];
const PARTS = {
  resvg: () => score('resvg'),
  cairo: () => score('cairo'),
  speed: measureSpeed,
  noise: measureNoise,
};

const out = fileURLToPath(new URL('out/', import.meta.url));
mkdirSync(out, { recursive: true });
const asked = process.argv.slice(2);
for (const [name, part] of Object.entries(PARTS)) {
  if (asked.length > 0 && !asked.includes(name)) continue;
  writeFileSync(`${out}${name}.json`, JSON.stringify(await part(), null, 2));
}
const known = Object.keys(PARTS).filter((name) => existsSync(`${out}${name}.json`));
const results = known.map((name) => [name, JSON.parse(readFileSync(`${out}${name}.json`, 'utf8'))]);
const page = fileURLToPath(new URL('../../docs/fringe-bench.md', import.meta.url));
writeFileSync(page, writeTables(Object.fromEntries(results)));

async function score(renderer) {
  const { drawings, leftOut } = colorDrawings(COUNT);
  const sums = { renderer, drawings: drawings.length, leftOut, size: SIZE, rows: {} };
  for (const { name, svg } of drawings) {
    const truth = await truthOf(svg, SIZE, renderer);
    add(sums, 'fringe', scoreFringe(underink, truth));
    for (const kind of ['soft', 'even', 'hard']) {
      const scored = scoreHarden(underink, truth, truth[kind], { exact: true });
      add(sums, kind, { ...scored, failed: scored.swatches === truth.colors.length ? 0 : 1 });
      add(sums, `${kind} reference`, scoreReference(truth, truth[kind]));
    }
    for (const [quality, chroma] of JPEGS) {
      const pixels = await jpegTrip(truth.soft, SIZE, quality, chroma);
      const key = `JPEG ${quality}, ${chroma}`;
      const scored = scoreHarden(underink, truth, pixels, { exact: false });
      add(sums, key, { ...scored, failed: scored.swatches === truth.colors.length ? 0 : 1 });
      add(sums, `${key} reference`, scoreReference(truth, pixels));
    }
    process.stderr.write(`\r${renderer} ${name.padEnd(60)}`);
  }
  process.stderr.write('\n');
  return sums;
}

function add({ rows }, key, scored) {
  rows[key] ??= {};
  for (const [name, value] of Object.entries(scored)) {
    rows[key][name] = (rows[key][name] ?? 0) + value;
  }
}
