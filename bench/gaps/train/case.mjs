// A case of the bench as the package's gap closing sees it, and what is true there.
import { execFileSync } from 'node:child_process';
import { mkdtempSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';

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

/** Proposals of a case with their rows of evidence. */
export function suggestFor(inner, { ink, width, height }) {
  const dense = { data: ink, width, height, channels: 1 };
  const packed = inner.packMask(dense, 'ink');
  const skeleton = inner.thinPadded(ink, width, height);
  const stroke = inner.widthAlong(ink, width, height, skeleton);
  const ends = inner.findEnds(ink, width, height, skeleton);
  return { packed, stroke, ends, ...inner.suggestBridges(dense, packed, ends, stroke) };
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

/** Pixels of each true region. */
export function truthAreas(truth, count) {
  const areas = new Int32Array(count + 1);
  for (const t of truth) areas[t]++;
  return areas;
}

/** Whether two faces are of two true regions, and how much the answer matters. */
export function judge(sumA, sumB, areas, least) {
  const a = majority(sumA);
  const b = majority(sumB);
  if (a.region === 0 || b.region === 0) return { apart: false, weight: 0.3 };
  const counts = ({ region, pixels }) => pixels >= Math.max(least, 0.05 * areas[region]);
  return { apart: a.region !== b.region, weight: counts(a) && counts(b) ? 1 : 0.35 };
}
