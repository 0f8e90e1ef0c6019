import { beforeAll, describe, expect, it } from 'vitest';
import { findFringe } from '../../src/fringe/find-fringe.ts';
import { hardenEdges } from '../../src/fringe/harden-edges.ts';

/** What `bench/fringe/drawings.mjs` knows of a drawing. */
interface Truth {
  readonly size: number;
  readonly soft: Uint8Array;
  readonly even: Uint8Array;
  readonly hard: Uint8Array;
  readonly colors: readonly number[];
}
interface Score {
  readonly [name: string]: number;
}
interface Drawings {
  colorDrawings(count: number): { drawings: { svg: string }[]; leftOut: number };
  truthOf(svg: string, size: number, renderer: string): Promise<Truth>;
}
interface Scores {
  scoreFringe(calls: object, truth: Truth): Score;
  scoreHarden(calls: object, truth: Truth, pixels: Uint8Array, how: { exact: boolean }): Score;
  scoreReference(truth: Truth, pixels: Uint8Array): Score;
  jpegTrip(rgba: Uint8Array, size: number, quality: number, chroma: string): Promise<Uint8Array>;
}

/** The bench has no types: imported by its place. */
const place = (file: string): string => new URL(`../../bench/fringe/${file}`, import.meta.url).href;
const { colorDrawings, truthOf } = (await import(place('drawings.mjs'))) as Drawings;
const { scoreFringe, scoreHarden, scoreReference, jpegTrip } = (await import(
  place('score.mjs')
)) as Scores;

const CALLS = { findFringe, hardenEdges };
const COUNT = 20;
const SIZE = 288;

/** Sums of the scores of all drawings. */
function sum(truths: readonly Truth[], score: (truth: Truth) => Score): Record<string, number> {
  const total: Record<string, number> = {};
  for (const truth of truths) {
    for (const [name, value] of Object.entries(score(truth))) {
      total[name] = (total[name] ?? 0) + value;
    }
  }
  return total;
}

/*
 * Color drawings of openmoji 17 (CC BY-SA 4.0), the first of those that the bench scores; all 300 are
 * in docs/fringe-bench.md. Rasterised by resvg, and by librsvg over cairo.
 */
describe.each(['resvg', 'cairo'])('openmoji drawings, rasterised by %s', (renderer) => {
  const truths: Truth[] = [];
  beforeAll(async () => {
    for (const { svg } of colorDrawings(COUNT).drawings) {
      truths.push(await truthOf(svg, SIZE, renderer));
    }
  }, 120_000);

  it('have their blends found, antialiased, and nothing reported, crisp', () => {
    const { blends, found, right, crisp } = sum(truths, (truth) => scoreFringe(CALLS, truth));
    expect(blends).toBeGreaterThan(20_000);
    expect(right! / blends!).toBeGreaterThanOrEqual(0.99);
    expect(right! / found!).toBeGreaterThanOrEqual(0.99);
    expect(crisp).toBe(0);
  });

  it('are hardened to the color that covers most of each pixel, where blends are exact', () => {
    const score = sum(truths, (truth) => scoreHarden(CALLS, truth, truth.even, { exact: true }));
    expect(1 - score.wrong! / score.border!).toBeGreaterThanOrEqual(0.995);
    expect(score.wrongOff).toBe(0);
    expect(score.strange).toBe(0);
  });

  it('are hardened to it where an antialiased pixel is the mean of what lies in it', () => {
    const score = sum(truths, (truth) => scoreHarden(CALLS, truth, truth.soft, { exact: true }));
    expect(score.mixes! / score.border!).toBeGreaterThan(0.2);
    // 16 levels of coverage: between colors of little contrast a rounded half is within 3 levels too
    const least = renderer === 'resvg' ? 0.99 : 0.995;
    expect(1 - score.wrongMixes! / score.mixes!).toBeGreaterThanOrEqual(least);
  });

  it('are hardened as well as by a reference that knows the colors round each pixel', () => {
    const score = sum(truths, (truth) => scoreHarden(CALLS, truth, truth.soft, { exact: true }));
    const reference = sum(truths, (truth) => scoreReference(truth, truth.soft));
    expect(score.wrong! / reference.wrong!).toBeLessThan(1.05);
    expect(score.used).toBe(score.swatches);
  });

  it.each([95, 85])('survive JPEG at quality %i', async (quality) => {
    let wrong = 0;
    let reference = 0;
    for (const truth of truths) {
      const pixels = await jpegTrip(truth.soft, SIZE, quality, '4:4:4');
      wrong += scoreHarden(CALLS, truth, pixels, { exact: false }).wrong!;
      reference += scoreReference(truth, pixels).wrong!;
    }
    expect(wrong / reference).toBeLessThanOrEqual(1.3);
  });

  it('keep every pixel that is not blended, crisp', () => {
    for (const { hard } of truths) {
      const { indices, palette } = hardenEdges({ data: hard, width: SIZE, height: SIZE });
      const kept = [...indices.data].every((index, i) => {
        const [r, g, b] = hard.subarray(4 * i, 4 * i + 3);
        const color = (1 << 24) | (r! << 16) | (g! << 8) | b!;
        return palette[index]!.color === `#${color.toString(16).slice(1)}`;
      });
      expect(kept).toBe(true);
    }
  });
});
