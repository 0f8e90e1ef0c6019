/**
 * The whole main job in other engines and where no code may be made of strings: the value that they
 * all must give stands here. It changes with what the library lays, and with the drawings.
 */
import { execFileSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import { existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { chromium } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { type Pixels, type Plan, writePng } from '../../src/index.ts';
import { bundleJob } from '../support/engines/bundle.ts';
import { type JobResult, runJob } from '../support/engines/job.ts';
import { sha256 } from '../support/engines/sha256.ts';
import { root } from '../support/snippets.ts';

/** Of the model sheet with its plan and of 50 drawings. */
const HASH = '';
const DRAWINGS = 50;

interface Drawings {
  openmojiDrawings(count: number): { name: string; line: string }[];
  renderLines(drawing: { line: string }, size: number): Pixels<Uint8Array>;
}
const MODULE = new URL('../../examples/openmoji/drawings.mjs', import.meta.url).href;
const file = (name: string) => readFileSync(join(root, 'examples/saltmarrow', name));

/** Where Debian has it. */
const CHROMIUM = '/usr/bin/chromium';
const hasChromium = existsSync(CHROMIUM);

const folder = mkdtempSync(join(tmpdir(), 'underink-job-'));
let script = '';
let input: { sheet: Uint8Array; plan: Plan; drawings: Uint8Array[] };
/** The same as text, for what gets it through a file or a socket. */
let text = '';

/** What each engine runs once the job is there: `text` becomes bytes, the job its result. */
const RUN = `(text) => {
  const bytes = (code) => Uint8Array.from(atob(code), (letter) => letter.charCodeAt(0));
  const { sheet, plan, drawings } = JSON.parse(text);
  return underinkJob({ sheet: bytes(sheet), plan, drawings: drawings.map(bytes) });
}`;

beforeAll(async () => {
  const { openmojiDrawings, renderLines } = (await import(MODULE)) as Drawings;
  const plan = JSON.parse(file('plan.json').toString());
  const more = JSON.parse(file('corrections.json').toString());
  input = {
    sheet: Uint8Array.from(file('model-sheet.png')),
    plan: {
      ...plan,
      palette: [...plan.palette, ...more.palette],
      marks: [...plan.marks, ...more.marks],
    },
    drawings: openmojiDrawings(DRAWINGS).map((drawing) => writePng(renderLines(drawing, 128))),
  };
  const code = (bytes: Uint8Array) => Buffer.from(bytes).toString('base64');
  text = JSON.stringify({
    sheet: code(input.sheet),
    plan: input.plan,
    drawings: input.drawings.map(code),
  });
  script = await bundleJob();
});

afterAll(() => rmSync(folder, { recursive: true }));

describe('SHA-256 of our own', () => {
  it.each([0, 1, 55, 56, 63, 64, 65, 1000])('of %i bytes is that of Node', (length) => {
    const bytes = Uint8Array.from({ length }, (_, i) => (i * i * 31) >> 2);
    expect(sha256(bytes)).toBe(createHash('sha256').update(bytes).digest('hex'));
  });
});

describe('the main job gives one value', () => {
  it('in Node, from the sources', () => {
    expect(runJob(input)).toEqual({ hash: HASH, generatesCode: true });
  });

  it('in Node where no code may be made of strings, as it is built', () => {
    writeFileSync(join(folder, 'input.json'), text);
    const run = `process.stdout.write(JSON.stringify((${RUN})(require('node:fs').readFileSync('input.json', 'utf8'))));`;
    writeFileSync(join(folder, 'job.cjs'), `${script}\n${run}`);
    const flags = ['--disallow-code-generation-from-strings', 'job.cjs'];
    const printed = execFileSync(process.execPath, flags, { cwd: folder, encoding: 'utf8' });
    expect(JSON.parse(printed)).toEqual({ hash: HASH, generatesCode: false });
  });

  // UNDERINK_CHROMIUM=required makes a missing Chromium a failure
  const skips = !hasChromium && process.env.UNDERINK_CHROMIUM !== 'required';
  const title = 'in Chromium under a strict Content-Security-Policy';
  it.skipIf(skips)(skips ? `${title} (skipped: no ${CHROMIUM})` : title, async () => {
    expect(await inChromium()).toEqual({ hash: HASH, generatesCode: false });
  });
});

/** Runs the job in a page of its own, whose policy allows scripts of its origin and nothing else. */
async function inChromium(): Promise<JobResult> {
  const browser = await chromium.launch({
    executablePath: CHROMIUM,
    args: [
      '--no-sandbox',
      '--disable-gpu',
      '--disable-quic',
      '--no-first-run',
      '--disable-background-networking',
      '--disable-component-update',
      '--disable-sync',
    ],
  });
  try {
    const page = await browser.newPage();
    const policy = "default-src 'none'; script-src 'self'; connect-src 'self'";
    const start = `fetch('/input.json').then((r) => r.text()).then(${RUN}).then(
      (result) => { document.title = JSON.stringify(result); },
      (error) => { document.title = String(error && error.stack || error); },
    );`;
    const files: Record<string, [type: string, body: string]> = {
      '/': ['text/html', '<!doctype html><script src="/job.js"></script>'],
      '/job.js': ['text/javascript', `${script}\n${start}`],
      '/input.json': ['application/json', text],
    };
    await page.route('**/*', (route) => {
      const [contentType, body] = files[new URL(route.request().url()).pathname] ?? ['', ''];
      return route.fulfill({
        contentType,
        body,
        headers: { 'content-security-policy': policy },
      });
    });
    await page.goto('https://underink.test/');
    // the title is read from outside, so that nothing is evaluated in the page
    for (let tries = 0; tries < 1000; tries++) {
      const title = await page.title();
      if (title !== '') return JSON.parse(title);
      await new Promise((done) => setTimeout(done, 100));
    }
    throw new Error('the page gave no result');
  } finally {
    await browser.close();
  }
}
