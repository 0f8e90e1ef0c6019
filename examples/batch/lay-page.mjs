// Lays the flats of one page: what a worker does, in a thread here, on another machine in `../queue`.
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { performance } from 'node:perf_hooks';
import {
  checkFlats,
  composeSheet,
  layFlats,
  readPng,
  summarizeFindings,
  writeFlats,
  writePng,
} from 'underink';
import { writeWhole } from './files.mjs';
import { thumbnail } from './thumbnail.mjs';

/** Longer side of a thumbnail, in pixels. */
const SMALL = 240;
/** Places of each kind that a record lists; it has the number of all. */
const LISTED = 10;

/**
 * Writes `NAME.flats.png` and `NAME.small.png` into `out`, and `NAME.json` last: a page whose record has
 * its key is done. Gives the record.
 */
export default function layPage({ name, drawing, plan: planFile, key, out }) {
  const started = performance.now();
  const plan = planFile && JSON.parse(readFileSync(planFile, 'utf8'));
  const { pixels, resolution } = readPng(readFileSync(drawing));
  const { flats, sealed, report } = layFlats(pixels, { plan });
  const findings = checkFlats(flats, { ink: sealed, report });
  writeWhole(join(out, `${name}.flats.png`), writeFlats(flats, { resolution }).bytes);
  const small = thumbnail(composeSheet(flats, { line: pixels }), SMALL);
  writeWhole(join(out, `${name}.small.png`), writePng(small));
  const doubtful = report.bridges.filter((bridge) => bridge.doubtful || bridge.forced);
  const record = {
    name,
    key,
    size: report.size,
    regions: report.regions,
    named: report.named,
    unnamed: listed(report.unnamed, ({ inside, area }) => ({ at: inside, area })),
    doubtful: listed(doubtful, ({ from, probability, forced }) => ({
      at: from,
      probability,
      forced,
    })),
    conflicts: report.conflicts.length,
    findings: {
      ...listed(findings, ({ check, severity, message }) => ({ check, severity, message })),
      bySeverity: summarizeFindings(findings).bySeverity,
    },
    ms: Math.round(performance.now() - started),
  };
  writeWhole(join(out, `${name}.json`), JSON.stringify(record));
  return record;
}

function listed(all, tell) {
  return { count: all.length, first: all.slice(0, LISTED).map(tell) };
}
