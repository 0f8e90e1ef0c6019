// How long thresholds take on a page of A4 at 600 dpi, beside native OpenCV and scikit-image in the
// same run: `node bench/ink/speed.mjs [--runs 5]`, after `npm run build`.
import { execFileSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { parseArgs } from 'node:util';
import { otsuLevel, raster, thresholdInk } from 'underink';
import { seeded } from '../gaps/random.mjs';
import { drawPage, HEIGHT, WIDTH } from '../lay-flats/page.mjs';

const WINDOW = 51;
const K = 0.2;

const { values } = parseArgs({ options: { runs: { type: 'string', default: '5' } } });
const runs = Number(values.runs);
if (!Number.isInteger(runs) || runs < 1) {
  throw new RangeError(`--runs must be a whole number >= 1, got ${values.runs}`);
}

/** Calls under the same names that peer.py knows. */
const CALLS = {
  otsu: (coverage) => thresholdInk(coverage, { method: 'fixed', level: otsuLevel(coverage) }),
  sauvola: (coverage) => thresholdInk(coverage, { method: 'sauvola', window: WINDOW, k: K }),
};
/** Peer calls, the call of ours beside each, and the most that ours may take of its time. */
const PEERS = [
  { peer: 'OpenCV threshold, Otsu', own: 'otsu', most: 2 },
  { peer: 'scikit-image threshold_sauvola', own: 'sauvola', most: 0.1 },
  { peer: 'OpenCV adaptiveThreshold, mean', own: 'sauvola', most: 3 },
];

const folder = mkdtempSync(join(tmpdir(), 'ink-speed-'));
try {
  const page = grainyPage();
  const file = join(folder, 'page.gray');
  writeFileSync(file, page);
  const script = fileURLToPath(new URL('peer.py', import.meta.url));
  const coverage = raster(
    page.map((tone) => 255 - tone),
    [WIDTH, HEIGHT],
  );
  const own = Object.fromEntries(Object.keys(CALLS).map((name) => [name, []]));
  for (const [name, call] of Object.entries(CALLS)) {
    call(coverage); // warms up
    for (let run = 0; run < runs; run++) {
      const start = performance.now();
      call(coverage);
      own[name].push(performance.now() - start);
    }
  }
  const args = [script, file, `${WIDTH}`, `${HEIGHT}`, `${WINDOW}`, `${K}`, `${runs}`];
  const { versions, ms } = JSON.parse(
    execFileSync('/usr/bin/python3', args, { encoding: 'utf8', maxBuffer: 1 << 24 }),
  );
  console.log(
    `A4 at 600 dpi, ${WIDTH} × ${HEIGHT}; window ${WINDOW}; node ${process.version}, ${versions}`,
  );
  console.log('| ours | peer | ms, median (range) | peer ms | ratio | at most |');
  console.log('| --- | --- | ---: | ---: | ---: | ---: |');
  for (const { peer, own: name, most } of PEERS) {
    const ratio = (middle(own[name]) / middle(ms[peer])).toFixed(2);
    console.log(
      `| ${name} | ${peer} | ${spread(own[name])} | ${spread(ms[peer])} | ${ratio} | ${most} |`,
    );
  }
} finally {
  rmSync(folder, { recursive: true });
}

/** The page with the grain of a scan: no two neighbours of the paper need be equal. */
function grainyPage() {
  const random = seeded('grain');
  return drawPage().map((tone) => Math.max(0, Math.min(255, tone * 0.9 + 20 * random())));
}

function middle(list) {
  return list.toSorted((a, b) => a - b)[list.length >> 1];
}

function spread(list) {
  const [least, most] = [Math.min(...list), Math.max(...list)];
  return `${middle(list).toFixed(0)} (${least.toFixed(0)} to ${most.toFixed(0)})`;
}
