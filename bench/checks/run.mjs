// Seeded faults: how many of them `checkFlats` finds, by check and size, on the line art of the first
// distinct drawings of openmoji (https://openmoji.org, CC BY-SA 4.0), and what it finds on the flats
// of those drawings without a fault, laid bare of names and in the colors of the drawing.
// `npm run bench:checks -- --drawings 10`, 200 by default; `--crops FOLDER` writes a picture of every
// finding on flats without a fault. All 200 write docs/checks-bench.md.
import { writeFileSync } from 'node:fs';
import { parseArgs } from 'node:util';
import {
  checkFlats,
  checkSheets,
  defineCheck,
  draftPlan,
  inkCoverage,
  layFlats,
  raster,
} from 'underink';
import { openmojiDrawings } from '../gaps/halves.mjs';
import { seeded } from '../gaps/random.mjs';
import { renderSvg, UNITS } from '../gaps/vector.mjs';
import { FAULTS, otherColor } from './faults.mjs';
import { colorsOf, writeCrops } from './originals.mjs';
import { BY_DEFINITION, writeTables } from './tables.mjs';

const SIZE = 512;
/** Sizes of the faults, in thresholds. */
const TIMES = [0.5, 1, 2, 4];
const WHOLE = 200;
/** A color that no drawing of openmoji has. */
const GROUND = '#1ad6c4';

const { values } = parseArgs({
  options: { drawings: { type: 'string', default: `${WHOLE}` }, crops: { type: 'string' } },
});
const drawings = openmojiDrawings().slice(0, Number(values.drawings));
const tally = new Map();
const originals = { 'as laid': [], 'in colors': [] };
for (const drawing of drawings) {
  const svg = `<svg viewBox="0 0 ${UNITS} ${UNITS}" xmlns="http://www.w3.org/2000/svg">${drawing.markup}</svg>`;
  const { width, height, data } = renderSvg(svg, { mode: 'width', value: SIZE });
  const pixels = raster(data, [width, height, 4]);
  const coverage = inkCoverage(pixels);
  const laid = layFlats(pixels);
  lookAt('as laid', drawing, laid, pixels, coverage);
  const plan = planInColors(laid, colorsOf(drawing, SIZE));
  lookAt('in colors', drawing, layFlats(pixels, { plan }), pixels, coverage);
  seedFaults({ ...laid, ink: laid.sealed, pixels, coverage, width, height }, drawing.group);
}
if (values.crops !== undefined) {
  for (const [name, found] of Object.entries(originals)) {
    const seen = found.filter(({ finding }) => !BY_DEFINITION.includes(finding.check));
    await writeCrops(seen, `${values.crops}/${name.replace(' ', '-')}`);
  }
}
const text = writeTables({ drawings: drawings.length, size: SIZE, tally, originals });
console.log(text);
if (drawings.length === WHOLE) {
  writeFileSync(new URL('../../docs/checks-bench.md', import.meta.url), text);
}

/** A point for every region, in the color that the drawing has there; a ground of a color of its own. */
function planInColors(laid, reference) {
  const plan = draftPlan(laid, { reference });
  const isGround = ({ name }) => name === laid.flats.ground;
  const palette = plan.palette.map((swatch) =>
    isGround(swatch) ? { ...swatch, color: GROUND } : swatch,
  );
  return { ...plan, palette };
}

/** What all checks that a sheet allows find on flats without a seeded fault. */
function lookAt(kind, { name }, laid, line, coverage) {
  const { flats, sealed: ink, report } = laid;
  const palette = flats.palette.slice(1);
  const checks = { unused: true, lookalikes: true, divided: true, leaks: true };
  for (const finding of checkFlats(flats, { ink, coverage, report, palette, checks })) {
    originals[kind].push({ drawing: name, finding, flats, line });
  }
}

function seedFaults(sheet, group) {
  const { flats, ink, coverage } = sheet;
  const whole = { ...sheet, random: seeded(`faults ${group}`), distance: inkDistance(sheet) };
  const palette = flats.palette.slice(1);
  for (const [name, fault] of Object.entries(FAULTS)) {
    const { size, unit, wanted, make, check = name, times: sizes = TIMES } = fault;
    for (const times of sizes) {
      const made = make(whole, size * times);
      if (made === undefined) continue;
      const { flats: faulty, at, swatches, thresholds = {}, ...others } = made;
      const found = checkFlats(faulty, {
        ink,
        coverage,
        palette,
        ...others,
        checks: { [check]: { ...thresholds } },
      }).filter((finding) => finding.check === check);
      const isHit = (finding) =>
        at === undefined
          ? swatches.every((swatch) => finding.swatches.includes(swatch))
          : touches(finding, at, sheet.width);
      count(name, times, {
        size: size * times,
        unit,
        wanted: wanted(times),
        hit: found.some(isHit),
      });
    }
  }
  for (const steps of [1, 2, 4, 8]) {
    const { flats: other, name } = otherColor(whole, steps);
    const sheets = [
      { name: 'one', flats },
      { name: 'two', flats: other },
    ];
    const found = checkSheets(sheets, { checks: [] });
    const hit = found.some(({ sheet, swatches }) => sheet === 'two' && swatches.includes(name));
    count('colors', steps, { size: steps, unit: 'of 255', wanted: true, hit });
  }
}

function count(name, times, { hit, ...fields }) {
  const key = `${name} ${times}`;
  const row = tally.get(key) ?? { name, times, ...fields, made: 0, found: 0 };
  row.made++;
  if (hit) row.found++;
  tally.set(key, row);
}

/** Distance to ink, as a check sees it. */
function inkDistance({ flats, ink }) {
  let distance;
  const look = defineCheck('distance', ({ squaredInkDistance }) => {
    distance = Float64Array.from(squaredInkDistance.data, Math.sqrt);
    return [];
  });
  checkFlats(flats, { ink, checks: [look] });
  return distance;
}

function touches({ spans, at: [x, y] }, pixels, width) {
  if (spans === undefined) return pixels.has(Math.floor(y) * width + Math.floor(x));
  for (let k = 0; k < spans.length; k += 3) {
    for (let x = spans[k + 1]; x < spans[k + 2]; x++) {
      if (pixels.has(spans[k] * width + x)) return true;
    }
  }
  return false;
}
