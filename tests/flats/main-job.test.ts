/**
 * The main job on line art by many hands (openmoji, CC BY-SA 4.0, from npm), judged by the written
 * file; color differences by culori.
 */
import { differenceCiede2000 } from 'culori';
import { describe, expect, it } from 'vitest';
import { layFlats } from '../../src/flats/lay-flats.ts';
import { clearPaper } from '../../src/ink/clear-paper.ts';
import { writeFlats } from '../../src/png/write-flats.ts';
import { raster } from '../../src/raster/raster.ts';
import { type Drawing, drawing, drawings } from './drawings.ts';
import { readBack, seamLength, swatchesByRegion } from './measure.ts';

const SIZE = 256;
const all: Drawing[] = drawings(20, SIZE);
const laid = new Map(all.map(({ name, pixels }) => [name, layFlats(pixels)]));

describe('layFlats on drawings of openmoji', () => {
  it.each(all)('$name: the file has one swatch for each pixel', ({ name }) => {
    const { flats } = laid.get(name)!;
    const { bytes, mode } = writeFlats(flats);
    expect(mode).toBe('indexed');
    const read = readBack(bytes);
    expect({ bare: read.bare, blended: read.blended }).toEqual({ bare: 0, blended: 0 });
    expect(read.flats.palette).toEqual(flats.palette);
    expect(read.flats.ground).toBe('ground');
    expect(read.flats.indices.data).toEqual(flats.indices.data);
  });

  it.each(all)('$name: each region keeps one swatch of its own, but for the ground', ({ name }) => {
    const { flats, sealed, report } = laid.get(name)!;
    const read = readBack(writeFlats(flats).bytes).flats;
    const regions = swatchesByRegion(read, sealed);
    expect(regions.length).toBe(report.regions);
    const inner = regions.filter(({ border }) => !border).map(({ names }) => names.join());
    expect(new Set(inner).size).toBe(inner.length);
    expect(inner).not.toContain('ground');
    expect(inner).toEqual(inner.filter((names) => /^region \d+,\d+$/.test(names)));
    for (const { names } of regions.filter(({ border }) => border))
      expect(names).toEqual(['ground']);
  });

  it.each(all)('$name: seams run under the ink but where a gap was bridged', ({ name }) => {
    const { labels, ink, report } = laid.get(name)!;
    const { all: length, open } = seamLength(labels, ink);
    const drawn = report.bridges.filter((bridge) => bridge.drawn);
    const bridged = drawn.reduce((sum, bridge) => sum + bridge.length, 0);
    if (drawn.length > 0) expect(open).toBeLessThanOrEqual(1.1 * bridged);
    else expect(open).toBeLessThanOrEqual(0.001 * length);
    if (report.regions > 1) expect(length).toBeGreaterThan(0);
  });

  it('has all seams under the ink where no gap is closed', () => {
    for (const { name, pixels } of all) {
      const { labels, ink } = layFlats(pixels, { maxGap: 0 });
      const { all: length, open } = seamLength(labels, ink);
      expect(open, name).toBeLessThanOrEqual(0.001 * length);
    }
  });

  it('does so on drawings with and without what might be gaps, of one region and of many', () => {
    const reports = [...laid.values()].map(({ report }) => report);
    expect(new Set(reports.map(({ bridges }) => bridges.length > 0)).size).toBe(2);
    expect(Math.max(...reports.map(({ regions }) => regions))).toBeGreaterThan(8);
  });

  it('gives placeholders all different, neighbors 20 apart and more', () => {
    const difference = differenceCiede2000();
    for (const { flats } of laid.values()) {
      const colors = flats.palette.slice(1).map(({ color }) => color);
      expect(new Set(colors).size).toBe(colors.length);
      const { data, shape } = flats.indices;
      const pairs = new Set<number>();
      for (let i = 0; i < data.length; i++) {
        if ((i + 1) % shape[0]! !== 0) pairs.add(data[i]! * 65_536 + data[i + 1]!);
        if (i + shape[0]! < data.length) pairs.add(data[i]! * 65_536 + data[i + shape[0]!]!);
      }
      for (const pair of pairs) {
        const [a, b] = [Math.floor(pair / 65_536), pair % 65_536];
        if (a === b) continue;
        const apart = difference(flats.palette[a]!.color, flats.palette[b]!.color);
        expect(apart).toBeGreaterThanOrEqual(20);
      }
    }
  });

  it('gives the same when run again', () => {
    for (const { name, pixels } of all.slice(0, 5)) {
      const first = laid.get(name)!;
      const second = layFlats(pixels);
      expect(second.flats.palette).toEqual(first.flats.palette);
      expect(second.labels.data).toEqual(first.labels.data);
      expect(second.report).toEqual(first.report);
    }
  });

  it('takes floating line art as it takes the scan on white', () => {
    for (const { name, pixels } of all.slice(0, 5)) {
      const floating = layFlats(clearPaper(pixels));
      expect(floating.flats).toEqual(laid.get(name)!.flats);
      expect(floating.ink.data).toEqual(laid.get(name)!.ink.data);
    }
  });
});

