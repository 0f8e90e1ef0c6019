// A case of the bench as the package's gap closing sees it, and what is true there.
import { execFileSync } from 'node:child_process';
import { createWriteStream, mkdtempSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { eachDrawing, GAPS } from '../dataset.mjs';
import { seeded } from '../random.mjs';

const root = fileURLToPath(new URL('../../..', import.meta.url));

/** The package's inner modules, bundled for this run. */
export async function loadInternals() {
  const folder = mkdtempSync(join(tmpdir(), 'underink-train-'));
  const entry = join(root, 'bench/gaps/train/internals.ts');
  const options = ['--format', 'esm', '--out-dir', folder, '--no-config', '--silent'];
  execFileSync('npx', ['tsup', entry, ...options], { cwd: root, stdio: 'inherit' });
  return import(pathToFileURL(join(folder, 'internals.mjs')).href).catch(
    () => import(pathToFileURL(join(folder, 'internals.js')).href),
  );
}

/** Sets to train on, and how many openings of a drawing are taken where there are many drawings. */
export const TRAINED = 'nib,glyph,brush,vector,hand';
const TAKEN = 3;

/** Cases of the tuning half, one at a time: the control, and some openings by lot; all of `brush`. */
export async function* eachTuneCase({ sets, drawings }) {
  const request = { gaps: GAPS, half: 'tune', drawings: Number(drawings), size: 512 };
  for await (const some of eachDrawing({ ...request, sets: sets.split(','), doubled: false })) {
    const [{ set, group, name }] = some;
    const lot = seeded(`openings ${set} ${group} ${name}`);
    const drawn = some.map((one) => ({ one, by: one.gap === 0 ? -1 : lot() }));
    drawn.sort((a, b) => a.by - b.by);
    const taken = set === 'brush' ? some : drawn.slice(0, 1 + TAKEN).map(({ one }) => one);
    yield* taken;
  }
}

/** Writes rows and answers of case after case into `<folder>/<stage>.{rows,answers,json}`. */
export class Dump {
  cases = [];

  constructor(folder, stage, columns) {
    this.columns = columns;
    this.path = join(folder, stage);
    this.files = ['rows', 'answers'].map((end) => createWriteStream(`${this.path}.${end}`));
  }

  /** `answers` holds two numbers a row: whether the sides are apart, and the weight. */
  add({ set, group, name, gap }, rows, answers) {
    [rows, answers].forEach((values, i) => {
      this.files[i].write(Buffer.from(Float64Array.from(values).buffer));
    });
    this.cases.push({ set, group, name, gap, rows: answers.length / 2 });
  }

  async close() {
    await Promise.all(this.files.map((file) => new Promise((done) => file.end(done))));
    const { columns, cases } = this;
    writeFileSync(`${this.path}.json`, JSON.stringify({ columns, cases }));
  }
}

/** Proposals of a case with their rows of evidence. */
export function suggestFor(inner, { ink, width, height }) {
  const dense = { data: ink, width, height, channels: 1 };
  const packed = inner.packMask(dense, 'ink');
  const skeleton = inner.thinDense(ink, width, height);
  const stroke = inner.widthAlong(ink, width, height, skeleton);
  const ends = inner.findEnds(ink, width, height, skeleton);
  const found = inner.suggestBridges(dense, packed, ends, stroke);
  const proposals = found.proposals.map((proposal) => {
    return { ...proposal, pixels: inner.paperBetween(dense, proposal.from, proposal.to) };
  });
  const rows = new Float64Array(proposals.length * inner.EVIDENCE.length);
  inner.gatherEvidence(found.drawing, proposals, (row, k) => rows.set(row, k * row.length));
  return { packed, stroke, ends, proposals, rows };
}

/** Per face its pixels of each true region: rows of a sparse table. */
export function truthOfFaces(faces, truth, width) {
  const { runs, ids, count } = faces;
  const sums = Array.from({ length: count + 1 }, () => new Map());
  const rows = runs.rowStart.length - 1;
  for (let y = 0; y < rows; y++) {
    for (let r = runs.rowStart[y]; r < runs.rowStart[y + 1]; r++) {
      const sum = sums[ids[r]];
      for (let x = runs.start[r]; x < runs.end[r]; x++) {
        const t = truth[y * width + x];
        if (t > 0) sum.set(t, (sum.get(t) ?? 0) + 1);
      }
    }
  }
  return sums;
}

/** The true region that most of a face is of, and how much; 0 for none. */
export function majority(sum) {
  let [best, most] = [0, 0];
  for (const [t, n] of sum) if (n > most || (n === most && t < best)) [best, most] = [t, n];
  return { region: best, pixels: most };
}

/**
 * Whether two faces are of two true regions, and how much the answer matters: less where one holds
 * next to none of a true region.
 */
export function judge(sumA, sumB, least) {
  const a = majority(sumA);
  const b = majority(sumB);
  const weight = Math.min(a.pixels, b.pixels) >= least ? 1 : 0.3;
  return { apart: a.region !== b.region && a.region > 0 && b.region > 0, weight };
}

/** What is kept of a case's proposals, and the proposals again. */
export function toPlaces({ proposals, stroke }) {
  return { stroke, places: proposals.map(({ from, to, a, b }) => [from, to, a, b]) };
}

export function fromPlaces(inner, { stroke, places }, { ink, width }) {
  const split = (p) => [p % width, Math.floor(p / width)];
  const proposals = places.map(([from, to, a, b]) => {
    const [[x0, y0], [x1, y1]] = [split(from), split(to)];
    const pixels = inner.linePixels(x0, y0, x1, y1, width).filter((p) => ink[p] === 0);
    return { from, to, a, b, length: Math.hypot(x1 - x0, y1 - y0), pixels };
  });
  return { stroke, proposals };
}

/** The file of a case's places in a folder. */
export function placesFile({ set, group, name, gap }) {
  return `${[set, group, name, gap].join(' ').replace(/[^\w.-]+/g, '_')}.places`;
}

/** The plausible proposals of a case as bridges, likeliest first, and the faces that they cut out. */
export function facesOf(inner, one, { proposals, stroke }, odds, plausible) {
  const bridges = proposals
    .map((proposal, k) => ({ ...proposal, odds: odds[k], width: stroke.median }))
    .filter((bridge) => bridge.odds > plausible)
    .sort((p, q) => q.odds - p.odds || p.length - q.length);
  const groups = inner.groupRivals(bridges);
  bridges.forEach((bridge, k) => {
    bridge.group = groups[k];
  });
  const pixels = bridges.map((bridge) => bridge.pixels);
  const { ink, width, height } = one;
  const packed = inner.packMask({ data: ink, width, height, channels: 1 }, 'ink');
  const faces = inner.mapFaces(packed, pixels);
  return {
    faces,
    bridges,
    borders: inner.findBorders(new inner.BridgePixels(faces, pixels), pixels, faces.area),
    strokeWidth: Math.max(1, stroke.median),
    widest: stroke.p90,
    marks: new Int32Array(faces.count + 1),
  };
}

/** Labels of a case's paper, by the region of each face. */
export function paint({ runs, ids }, regions, { width, height }) {
  const labels = new Int32Array(width * height);
  for (let y = 0; y < height; y++) {
    for (let r = runs.rowStart[y]; r < runs.rowStart[y + 1]; r++) {
      labels.fill(regions[ids[r]], y * width + runs.start[r], y * width + runs.end[r]);
    }
  }
  return labels;
}

/** Means of scores by set and gap. */
export class Tally {
  sums = new Map();

  add({ set, gap }, { corrections, splits, f1 }) {
    const key = `${set} ${gap}`;
    const sum = this.sums.get(key) ?? { n: 0, corrections: 0, splits: 0, f1: 0 };
    sum.n++;
    sum.corrections += corrections;
    sum.splits += splits;
    sum.f1 += f1;
    this.sums.set(key, sum);
  }

  /** Corrections, of them false splits, and F1 by gap; the means over 2 to 16 px. */
  line(set, gaps) {
    const between = { n: 0, corrections: 0, f1: 0 };
    const cells = gaps.map((gap) => {
      const sum = this.sums.get(`${set} ${gap}`);
      if (sum === undefined) return `${gap}: -`;
      const { n, corrections, splits, f1 } = sum;
      if (gap >= 2 && gap <= 16) {
        between.n++;
        between.corrections += corrections / n;
        between.f1 += f1 / n;
      }
      return `${gap}: ${(corrections / n).toFixed(2)} [${(splits / n).toFixed(2)}] ${(f1 / n).toFixed(3)}`;
    });
    const mean = (value) => (value / between.n).toFixed(3);
    return `${set} ${cells.join('  ')}  2-16: ${mean(between.corrections)} ${mean(between.f1)}`;
  }
}
