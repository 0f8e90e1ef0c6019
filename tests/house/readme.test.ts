import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import * as underink from '../../src/index.ts';
import { pageSnippets, promised, root, run, STRICTEST, typeFaults } from '../support/snippets.ts';

const text = readFileSync(join(root, 'README.md'), 'utf8');

const snippets = pageSnippets(text);

/** What snippets have written; they find it beside the files of the repository. */
const written = new Map<string, Uint8Array | string>();
const fs = {
  readFileSync: (path: string) => written.get(path) ?? readFileSync(join(root, path)),
  writeFileSync: (path: string, bytes: Uint8Array | string) => void written.set(path, bytes),
};
const modules = { underink, 'node:fs': fs };

describe('the snippets of the README', () => {
  it('are all TypeScript, and found', () => {
    const languages = [...text.matchAll(/^```(\w+)$/gm)].map(([, language]) => language);
    expect(languages.filter((language) => language !== 'sh' && language !== 'ts')).toEqual([]);
    expect(snippets.length).toBe(languages.filter((language) => language === 'ts').length);
    expect(snippets.length).toBeGreaterThan(1);
  });

  it('pass the type check of the strictest project', () => {
    expect(typeFaults(snippets, STRICTEST)).toEqual([]);
  });

  // One after another, as a reader goes down the page: later ones read what earlier ones wrote.
  it.sequential.each(snippets)('run as they stand: $name', async ({ code }) => {
    const printed = await run(code, modules);
    const texts = promised(code);
    expect(printed.map((line, i) => texts[i] && line)).toEqual(texts);
    for (const [name, file] of written) {
      if (!name.endsWith('.png')) continue;
      expect(underink.readPng(file as Uint8Array).pixels.shape[0], name).toBeGreaterThan(0);
    }
  });

  it('part and recolor the tail as the plan says', () => {
    const { pixels } = underink.readPng(written.get('autumn.png') as Uint8Array);
    const color = (x: number, y: number) => [0, 1, 2].map((c) => pixels.get(x, y, c));
    expect(color(1013, 1655)).toEqual([0x5b, 0x3d, 0x2d]);
    expect(color(1150, 1700)).toEqual([0xa5, 0x60, 0x3a]);
  });
});