describe('seamLength', () => {
  it('is true along rows, columns and diagonals, and at most 8 % too long between them', () => {
    const size = 201;
    const paper = raster(new Uint8Array(size * size), [size, size]);
    const solid = raster(new Uint8Array(size * size).fill(1), [size, size]);
    for (const [rise, run] of [
      [0, 1],
      [1, 1],
      [-1, 1],
      [1, 2],
      [-2, 5],
      [5, 12],
    ] as const) {
      const side = (_: number, i: number): number => {
        const [x, y] = [(i % size) - 100 + 0.5, Math.floor(i / size) - 100 + 0.5];
        return run * y - rise * x > 0 ? 2 : 1;
      };
      const halves = raster(new Int32Array(size * size).map(side), [size, size]);
      const ratio = seamLength(halves, paper).open / (size * Math.hypot(1, rise / run));
      expect(ratio).toBeGreaterThan(0.99);
      expect(ratio).toBeLessThan(rise === 0 || Math.abs(rise) === run ? 1.01 : 1.09);
      expect(seamLength(halves, solid).open).toBe(0);
      expect(seamLength(halves.transpose(1, 0), paper).all).toBeCloseTo(
        seamLength(halves, paper).all,
      );
    }
  });
});

/**
 * Common practice, no source: an area filled straight up to an antialiased line keeps a fringe of
 * the line's blended pixels between ink and fill, whatever the tolerance.
 */
describe('fringe', () => {
  const [ink, fill] = [0, 100];
  const face = drawing('1F600', SIZE);
  const gray = new Uint8Array(SIZE * SIZE).map((_, i) => face.data[4 * i]!);
  const inside = 70 * SIZE + SIZE / 2; // within the outline, above the eyes

  it.each([0, 32, 96, 160])('is left by a fill of tolerance %i', (tolerance) => {
    const filled = gray.slice();
    const stack = [inside];
    const seen = new Uint8Array(filled.length);
    while (stack.length > 0) {
      const i = stack.pop()!;
      if (seen[i] === 1 || 255 - gray[i]! > tolerance) continue;
      seen[i] = 1;
      filled[i] = fill;
      stack.push(i - 1, i + 1, i - SIZE, i + SIZE);
    }
    const touching = filled.filter((value, i) => {
      const near = [i - 1, i + 1, i - SIZE, i + SIZE].some((k) => seen[k] === 1);
      return near && seen[i] === 0 && value !== ink && value !== fill;
    });
    expect(seen.reduce((sum, v) => sum + v, 0)).toBeGreaterThan(5000);
    expect(touching.length).toBeGreaterThan(100);
  });

  it('is not left by flats under the same line', () => {
    const { flats } = layFlats(raster(gray, [SIZE, SIZE]));
    const swatch = flats.indices.data[inside]!;
    const { bare, blended } = readBack(writeFlats(flats).bytes);
    expect({ bare, blended }).toEqual({ bare: 0, blended: 0 });
    const fills = flats.indices.data.filter((index) => index === swatch);
    expect(fills.length).toBeGreaterThan(5000);
    // From inside up to the outline, the blended pixels of the line lie on the swatch as well.
    for (let i = inside; gray[i]! > 127; i -= SIZE) expect(flats.indices.data[i]).toBe(swatch);
  });
});
