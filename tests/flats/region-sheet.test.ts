import { Resvg } from '@resvg/resvg-js';
import { describe, expect, it } from 'vitest';
import { applyPlan } from '../../src/flats/apply-plan.ts';
import { layFlats } from '../../src/flats/lay-flats.ts';
import { listRegions } from '../../src/flats/list-regions.ts';
import { regionSheet, type SheetBridge } from '../../src/flats/region-sheet.ts';
import { readPng } from '../../src/png/read-png.ts';
import { raster } from '../../src/raster/index.ts';
import { labels } from '../support/grids.ts';
import { drawings } from './drawings.ts';

const rooms = raster(new Int32Array(80 * 40), [80, 40]);
for (let y = 0; y < 40; y++) {
  for (let x = 0; x < 80; x++)
    rooms.set(x, y, x < 3 || y < 3 || x >= 77 || y >= 37 ? 1 : x < 40 ? 2 : 3);
}

/** Numbers of a sheet with their titles. */
function numbersOf(svg: string): [id: number, title: string][] {
  const found = svg.matchAll(/<title>([^<]*)<\/title>(\d+)<\/text>/g);
  return [...found].map(([, title, id]) => [Number(id), title!]);
}

function pngOf(svg: string) {
  const text = /base64,([^"]*)"/.exec(svg)?.[1];
  return text === undefined ? undefined : readPng(Buffer.from(text, 'base64')).pixels;
}

describe('regionSheet', () => {
  it('numbers every region of a drawing, and holds its ink', () => {
    for (const { pixels } of drawings(8, 160)) {
      const laid = layFlats(pixels);
      const svg = regionSheet(laid);
      expect(numbersOf(svg).map(([id]) => id)).toEqual(listRegions(laid).map(({ id }) => id));
      const png = pngOf(svg)!;
      expect(png.shape).toEqual([160, 160, 2]);
      laid.ink.data.forEach((value, i) => {
        expect([png.data[2 * i], png.data[2 * i + 1]]).toEqual([0, 255 * value]);
      });
      // resvg, a renderer of SVG, reads it: it is well-formed, and the sizes are as said.
      const { width, height } = new Resvg(svg, { font: { loadSystemFonts: false } });
      expect(Math.min(width, height)).toBeGreaterThan(0);
    }
  });

  it('fits A4 either way', () => {
    for (const [w, h] of [
      [30, 90],
      [90, 30],
      [60, 60],
      [1, 200],
    ] as const) {
      const one = raster(new Int32Array(w * h).fill(1), [w, h]);
      const [, width, height] = /width="([\d.]+)mm" height="([\d.]+)mm"/
        .exec(regionSheet({ labels: one }))!
        .map(Number) as [number, number, number];
      expect(Math.min(width, height)).toBeLessThanOrEqual(210);
      expect(Math.max(width, height)).toBeLessThanOrEqual(297);
      if (w < h) expect(width).toBeLessThanOrEqual(210);
    }
  });

  it('puts a number in its region where it fits, else beside it with a leader', () => {
    const small = raster(new Int32Array(400 * 200).fill(2), [400, 200]);
    for (let y = 0; y < 200; y++) for (let x = 200; x < 400; x++) small.set(x, y, 3);
    small.set(60, 20, 4);
    const svg = regionSheet({ labels: small });
    const places = new Map(
      [...svg.matchAll(/<text x="([\d.-]+)" y="([\d.-]+)"[^>]*><title>[^<]*<\/title>(\d+)</g)].map(
        ([, x, y, id]) => [Number(id), [Number(x), Number(y)] as const],
      ),
    );
    const rows = new Map(listRegions({ labels: small }).map((row) => [row.id, row]));
    for (const id of [2, 3]) expect(places.get(id)![0]).toBe(rows.get(id)!.inside[0]);
    const [x, y] = places.get(4)!;
    expect(Math.max(Math.abs(x - 60.5), Math.abs(y - 20.5))).toBeGreaterThan(1);
    expect(svg).toContain('<path d="M60.5 20.5L');
  });

  it('hatches what no mark names, and nothing without flats', () => {
    const palette = [{ name: 'fur', color: '#8a5d42' }];
    const marks = [{ point: [20, 20], swatch: 'fur' }] as const;
    const plan = { version: 1, size: [80, 40], palette, marks } as const;
    const laid = applyPlan(rooms, plan);
    const hatched = /<path fill="url\(#hatch\)" fill-rule="evenodd" d="([^"]*)"/;
    expect(hatched.exec(regionSheet(laid))?.[1]).toBe('M40 3h37v34h-37z');
    expect(regionSheet(laid)).toContain('>no mark names it</text>');
    const whole = applyPlan(rooms, {
      ...plan,
      marks: [...marks, { point: [60, 20], swatch: 'fur' }],
    });
    expect(regionSheet(whole)).not.toMatch(hatched);
    expect(regionSheet({ labels: rooms })).not.toMatch(hatched);
  });

  it('tells bridges apart by the style of the line, and counts them in the legend', () => {
    const base = { from: [10.5, 10.5], to: [30.5, 10.5] } as const;
    const bridges: SheetBridge[] = [
      { ...base, drawn: true, doubtful: false },
      { ...base, drawn: true, doubtful: true },
      { ...base, drawn: true, doubtful: true, forced: true },
      { ...base, drawn: false, doubtful: true },
      { ...base, drawn: false, doubtful: true },
    ];
    const report = { unnamed: [], groundIds: [], bridges };
    const svg = regionSheet({ labels: rooms, report });
    const [, group] = /<g fill="none" stroke="#c4320a"[^>]*>\n([\s\S]*?)\n<\/g>/.exec(svg)!;
    const strokes = group!.split('\n');
    // Solid, dashed, two lines for the forced one, and two dotted.
    expect(strokes).toHaveLength(6);
    const dashes = strokes.map((path) => /dasharray="([^"]*)"/.exec(path)?.[1]);
    expect(new Set(dashes).size).toBe(3);
    expect(dashes.filter((dash) => dash === undefined)).toHaveLength(3);
    for (const text of [
      'gap closed (1)',
      'closed in doubt (1)',
      'closed because points ask for it (1)',
      'left open in doubt (2)',
    ]) {
      expect(svg).toContain(`>${text}</text>`);
    }
    expect(regionSheet({ labels: rooms })).not.toContain('gap closed');
  });

  it('escapes names', () => {
    const name = 'fur <b> & "tail"';
    const palette = [{ name, color: '#8a5d42' }];
    const marks = [{ point: [20, 20], swatch: name }] as const;
    const laid = applyPlan(rooms, { version: 1, size: [80, 40], palette, marks });
    expect(numbersOf(regionSheet(laid))[1]).toEqual([2, '2: fur &lt;b&gt; &amp; &quot;tail&quot;']);
  });

  it('shows a line that is given, floated', () => {
    const gray = raster(new Uint8Array(80 * 40).fill(255), [80, 40]);
    gray.set(5, 6, 0);
    const png = pngOf(regionSheet({ labels: rooms }, { line: gray }))!;
    expect(png.shape).toEqual([80, 40, 4]);
    expect([png.get(5, 6, 3), png.get(6, 6, 3)]).toEqual([255, 0]);
    expect(pngOf(regionSheet({ labels: rooms }))).toBeUndefined();
  });

  it('refuses a line of another size and unknown options', () => {
    const line = raster(new Uint8Array(4), [2, 2]);
    expect(() => regionSheet({ labels: labels('1 1') }, { line })).toThrow(
      'line must have the size of labels, 2 × 1, got 2 × 2',
    );
    expect(() => regionSheet({ labels: labels('1') }, { lines: line } as never)).toThrow(
      /did you mean "line"/,
    );
  });
});
