import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { layFlats, raster, writeFlats, writePng } from '../../src/index.ts';

/** A page with a ring of ink, its inside to be laid. */
function ring(size: number) {
  const gray = new Uint8Array(size * size).fill(255);
  for (let i = 0; i < gray.length; i++) {
    const [x, y] = [(i % size) + 0.5 - size / 2, Math.floor(i / size) + 0.5 - size / 2];
    const away = Math.abs(Math.sqrt(x * x + y * y) - size / 3);
    gray[i] = Math.round(255 * Math.min(1, Math.max(0, away - 2)));
  }
  return raster(gray, [size, size]);
}

let folder = '';
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'folder-check-'));
});
afterEach(() => {
  rmSync(folder, { recursive: true });
  process.exitCode = undefined;
  vi.restoreAllMocks();
});

/** Runs the example; what it prints and its exit code. */
async function run(...args: string[]): Promise<{ out: string; error: string; code: unknown }> {
  let [out, error] = ['', ''];
  vi.spyOn(process.stdout, 'write').mockImplementation((text) => {
    out += text;
    return true;
  });
  vi.spyOn(console, 'error').mockImplementation((text) => {
    error += text;
  });
  const { argv } = process;
  process.argv = ['node', 'run.mjs', ...args];
  vi.resetModules();
  // @ts-expect-error: a script without types
  await import('../../examples/folder-check/run.mjs');
  process.argv = argv;
  vi.restoreAllMocks();
  return { out, error, code: process.exitCode };
}

describe('the check of a folder', () => {
  const line = ring(60);
  const { flats } = layFlats(line, {
    plan: {
      version: 1,
      size: [60, 60],
      palette: [{ name: 'shell', color: '#c06a3a' }],
      marks: [{ point: [30, 30], swatch: 'shell' }],
    },
  });
  const write = (name: string, art = flats) => {
    writeFileSync(join(folder, `${name}.flats.png`), writeFlats(art).bytes);
    writeFileSync(join(folder, `${name}.line.png`), writePng(line));
  };
  const holed = () => {
    const data = flats.indices.data.slice();
    data[60 * 30 + 30] = 0;
    return { ...flats, indices: raster(data, [60, 60]) };
  };

  it('ends with 0 on clean sheets', async () => {
    write('crab');
    write('heron');
    const { out, code, error } = await run(folder);
    expect(error).toBe('');
    expect(out).toBe('no findings on 2 sheets\n\ncrab: no findings\n\nheron: no findings\n');
    expect(code).toBe(0);
    expect(readFileSync(join(folder, 'findings.html'), 'utf8')).toContain(
      'no findings on 2 sheets',
    );
  });

  it('ends with 1 on a finding, told and shown', async () => {
    write('crab', holed());
    write('heron');
    const html = join(folder, 'page.html');
    const { out, code } = await run(folder, '--html', html);
    expect(out).toContain('crab: 1 finding: 1 error\n1  error  bare  1 pixel bare at [30, 30]\n');
    expect(out).toContain('heron: no findings\n');
    expect(code).toBe(1);
    expect(readFileSync(html, 'utf8')).toContain('1 pixel bare at [30, 30]');
  });

  it('checks against a palette, and ends with 2 on what it cannot read', async () => {
    write('crab');
    const palette = join(folder, 'palette.json');
    writeFileSync(palette, JSON.stringify([{ name: 'shell', color: '#c06a3b' }]));
    const off = await run(folder, '--palette', palette);
    expect(off.out).toContain('off the palette');
    expect(off.code).toBe(1);
    writeFileSync(join(folder, 'otter.flats.png'), 'no picture');
    const broken = await run(folder);
    expect(broken.code).toBe(2);
    expect(broken.error).toMatch(/PNG/);
    expect((await run()).code).toBe(2);
  });
});
