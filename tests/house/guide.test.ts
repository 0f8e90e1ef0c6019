/** The code of the guide runs as it stands, page after page, on the demo's sheet. */
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import * as underink from '../../src/index.ts';
import { loadOpenCV } from '../support/opencv.ts';
import { pageSnippets, promised, root, run, STRICTEST, typeFaults } from '../support/snippets.ts';

const folder = join(root, 'docs/guide');
const pages = readdirSync(folder).filter((file) => file.endsWith('.md'));
const texts = pages.map((page) => readFileSync(join(folder, page), 'utf8'));
const snippets = texts.flatMap((text, i) =>
  pageSnippets(text).map(({ name, code }) => ({ name: `${pages[i]}: ${name}`, code })),
);

/** What snippets have written; later ones find it beside the files of the repository. */
const written = new Map<string, Uint8Array | string>();
const fs = {
  readFileSync: (path: string) => written.get(path) ?? readFileSync(join(root, path)),
  writeFileSync: (path: string, bytes: Uint8Array | string) => void written.set(path, bytes),
};
const modules = { underink, 'node:fs': fs };
const stays = new Map<string, Uint8Array>();

const isWorker = ({ code }: { code: string }) => code.startsWith('// worker.js');
const worker = snippets.find(isWorker)!;

interface WorkerSelf {
  onmessage?: (event: { data: unknown }) => void;
  postMessage: (data: unknown) => void;
}

/** A worker that runs the guide's in this thread; messages come later, as in a browser. */
class Worker {
  onmessage?: (event: { data: unknown }) => void;
  onerror?: (event: { message: string }) => void;
  readonly self: WorkerSelf = { postMessage: (data) => this.onmessage?.({ data }) };
  readonly ready: Promise<unknown>;

  constructor(file: string) {
    if (!worker.code.startsWith(`// ${file}`)) throw new Error(`the guide has no ${file}`);
    this.ready = run(worker.code, modules, { self: this.self });
  }

  postMessage(data: unknown): void {
    this.ready
      .then(() => this.self.onmessage!({ data }))
      .catch((error: Error) => this.onerror!({ message: error.message }));
  }
}

const sheet = () => readFileSync(join(root, 'examples/saltmarrow/model-sheet.png'));
const globals = { Worker, fetch: async () => new Response(sheet()) };

describe('the guide', () => {
  it('has code in TypeScript only, and all of it is found', () => {
    const languages = texts.flatMap((text) => [...text.matchAll(/^```(.*)\n[\s\S]*?^```$/gm)]);
    const kinds = languages.map(([, language]) => language);
    expect(kinds.filter((kind) => kind !== 'sh' && kind !== 'ts')).toEqual([]);
    expect(snippets.length).toBe(kinds.filter((kind) => kind === 'ts').length);
    expect(snippets.length).toBeGreaterThan(15);
  });

  it('passes the type check of the strictest project', () => {
    expect(typeFaults(snippets, STRICTEST)).toEqual([]);
  });

  // One after another, as a reader goes through: later ones read what earlier ones wrote.
  it.sequential.each(snippets.filter((one) => !isWorker(one)))('runs: $name', async (snippet) => {
    const { cv } = await loadOpenCV();
    const all = { ...modules, '@techstark/opencv-js': { default: cv } };
    const printed = await run(snippet.code, all, globals);
    const said = promised(snippet.code);
    expect(printed.map((line, i) => said[i] && line)).toEqual(said);
    for (const [name, file] of written) {
      if (!name.endsWith('.png') || stays.get(name) === file) continue;
      expect(underink.readPng(file as Uint8Array).pixels.shape[0], name).toBeGreaterThan(0);
      stays.set(name, file as Uint8Array);
    }
  });

  it('cancels its worker by the flag', async () => {
    const posted: unknown[] = [];
    const self: WorkerSelf = { postMessage: (message) => posted.push(message) };
    await run(worker.code, modules, { self });
    const stop = new Int32Array(new SharedArrayBuffer(4));
    stop[0] = 1;
    const bytes = new Uint8Array(sheet());
    expect(() => self.onmessage!({ data: { bytes, stop } })).toThrow('canceled');
    expect(posted.filter((message) => message instanceof Uint8Array)).toEqual([]);
  });

  it('lays what its plan says, and what it says only', () => {
    const plan: underink.Plan = JSON.parse(written.get('plan.json') as string);
    const { flats } = underink.layFlats(underink.readPng(sheet()).pixels, { plan });
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
});
