// How long thresholds take on a page of A4 at 600 dpi, beside native OpenCV and scikit-image in the
// same run: `node bench/ink/speed.mjs [--runs 5]`, after `npm run build`.
import { execFileSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { parseArgs } from 'node:util';
import { raster, thresholdInk } from 'underink';
import { seeded } from '../gaps/random.mjs';
import { drawPage, HEIGHT, WIDTH } from '../lay-flats/page.mjs';

const WINDOW = 51;
const K = 0.2;

const { values } = parseArgs({ options: { runs: { type: 'string', default: '5' } } });
const runs = Number(values.runs);
if (!Number.isInteger(runs) || runs < 1) {
  throw new RangeError(`--runs must be a whole number >= 1, got ${values.runs}`);
}

const out = raster(new Uint8Array(WIDTH * HEIGHT), [WIDTH, HEIGHT]);
const CALLS = {
  otsu: (coverage) => thresholdInk(coverage, { method: 'otsu' }),
  'otsu, `out`': (coverage) => thresholdInk(coverage, { method: 'otsu', out }),
  'sauvola, `out`': (coverage) =>
    thresholdInk(coverage, { method: 'sauvola', window: WINDOW, k: K, out }),
};
/** Peer calls, the call of ours beside each, and the most that ours may take of its time. */
const PEERS = [
  { peer: 'OpenCV threshold, Otsu', own: 'otsu', most: 2 },
  { peer: 'OpenCV threshold, Otsu', own: 'otsu, `out`', most: 2 },
  { peer: 'scikit-image threshold_sauvola', own: 'sauvola, `out`', most: 0.1 },
  { peer: 'OpenCV adaptiveThreshold, mean', own: 'sauvola, `out`', most: 3 },
];

const folder = mkdtempSync(join(tmpdir(), 'ink-speed-'));
try {
  const clean = drawPage();
  console.log('| page | ours | peer | ms, median (range) | peer ms | ratio | at most |');
  console.log('| --- | --- | --- | ---: | ---: | ---: | ---: |');
  comparePeers('clean', clean);
  const versions = comparePeers('grainy', grainy(clean));
  console.log(
    `\nA4 at 600 dpi, ${WIDTH} × ${HEIGHT}; window ${WINDOW}; node ${process.version}, ${versions}`,
  );
} finally {
  rmSync(folder, { recursive: true });
}

/** Prints a line for each peer; gives the peers' versions. */
function comparePeers(name, page) {
  const file = join(folder, `${name}.gray`);
  writeFileSync(file, page);
  const coverage = raster(
    page.map((tone) => 255 - tone),
    [WIDTH, HEIGHT],
  );
  const own = Object.fromEntries(Object.keys(CALLS).map((call) => [call, []]));
  for (const [call, run] of Object.entries(CALLS)) {
    run(coverage); // warms up
    run(coverage);
    for (let i = 0; i < runs; i++) {
      const start = performance.now();
      run(coverage);
      own[call].push(performance.now() - start);
    }
  }
  const script = fileURLToPath(new URL('peer.py', import.meta.url));
  const args = [script, file, `${WIDTH}`, `${HEIGHT}`, `${WINDOW}`, `${K}`, `${runs}`];
  const { versions, ms } = JSON.parse(execFileSync('/usr/bin/python3', args, { encoding: 'utf8' }));
  for (const { peer, own: call, most } of PEERS) {
    const ratio = (middle(own[call]) / middle(ms[peer])).toFixed(2);
    const times = `${spread(own[call])} | ${spread(ms[peer])}`;
    console.log(`| ${name} | ${call} | ${peer} | ${times} | ${ratio} | ${most} |`);
  }
  return versions;
}

/** The page with the grain of a scan: no two neighbors of the paper need be equal. */
function grainy(page) {
  const random = seeded('grain');
  return page.map((tone) => Math.max(0, Math.min(255, tone * 0.9 + 20 * random())));
}

function middle(list) {
  return list.toSorted((a, b) => a - b)[list.length >> 1];
}

function spread(list) {
  const [least, most] = [Math.min(...list), Math.max(...list)];
  return `${middle(list).toFixed(0)} (${least.toFixed(0)} to ${most.toFixed(0)})`;
}
