import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, expect, it } from 'vitest';
// @ts-expect-error: a script without types
import { sweepsOf } from '../../bench/gaps/curves.mjs';
// @ts-expect-error: a script without types
import { ownDrawings, setOf } from '../../bench/gaps/own.mjs';
import { raster, writePng } from '../../src/index.ts';

let folder = '';
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'sweep-'));
});
afterAll(() => rmSync(folder, { recursive: true }));

/** Letters for colors; `#` is black in both pictures. */
function write(name: string, rows: readonly string[]): void {
  const colors: Record<string, readonly number[]> = {
    '#': [0, 0, 0],
    '.': [255, 255, 255],
    a: [200, 90, 40],
    b: [40, 90, 200],
  };
  const data = Uint8Array.from(rows.flatMap((row) => [...row].flatMap((c) => colors[c]!)));
  writeFileSync(join(folder, name), writePng(raster(data, [rows[0]!.length, rows.length, 3])));
}

it('reads own drawings with their true regions', () => {
  write('quay.png', ['........', '..####..', '..#..#..', '..#..#..', '..####..', '........']);
  // flats meet under the ink; two areas of one color that do not touch are two regions
  write('quay.truth.png', ['aaaaaa#b', 'aabbbbaa', 'aabbbbaa', 'aabbbbaa', 'aabbbbaa', 'aaaaaaaa']);
  const [[one]] = [...ownDrawings(folder)];
  const { width, height, count, truth, gap, set } = one;
  expect([width, height, count, gap, set]).toEqual([8, 6, 3, 0, setOf(folder)]);
  const rows = Array.from({ length: 6 }, (_, y) => [...truth.subarray(8 * y, 8 * y + 8)].join(''));
  expect(rows).toEqual(['11111102', '11000011', '11033011', '11033011', '11000011', '11111111']);
});

it('refuses a truth of another size, and a folder without any', () => {
  write('oar.png', ['....', '.##.']);
  write('oar.truth.png', ['aaa', 'aaa']);
  expect(() => [...ownDrawings(folder)]).toThrow(/oar\.truth\.png must be 4 × 2, got 3,2/);
  expect(() => [...ownDrawings(tmpdir())]).toThrow(/--folder must have NAME\.truth\.png/);
});

it('draws a sweep of settings with three values or more, methods together', () => {
  const row = (method: string, options: object, corrections: number) => {
    return { set: 'quay', method, label: '', options, gap: 0, corrections, f1: 0.5 };
  };
  const charts = sweepsOf('quay', [
    row('seal', { maxGap: 'auto', caution: 0.5 }, 1),
    ...[4, 8, 12].map((maxGap) => row('seal', { maxGap, caution: 0.5 }, maxGap)),
    ...[4, 12].map((maxGap) => row('tree', { maxGap }, 1)),
  ]);
  expect(charts.map(([name]: [string]) => name)).toEqual([
    'quay-maxGap-corrections.svg',
    'quay-maxGap-f1.svg',
  ]);
  const [[, svg]] = charts;
  expect(svg.match(/<circle/g)).toHaveLength(5);
  expect(svg).toContain('>seal caution 0.5<');
  expect(svg).toContain('>tree<');
});
