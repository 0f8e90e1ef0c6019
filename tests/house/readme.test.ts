import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import * as underink from '../../src/index.ts';
import { promised, root, run, type Snippet, typeFaults } from '../support/snippets.ts';

const text = readFileSync(join(root, 'README.md'), 'utf8');

/** The `ts` blocks, each named by its heading. */
const snippets: Snippet[] = text.split(/^## /m).flatMap((part) =>
  [...part.matchAll(/^```ts\n([\s\S]*?)^```$/gm)].map(([, code]) => ({
    name: part.slice(0, part.indexOf('\n')),
    code: code!,
  })),
);

/** What snippets have written; they find it beside the files of the repository. */
const written = new Map<string, Uint8Array | string>();
const fs = {
  readFileSync: (path: string) => written.get(path) ?? readFileSync(join(root, path)),
  writeFileSync: (path: string, bytes: Uint8Array | string) => void written.set(path, bytes),
};
const modules = { underink, 'node:fs': fs };

const isWorker = ({ code }: Snippet) => code.includes('self.onmessage');
const inTurn = snippets.filter((snippet) => !isWorker(snippet));

describe('the snippets of the README', () => {
  it('are all TypeScript, and found', () => {
    const languages = [...text.matchAll(/^```(\w+)$/gm)].map(([, language]) => language);
    expect(languages.filter((language) => language !== 'sh' && language !== 'ts')).toEqual([]);
    expect(snippets.length).toBe(languages.filter((language) => language === 'ts').length);
    expect(snippets.length).toBeGreaterThan(5);
  });

  it('pass the type check of the strictest project', () => {
    const stricter = {
      types: ['node'],
      noUncheckedIndexedAccess: true,
      exactOptionalPropertyTypes: true,
    };
    expect(typeFaults(snippets, stricter)).toEqual([]);
  });

  // One after another, as a reader goes down the page: later ones read what earlier ones wrote.
  it.sequential.each(inTurn)('run as they stand: $name', async ({ code }) => {
    const printed = await run(code, modules);
    const texts = promised(code);
    expect(printed.map((line, i) => texts[i] && line)).toEqual(texts);
    for (const [name, file] of written) {
      if (!name.endsWith('.png')) continue;
      expect(underink.readPng(file as Uint8Array).pixels.shape[0], name).toBeGreaterThan(0);
    }
  });

  it('lay what the plan says, and what it says only', () => {
    const { flats } = underink.readFlats(written.get('flats.png') as Uint8Array);
    const plan: underink.Plan = JSON.parse(written.get('plan.json') as string);
    const at = (x: number, y: number) => flats.palette[flats.indices.get(x, y)]!.name;
    for (const { name } of plan.palette) {
      expect(underink.selectSwatch(flats, name).data.includes(1), name).toBe(true);
    }
    // parted by the cut; closed by the bridge; left open; made one by the join
    expect([at(1013, 1655), at(1150, 1700)]).toEqual(['tail tip', 'otter fur']);
    expect(at(1560, 1130)).not.toBe(at(1610, 1130));
    expect(at(590, 420)).toBe('heron plumage');
    expect(at(660, 1622)).toBe(at(800, 1610));
    // inside the polygon: star, face and edge of the token, and the ground, which was laid
    const inside = [at(2588, 735), at(2600, 800), at(2500, 740), at(2485, 635)];
    expect(inside).toEqual(['brass', 'brass', 'brass', 'ground']);
  });

  it('lay flats in a worker, and end where it is told to', async () => {
    const [{ code }] = snippets.filter(isWorker) as [Snippet];
    const posted: unknown[] = [];
    const self: { onmessage?: (event: { data: unknown }) => void; postMessage: unknown } = {
      postMessage: (message: unknown) => posted.push(message),
    };
    await run(code, modules, { self });
    const gray = underink.raster(new Uint8Array(30 * 20).fill(255), [30, 20]);
    for (let x = 5; x < 25; x++) for (const y of [5, 15]) gray.set(x, y, 0);
    for (let y = 5; y < 16; y++) for (const x of [5, 24]) gray.set(x, y, 0);
    const bytes = underink.writePng(gray);
    const stop = new Int32Array(new SharedArrayBuffer(4));
    self.onmessage!({ data: { bytes, stop } });
    const { flats } = underink.readFlats(posted.at(-1) as Uint8Array);
    expect(flats.palette.length).toBe(3);
    stop[0] = 1;
    expect(() => self.onmessage!({ data: { bytes, stop } })).toThrow('canceled');
  });
});
