// Writes the evidence on every proposal of the tuning half, and whether it parts true regions:
//
//   node bench/gaps/train/dump-local.mjs <folder> [--sets nib,glyph,brush,vector,hand] [--drawings 320]
import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { parseArgs } from 'node:util';
import { serialize } from 'node:v8';
import {
  Dump,
  eachTuneCase,
  judge,
  loadInternals,
  placesFile,
  suggestFor,
  TRAINED,
  toPlaces,
  truthOfFaces,
} from './case.mjs';

const { values, positionals } = parseArgs({
  allowPositionals: true,
  options: {
    sets: { type: 'string', default: TRAINED },
    drawings: { type: 'string', default: '320' },
  },
});
const folder = positionals[0];
mkdirSync(join(folder, 'places'), { recursive: true });
const inner = await loadInternals();
const dump = new Dump(folder, 'local', inner.EVIDENCE);
for await (const one of eachTuneCase(values)) {
  const suggested = suggestFor(inner, one);
  const { proposals, rows, packed } = suggested;
  writeFileSync(join(folder, 'places', placesFile(one)), serialize(toPlaces(suggested)));
  const pixels = proposals.map((proposal) => proposal.pixels);
  const faces = inner.mapFaces(packed, pixels);
  const sums = truthOfFaces(faces, one.truth, one.width);
  const longest = new Map();
  for (const border of inner.findBorders(
    new inner.BridgePixels(faces, pixels),
    pixels,
    faces.area,
  )) {
    const known = longest.get(border.bridge);
    if (known === undefined || border.pixels > known.pixels) longest.set(border.bridge, border);
  }
  // Per proposal: whether it parts, and the weight.
  const answers = new Float64Array(2 * proposals.length);
  for (let k = 0; k < proposals.length; k++) {
    const border = longest.get(k);
    if (border === undefined) continue;
    const { apart, weight } = judge(sums[border.a], sums[border.b], 4);
    answers[2 * k] = apart ? 1 : 0;
    answers[2 * k + 1] = weight;
  }
  dump.add(one, rows, answers);
}
await dump.close();
console.log(dump.cases.length, 'cases');
