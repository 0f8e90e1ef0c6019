import { readFileSync } from 'node:fs';
import sharp from 'sharp';
import { describe, expect, it } from 'vitest';
import {
  checkFlats,
  composeSheet,
  inkCoverage,
  layFlats,
  type Plan,
  readPng,
} from '../../src/index.ts';

const file = (name: string) => readFileSync(new URL(`../../${name}`, import.meta.url));
const json = (name: string) => JSON.parse(file(`examples/saltmarrow/${name}`).toString());

/** As examples/saltmarrow/demo.mjs lays it. */
const { pixels } = readPng(file('examples/saltmarrow/model-sheet.png'));
const drawn: Plan = json('plan.json');
const { marks, palette, exceptions } = json('corrections.json');
const plan = {
  ...drawn,
  palette: [...drawn.palette, ...palette],
  marks: [...drawn.marks, ...marks],
};
const { flats, sealed, report } = layFlats(pixels, { plan, ground: 'ground', unnamed: 'claim' });

describe('the demo', () => {
  it('leaves no region unnamed, no mark without effect, no finding', () => {
    const names = plan.palette.map(({ name }: { name: string }) => name);
    expect(flats.palette.map(({ name }) => name)).toEqual(['bare', ...names]);
    expect([report.conflicts, report.notes]).toEqual([[], []]);
    const coverage = inkCoverage(pixels);
    expect(checkFlats(flats, { ink: sealed, coverage, report, exceptions })).toEqual([]);
  });

  it('closes every gap that the drawing was given', () => {
    // draw/sheet.mjs lists them: the middle of each gap, and its opening between the stumps
    const gaps: { x: number; y: number; opening: number }[] = json('gaps.json');
    const missed = gaps.filter(({ x, y, opening }) => {
      const near = ({ from, to }: { from: readonly number[]; to: readonly number[] }) =>
        Math.hypot((from[0]! + to[0]!) / 2 - x, (from[1]! + to[1]!) / 2 - y) < opening + 16;
      return !report.bridges.some((bridge) => bridge.drawn && near(bridge));
    });
    expect(gaps.length).toBeGreaterThan(10);
    expect(missed).toEqual([]);
  });

  it('is what the picture in the README shows', async () => {
    // examples/saltmarrow/picture.mjs makes it anew
    const shown = await sharp(file('docs/saltmarrow.png')).removeAlpha().raw().toBuffer();
    const sheet = composeSheet(flats, { line: pixels });
    const [width, height] = report.size;
    const made = await sharp(sheet.data, { raw: { width, height, channels: 4 } })
      .resize({ width: 1500 })
      .removeAlpha()
      .raw()
      .toBuffer();
    expect(shown.length).toBe(made.length);
    // the picture has 256 colors, which costs a level or two at the edges of the ink
    let off = 0;
    for (let i = 0; i < made.length; i++) if (Math.abs(made[i]! - shown[i]!) > 40) off++;
    expect(off / made.length).toBeLessThan(1e-4);
  });
});
