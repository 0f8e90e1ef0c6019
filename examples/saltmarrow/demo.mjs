// Lays flats under the model sheet of the harbour pilots of Saltmarrow and writes every picture
// that the job gives, into `out/` beside this file.
import { mkdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { performance } from 'node:perf_hooks';
import { fileURLToPath } from 'node:url';
import {
  checkFlats,
  composeSheet,
  layFlats,
  outlineRegions,
  outlinesToSvg,
  paintFlats,
  raster,
  readFlats,
  readPng,
  recolor,
  regionSheet,
  selectSwatch,
  writeFlats,
  writePng,
} from 'underink';
import { paintFindings, paintMap } from './overlays.mjs';

const here = (path) => fileURLToPath(new URL(path, import.meta.url));
const seconds = (since) => `${((performance.now() - since) / 1000).toFixed(1)} s`;

const started = performance.now();
rmSync(here('out'), { recursive: true, force: true });
mkdirSync(here('out/masks'), { recursive: true });
const written = [];
const write = (name, bytes) => {
  writeFileSync(here(`out/${name}`), bytes);
  written.push(name);
};

const { pixels, resolution } = readPng(readFileSync(here('model-sheet.png')));
// The plan names the regions of the pilots by a point each. The corrections are what a person changed
// after a look: two gaps that only points asked to close are said to be meant, a patch filled anew, a
// tail cut where no line is (a seam without ink over it is meant there, and excepted from the checks),
// and the many planks, taken by one polygon that runs carelessly across feet and ground laid before.
const json = (name) => JSON.parse(readFileSync(here(name), 'utf8'));
const plan = json('plan.json');
const { marks, palette, exceptions } = json('corrections.json');
plan.settings = { ...plan.settings, exceptions };
plan.marks.push(...marks);
plan.palette.push(...palette);
const [width, height] = pixels.shape;
console.log(`model-sheet.png: ${width} × ${height}, plan with ${plan.marks.length} marks`);

let stage = '';
const laid = layFlats(pixels, {
  plan,
  ground: 'ground',
  unnamed: 'claim',
  onProgress: (progress) => {
    if (progress.stage !== stage) process.stdout.write(`  ${(stage = progress.stage)}\n`);
  },
});
const { flats, ink, sealed, labels, report } = laid;
const drawn = report.bridges.filter((bridge) => bridge.drawn);
const open = report.bridges.filter((bridge) => !bridge.drawn && bridge.doubtful);
console.log(`flats laid after ${seconds(started)}`);
console.log(
  `  ink: ${report.threshold.method} level ${report.threshold.level}, ${report.threshold.why}`,
);
const forced = drawn.filter((bridge) => bridge.forced);
console.log(
  `  gaps closed: ${drawn.length}, ${forced.length} only because points ask for it; left open in doubt: ${open.length}`,
);
for (const { from, why } of forced) console.log(`  forced at ${from.map(Math.floor)}: ${why}`);
console.log(
  `  regions: ${report.regions}, named ${report.named}, ground ${report.ground}, unnamed ${report.unnamed.length}; claimed ${report.claimed.length}`,
);
for (const { swatch, at, area, probability } of report.claimed) {
  console.log(
    `  "${swatch}" claims ${area} px at ${at.map(Math.floor)}, over a border of probability ${probability.toFixed(2)}`,
  );
}
for (const { inside, area } of report.unnamed) {
  console.log(`  no mark names the region at ${inside.map(Math.floor)}, ${area} px`);
}
for (const { mark, swatch, keeps } of report.conflicts) {
  console.log(`  conflict: mark ${mark} asks for "${swatch}", its region is "${keeps}"`);
}
for (const { mark, why } of report.notes) {
  console.log(mark === undefined ? `  ${why}` : `  mark ${mark}: ${why}`);
}

const file = writeFlats(flats, resolution === undefined ? {} : { resolution });
write('flats.png', file.bytes);
const read = readFlats(file.bytes).flats;
const findings = checkFlats(read, { ink: sealed, report });
console.log(`checked as read back: ${findings.length} findings`);
for (const finding of findings.slice(0, 8)) console.log(`  ${finding.check}: ${finding.message}`);

const swatches = new Map(flats.palette.map(({ color }, index) => [index, color]));
const outlines = outlineRegions(raster(Int32Array.from(flats.indices.data), flats.indices.shape), {
  simplify: 1,
});
write('outlines.svg', outlinesToSvg(outlines, [width, height], { fill: (id) => swatches.get(id) }));
write('regions.png', writePng(paintMap(labels)));
write('sheet.png', writePng(composeSheet(flats, { line: pixels })));
write('region-sheet.svg', regionSheet(laid, { line: pixels }));
console.log(`writing ${flats.palette.length - 1} masks`);
for (const { name } of flats.palette.slice(1)) {
  const mask = selectSwatch(flats, name);
  const white = raster(
    mask.data.map((value) => value * 255),
    mask.shape,
  );
  write(`masks/${name.replaceAll(' ', '-')}.png`, writePng(white));
}

const dusk = recolor(flats, {
  'heron coat': '#7b3f52',
  'heron hat': '#5f6f8f',
  'otter fur': '#5d6b78',
  'otter sweater': '#c7b24e',
  'crab shell': '#4f7f8c',
});
write('recolored.png', writePng(composeSheet(dusk, { line: pixels })));
write('gaps.png', writePng(paintFindings(paintFlats(flats), { ink, sealed, findings, report })));

console.log(
  'gaps.png: green rings were closed, amber ones are open in doubt; red boxes are findings',
);
console.log(`${written.length} pictures in examples/saltmarrow/out after ${seconds(started)}`);
if (report.unnamed.length + report.conflicts.length + findings.length > 0) {
  console.error('the flats are not done: see what is said above');
  process.exitCode = 1;
}
