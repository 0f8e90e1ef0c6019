import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import {
  checkSheets,
  composeSheet,
  findingsToHtml,
  findingsToText,
  inkCoverage,
  readFlats,
  readPng,
  studyGaps,
  summarizeFindings,
  thresholdInk,
} from 'underink';

const FLATS = '.flats.png';
const LINE = '.line.png';

/**
 * Checks the sheets of a folder, by name: `{ findings, text, html, isClean }`. A sheet is clean with
 * findings for information only.
 */
export function checkFolder(folder, { palette } = {}) {
  const names = readdirSync(folder)
    .filter((file) => file.endsWith(FLATS))
    .map((file) => file.slice(0, -FLATS.length))
    .sort();
  const sheets = names.map((name) => readSheet(folder, name));
  const findings = checkSheets(sheets, { palette });
  const { error, warning } = summarizeFindings(findings).bySeverity;
  const html = findingsToHtml(findings, {
    title: `Findings of ${names.length} sheets`,
    sheets: names,
    picture: (name) => {
      const { flats } = sheets.find((sheet) => sheet.name === name);
      return composeSheet(flats, { line: readLine(folder, name) });
    },
  });
  const text = findingsToText(findings, { sheets: names });
  return { findings, text, html, isClean: error + warning === 0 };
}

/** A sheet with its ink, gaps closed as they would be for laying flats, so that seams there are meant. */
function readSheet(folder, name) {
  const { flats } = readFlats(readFileSync(join(folder, name + FLATS)));
  const line = readLine(folder, name);
  if (line === undefined) return { name, flats };
  const coverage = inkCoverage(line);
  const ink = studyGaps(thresholdInk(coverage), { coverage }).seal().sealed;
  return { name, flats, ink, coverage };
}

function readLine(folder, name) {
  const path = join(folder, name + LINE);
  return existsSync(path) ? readPng(readFileSync(path)).pixels : undefined;
}
