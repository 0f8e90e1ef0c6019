/**
 * The whole main job in other engines and where no code may be made of strings: the values that all
 * must give stand here. They change with what the library lays, and with the drawings.
 */
import { execFileSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { draftPlan, layFlats, type Pixels, writePng } from '../../src/index.ts';
import { bundleJob } from '../support/engines/bundle.ts';
import { missing, runInChromium } from '../support/engines/in-chromium.ts';
import { runInQuickJs } from '../support/engines/in-quickjs.ts';
import { type JobSheet, runJob } from '../support/engines/job.ts';
import { sha256 } from '../support/engines/sha256.ts';
import { root } from '../support/snippets.ts';

/** Of the model sheet with its plan and of 50 drawings, 128 × 128. */
const HASH = '53e8365fea73c96fa4041e4b849dd19e7ca90654b610cdfd9aef33be5434d58b';
/**
 * Of the 50 drawings, 48 × 48, each with a plan drafted in Node: QuickJS is an interpreter, for which
 * the model sheet's six million pixels are too many.
 */
const SMALL_HASH = 'af2ffba9a343b9b37856cb0c811ad13f36e2509d6ba4babb8bdd0f1a24dee829';

interface Drawings {
  openmojiDrawings(count: number): { name: string; line: string }[];
  renderLines(drawing: { line: string }, size: number): Pixels<Uint8Array>;
}
const MODULE = new URL('../../examples/openmoji/drawings.mjs', import.meta.url).href;

let script = '';
let [text, small] = ['', ''];

beforeAll(async () => {
  const { openmojiDrawings, renderLines } = (await import(MODULE)) as Drawings;
  const drawings = openmojiDrawings(50);
  const plain = drawings.map((drawing) => ({ png: hexadecimal(renderLines(drawing, 128)) }));
  text = JSON.stringify([modelSheet(), ...plain]);
  const planned = drawings.map((drawing) => {
    const pixels = renderLines(drawing, 48);
    return { png: hexadecimal(pixels), plan: draftPlan(layFlats(pixels, { ground: 'ground' })) };
  });
  small = JSON.stringify(planned);
  script = await bundleJob();
});

function modelSheet(): JobSheet {
  const file = (name: string) => readFileSync(join(root, 'examples/saltmarrow', name));
  const plan = JSON.parse(file('plan.json').toString());
  const more = JSON.parse(file('corrections.json').toString());
  return {
    png: file('model-sheet.png').toString('hex'),
    plan: {
      ...plan,
      palette: [...plan.palette, ...more.palette],
      marks: [...plan.marks, ...more.marks],
    },
  };
}

function hexadecimal(pixels: Pixels): string {
  return Buffer.from(writePng(pixels)).toString('hex');
}

describe('SHA-256 of our own', () => {
  it.each([0, 1, 55, 56, 63, 64, 65, 1000])('of %i bytes is that of Node', (length) => {
    const bytes = Uint8Array.from({ length }, (_, i) => (i * i * 31) >> 2);
    expect(sha256(bytes)).toBe(createHash('sha256').update(bytes).digest('hex'));
  });
});

describe('the main job gives one value', () => {
  const folder = mkdtempSync(join(tmpdir(), 'underink-job-'));
  afterAll(() => rmSync(folder, { recursive: true }));

  it('of small drawings in Node, from the sources', () => {
    expect(runJob(small)).toEqual({ hash: SMALL_HASH, generatesCode: true });
  });

  it('in Node where no code may be made of strings, as it is built', () => {
    writeFileSync(join(folder, 'input.json'), text);
    const run = "underinkJob(require('node:fs').readFileSync('input.json', 'utf8'))";
    writeFileSync(join(folder, 'job.cjs'), `${script}\nconsole.log(JSON.stringify(${run}));`);
    const flags = ['--disallow-code-generation-from-strings', 'job.cjs'];
    const printed = execFileSync(process.execPath, flags, { cwd: folder, encoding: 'utf8' });
    expect(JSON.parse(printed)).toEqual({ hash: HASH, generatesCode: false });
  });

  const title = missing === undefined ? '' : ` (skipped: ${missing})`;
  it.skipIf(missing !== undefined)(
    `in Chromium under a strict Content-Security-Policy${title}`,
    async () => {
      expect(await runInChromium(script, text)).toEqual({ hash: HASH, generatesCode: false });
    },
  );

  it('of small drawings in QuickJS, which is not V8', async () => {
    expect(await runInQuickJs(script, small)).toEqual({ hash: SMALL_HASH, generatesCode: true });
  });
});
