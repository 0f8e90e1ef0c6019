// The tables of docs/performance.md, a section for each page that was timed.
import { readFileSync, writeFileSync } from 'node:fs';

const file = new URL('../../docs/performance.md', import.meta.url);
const TITLES = { 'a4-300': 'A4 at 300 dpi', 'a4-600': 'A4 at 600 dpi', '100mpx': '100 megapixels' };

/** What a page is called there. */
export function titleOf(name, { scanned, hugePages, firstCalls }) {
  const parts = [TITLES[name] ?? name];
  if (scanned) parts.push('scanned');
  if (hugePages) parts.push('huge pages');
  if (firstCalls) parts.push('first calls');
  return parts.join(', ');
}

/** Puts a section in place of that of the same title, else before what bounds the times. */
export function writeSection(title, body) {
  const text = readFileSync(file, 'utf8');
  const section = `## ${title}\n\n${body.trim()}\n\n`;
  const start = text.indexOf(`## ${title}\n`);
  if (start < 0) {
    const before = text.indexOf('## What bounds it\n');
    writeFileSync(file, text.slice(0, before) + section + text.slice(before));
    return;
  }
  const next = text.indexOf('\n## ', start) + 1;
  writeFileSync(file, text.slice(0, start) + section + (next > 0 ? text.slice(next) : ''));
}
