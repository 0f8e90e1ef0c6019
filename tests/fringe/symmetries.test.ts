import type { NdArray } from 'ndarray';
import { describe, expect, it } from 'vitest';
import { edgeHardness } from '../../src/fringe/edge-hardness.ts';
import { findFringe } from '../../src/fringe/find-fringe.ts';
import { type HardenEdgesOptions, hardenEdges } from '../../src/fringe/harden-edges.ts';
import { paintFlats } from '../../src/palette/paint-flats.ts';
import { raster } from '../../src/raster/index.ts';
import { symmetries } from '../support/grids.ts';
import { expectMirrored } from '../support/mirrored.ts';
import { seeded } from '../support/random.ts';

/** Discs of many colors, antialiased by 4 × 4 samples a pixel, with noise of some levels. */
function discs(width: number, height: number, colors: number, noise: number): NdArray<Uint8Array> {
  const random = seeded(width * 31 + colors);
  const palette = Array.from({ length: colors }, () =>
    [0, 1, 2].map(() => Math.floor(40 + 175 * random())),
  );
  const shapes = Array.from({ length: 2 * colors }, (_, k) => ({
    x: width * random(),
    y: height * random(),
    r: 6 + 20 * random(),
    color: palette[k % colors]!,
  }));
  const rgb = new Uint8Array(3 * width * height);
  for (let p = 0; p < width * height; p++) {
    const sums = [0, 0, 0];
    for (let s = 0; s < 16; s++) {
      const x = (p % width) + (s % 4) / 4 + 0.125;
      const y = Math.floor(p / width) + Math.floor(s / 4) / 4 + 0.125;
      let color = palette[0]!;
      for (const disc of shapes) {
        if ((x - disc.x) ** 2 + (y - disc.y) ** 2 < disc.r ** 2) color = disc.color;
      }
      for (let c = 0; c < 3; c++) sums[c]! += color[c]!;
    }
    for (let c = 0; c < 3; c++) {
      rgb[3 * p + c] = Math.round(sums[c]! / 16 + noise * (random() - 0.5));
    }
  }
  return raster(rgb, [width, height, 3]);
}

const OPTIONS: (HardenEdgesOptions | undefined)[] = [
  undefined,
  { light: 'linear' },
  { gather: 12 },
  {
    palette: ['#404040', '#808080', '#c04040', '#40c040'].map((color) => ({ name: color, color })),
  },
];

// The second has more blends than vote, the third more than 64 colors, two thin ones among them.
describe.each([
  ['crisp', discs(97, 61, 9, 0)],
  ['noisy', discs(211, 163, 6, 9)],
  ['colorful', discs(150, 130, 90, 0)],
])('the eight symmetries of a %s picture', (_, art) => {
  it.each(OPTIONS)('are hardened alike with %j', (options) => {
    expectMirrored(art, (view) => paintFlats(hardenEdges(view, options)));
  });

  it('have the same fringe, of the same pairs', () => {
    expectMirrored(art, (view) => findFringe(view).mask);
    const told = (view: NdArray<Uint8Array>) => {
      const { pairs, unexplained, worst } = findFringe(view, { places: 10_000 });
      return {
        pairs: pairs.map(({ a, b, count, mix }) => `${a} ${b} ${count} ${mix.toFixed(9)}`).sort(),
        worst: worst.map(({ count }) => count),
        unexplained,
      };
    };
    for (const view of symmetries(art)) expect(told(view)).toEqual(told(art));
    const key = (name: string) => (name === 'bare' ? '' : name);
    for (const { a, b } of findFringe(art).pairs) expect(key(a) < key(b)).toBe(true);
    for (const { at, bounds } of findFringe(art).worst) {
      expect(findFringe(art).mask.get(Math.floor(at[0]), Math.floor(at[1]))).toBe(1);
      expect(at[1]).toBe(bounds[1] + 0.5);
    }
  });

  it('are as hard', () => {
    expectMirrored(art, (view) => edgeHardness(view).map);
  });
});
