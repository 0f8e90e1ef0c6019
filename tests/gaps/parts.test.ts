import { describe, expect, it } from 'vitest';
import { askedBridge, checkGaps, leadsBetween } from '../../src/gaps/asked.ts';
import { placesOf } from '../../src/gaps/columns.ts';
import { buildEndGrid, visitNear } from '../../src/gaps/end-grid.ts';
import { InkPieces } from '../../src/gaps/ink-pieces.ts';
import { connectsNearby } from '../../src/gaps/local-ink.ts';
import { CERTAIN, probabilityOf } from '../../src/gaps/odds.ts';
import { type Pair, PairHeap } from '../../src/gaps/pair-heap.ts';
import { oddsOfPale, paleInk } from '../../src/gaps/pale-ink.ts';
import { rankRivals } from '../../src/gaps/rank-rivals.ts';
import { castRay, paperBetween, spanGap } from '../../src/gaps/span-gap.ts';
import { packMask } from '../../src/raster/pack.ts';
import { linePixels } from '../../src/runs/line.ts';
import type { StrokeEnd } from '../../src/strokes/stroke-ends.ts';
import { mask } from '../support/grids.ts';
import { seeded } from '../support/random.ts';

const inkOf = (text: string) => {
  const { data, shape } = mask(text);
  return { data, width: shape[0]!, height: shape[1]!, channels: 1 };
};
const noise = (width: number, height: number, share: number, random: () => number) => ({
  data: Uint8Array.from({ length: width * height }, () => (random() < share ? 1 : 0)),
  width,
  height,
  channels: 1,
});

describe('gaps that are asked for', () => {
  it('are pairs of points inside the picture', () => {
    const check = (value: unknown) => checkGaps(value, 'bridge', 8, 5);
    const gaps = [
      [
        [0, 0],
        [7.9, 4.9],
      ],
    ];
    expect(check(gaps)).toEqual(gaps);
    expect(check(undefined)).toEqual([]);
    expect(() => check([[[0, 0]]])).toThrow(/^bridge\[0\] must be two points/);
    expect(() =>
      check([
        [
          [0, 0],
          [1, 1],
          [2, 2],
        ],
      ]),
    ).toThrow(RangeError);
    for (const point of [
      [-0.1, 0],
      [0, -0.1],
      [8, 0],
      [0, 5],
    ]) {
      expect(() => check([[[0, 0], point]])).toThrow(
        /^bridge\[0\]\[1\] must be inside the picture of 8 × 5/,
      );
    }
    expect(() => check(3)).toThrow(TypeError);
    expect(() => check([3])).toThrow(/^bridge\[0\] must be a list of points/);
  });

  it('are met by a bridge between about their places, either way round, four pixels off or a width', () => {
    const gap = [
      [10, 10],
      [30, 10],
    ] as const;
    const leads = (from: [number, number], to: [number, number], width = 2) =>
      leadsBetween(from, to, width, gap);
    expect(leads([10, 14], [34, 10])).toBe(true);
    expect(leads([30, 6], [10, 10])).toBe(true);
    expect(leads([10, 14.1], [30, 10])).toBe(false);
    expect(leads([10, 10], [34.1, 10])).toBe(false);
    expect(leads([13, 13], [30, 10])).toBe(false);
    expect(leads([10, 10], [10, 10])).toBe(false);
    expect(leads([10, 17], [30, 3], 7)).toBe(true);
    expect(leads([10, 17.1], [30, 3], 7)).toBe(false);
  });

  it('join the nearest ink within four pixels, or a width, of each place, the first of equal ones', () => {
    const random = seeded(61);
    for (let n = 0; n < 120; n++) {
      const ink = noise(20, 14, 0.04, random);
      const [width, reach] = [1 + Math.floor(8 * random()), 0];
      const places = [0, 1].map(() => [20 * random(), 14 * random()] as const);
      const far = Math.max(4, width) + reach;
      const ends = places.map(([px, py]) => {
        const [x, y] = [Math.floor(px), Math.floor(py)];
        const near = [...ink.data.keys()]
          .filter((p) => ink.data[p] === 1)
          .map((p) => [p % 20, Math.floor(p / 20)] as const)
          .map(([u, v]) => ({ u, v, square: (u - x) ** 2 + (v - y) ** 2 }))
          .filter(({ square }) => square <= far * far)
          .sort((a, b) => a.square - b.square || a.v - b.v || a.u - b.u);
        return near.length === 0 ? [x, y] : [near[0]!.u, near[0]!.v];
      });
      const [[fromX, fromY], [toX, toY]] = ends as [[number, number], [number, number]];
      const bridge = askedBridge(ink, places as never, width);
      expect(bridge).toMatchObject({ fromX, fromY, toX, toY, width, a: -1, b: -1, odds: CERTAIN });
      expect(bridge.length).toBeCloseTo(Math.hypot(toX - fromX, toY - fromY), 12);
      const line = [...linePixels(fromX, fromY, toX, toY, 20)];
      expect([...bridge.pixels]).toEqual(line.filter((p) => ink.data[p] === 0));
    }
  });
});

describe('the grid of ends', () => {
  it('visits each end in the nine cells round a place once, none that lies within the reach left out', () => {
    const random = seeded(62);
    for (let n = 0; n < 60; n++) {
      const [w, h] = [1 + Math.floor(150 * random()), 1 + Math.floor(150 * random())];
      const ends = Array.from(
        { length: 40 },
        () => ({ x: w * random(), y: h * random() }) as StrokeEnd,
      );
      const reach = 1 + 60 * random();
      const grid = buildEndGrid(ends, w, h, reach);
      expect(grid.cell).toBe(Math.max(16, Math.ceil(Math.min(reach, Math.max(w, h)))));
      const [x, y] = [w * random(), h * random()];
      const seen: number[] = [];
      visitNear(grid, x, y, (end) => void seen.push(end));
      const cellOf = (v: number) => Math.floor(v / grid.cell);
      const expected = [...ends.keys()].filter(
        (e) =>
          Math.abs(cellOf(ends[e]!.x) - cellOf(x)) <= 1 &&
          Math.abs(cellOf(ends[e]!.y) - cellOf(y)) <= 1,
      );
      expect(seen.sort((a, b) => a - b)).toEqual(expected);
      const near = [...ends.keys()].filter((e) => {
        return Math.hypot(ends[e]!.x - x, ends[e]!.y - y) <= Math.min(reach, grid.cell);
      });
      expect(near.every((e) => expected.includes(e))).toBe(true);
    }
  });
});

describe('PairHeap', () => {
  it('gives pairs by key, ties by the first and then the second region', () => {
    const random = seeded(63);
    const heap = new PairHeap();
    const list: { key: number; a: number; b: number }[] = [];
    const small = (most: number) => Math.floor(most * random());
    expect(heap.pop()).toBeUndefined();
    for (let n = 0; n < 3000; n++) {
      if (random() < 0.6) {
        const [key, a, b] = [small(6), small(5), small(5)];
        heap.push({ pair: { a, b } as Pair, state: n, key });
        list.push({ key, a, b });
      } else {
        list.sort((p, q) => p.key - q.key || p.a - q.a || p.b - q.b);
        const entry = heap.pop();
        const found = entry && { key: entry.key, a: entry.pair.a, b: entry.pair.b };
        expect(found).toEqual(list.shift());
      }
    }
  });
});

describe('pieces of ink', () => {
  it('are the 8-connected ones, with their areas', () => {
    const ink = inkOf(`
      1 1 . . .
      . . 1 . 1
      . . . . 1
      1 . 1 . .`);
    const pieces = new InkPieces(packMask(ink, 'ink'));
    const rows = [0, 1, 2, 3].map((y) => [0, 1, 2, 3, 4].map((x) => pieces.of(x, y)));
    expect(rows).toEqual([
      [1, 1, 0, 0, 0],
      [0, 0, 1, 0, 2],
      [0, 0, 0, 0, 2],
      [3, 0, 4, 0, 0],
    ]);
    expect([1, 2, 3, 4].map((piece) => pieces.area(piece))).toEqual([3, 2, 1, 1]);
    expect(pieces.inkPixels).toBe(7);
  });

  it('connect nearby where a path of ink stays within the radius', () => {
    const random = seeded(64);
    const counts = [0, 0];
    for (let n = 0; n < 400; n++) {
      const ink = noise(15, 12, 0.45, random);
      const own = [...ink.data.keys()].filter((p) => ink.data[p] === 1);
      const [from, to] = [0, 1].map(() => own[Math.floor(own.length * random())]!);
      const radius = 1 + Math.floor(7 * random());
      const reached = new Set([from!]);
      const inside = (p: number) =>
        Math.abs((p % 15) - (from! % 15)) <= radius &&
        Math.abs(Math.floor(p / 15) - Math.floor(from! / 15)) <= radius;
      for (const p of reached) {
        for (const q of own) {
          const [dx, dy] = [(p % 15) - (q % 15), Math.floor(p / 15) - Math.floor(q / 15)];
          if (Math.abs(dx) <= 1 && Math.abs(dy) <= 1 && inside(q)) reached.add(q);
        }
      }
      const expected = reached.has(to!);
      counts[expected ? 1 : 0]!++;
      expect(connectsNearby(ink, from!, to!, radius)).toBe(expected);
    }
    expect(Math.min(...counts)).toBeGreaterThan(50);
  });
});

describe('odds', () => {
  it('are those of the logistic function, certain ones but 1', () => {
    for (const odds of [-30, -2, -0.5, 0, 0.5, 2, 30]) {
      expect(probabilityOf(odds)).toBeCloseTo(1 / (1 + Math.exp(-odds)), 14);
    }
    expect(probabilityOf(CERTAIN)).toBe(1);
  });

  it('of pale ink grow with its palest pixel up to half coverage, beyond soft edges', () => {
    expect(oddsOfPale(undefined, 20)).toBe(0);
    expect(oddsOfPale({ mean: 200, level: 127 }, 5)).toBe(0);
    expect(oddsOfPale({ mean: 200, level: 127 }, 5.1)).toBe(6);
    expect(oddsOfPale({ mean: 200, level: 254 }, 9)).toBe(6);
    expect(oddsOfPale({ mean: 200, level: 63.5 }, 9)).toBe(3);
  });

  it('places of columns are those of their names', () => {
    expect(placesOf(['length', 'width', 'turn'])).toEqual({ length: 0, width: 1, turn: 2 });
  });
});

describe('paleInk', () => {
  const looked = (data: Uint8Array, width: number) => ({
    data,
    width,
    height: data.length / width,
    start: 0,
    stepX: 1,
    stepY: width,
  });

  it('is the mean of the bridge, and one below the palest of the darkest way within the margin', () => {
    const coverage = Uint8Array.of(
      ...[0, 0, 0, 0, 0, 0, 0],
      ...[255, 90, 40, 40, 60, 80, 255],
      ...[0, 0, 200, 70, 0, 0, 0],
    );
    const pixels = Int32Array.of(8, 9, 10, 11, 12);
    const mean = (90 + 40 + 40 + 60 + 80) / 5;
    const pale = (margin: number) => paleInk(looked(coverage, 7), 7, 13, pixels, margin);
    expect(pale(0)).toEqual({ mean, level: 39 });
    // Over the row below the palest is 60.
    expect(pale(1)).toEqual({ mean, level: 59 });
    const broken = coverage.slice();
    broken[11] = 23;
    expect(paleInk(looked(broken, 7), 7, 13, pixels, 0)).toBeUndefined();
    broken[11] = 24;
    expect(paleInk(looked(broken, 7), 7, 13, pixels, 0)?.level).toBe(23);
    expect(paleInk(looked(coverage, 7), 7, 8, Int32Array.of(), 0)).toEqual({
      mean: 255,
      level: 254,
    });
  });

  it('is the widest bottleneck of all ways, as a search from level to level finds', () => {
    const random = seeded(65);
    for (let n = 0; n < 150; n++) {
      const [w, h] = [3 + Math.floor(8 * random()), 3 + Math.floor(8 * random())];
      const data = Uint8Array.from({ length: w * h }, () => Math.floor(256 * random()));
      const [from, to] = [0, 1].map(() => Math.floor(w * h * random())) as [number, number];
      const margin = Math.floor(4 * random());
      const xs = [from % w, to % w];
      const ys = [Math.floor(from / w), Math.floor(to / w)];
      const inBox = (p: number) =>
        p % w >= Math.min(...xs) - margin &&
        p % w <= Math.max(...xs) + margin &&
        Math.floor(p / w) >= Math.min(...ys) - margin &&
        Math.floor(p / w) <= Math.max(...ys) + margin;
      const joins = (level: number) => {
        const reached = new Set([from]);
        for (const p of reached) {
          for (let q = 0; q < w * h; q++) {
            const [dx, dy] = [(p % w) - (q % w), Math.floor(p / w) - Math.floor(q / w)];
            if (Math.abs(dx) > 1 || Math.abs(dy) > 1 || !inBox(q)) continue;
            if (q === to || data[q]! >= level) reached.add(q);
          }
        }
        return reached.has(to);
      };
      let best = 255;
      while (best >= 24 && !joins(best)) best--;
      const found = paleInk(looked(data, w), from, to, Int32Array.of(from), margin);
      expect(found).toEqual(best < 24 ? undefined : { mean: data[from], level: best - 1 });
    }
  });
});

describe('rankRivals', () => {
  it('counts the shorter proposals of each end, and tells the share of the shortest', () => {
    const proposal = (a: number, b: number, length: number) => ({ a, b, length }) as never;
    const { rank, ratio } = rankRivals(
      [proposal(0, 1, 6), proposal(0, -1, 3), proposal(1, 0, 9), proposal(2, 0, 3)],
      3,
      -7,
    );
    expect([...rank]).toEqual([2, 0, 0, -7, 1, 3, 0, 1]);
    expect([...ratio]).toEqual([2, 1, 1, -7, 1.5, 3, 1, 1]);
  });
});

describe('spanGap and castRay', () => {
  const line = (text: string) => inkOf(text);

  it('joins two strokes where nothing but paper, and their own ink, is between', () => {
    const ink = line('. 1 1 1 . . . . 1 1 .');
    expect(spanGap(ink, 2, 9, 1, 1)).toEqual({ from: 3, to: 8, length: 5 });
    expect([...paperBetween(ink, 3, 8)]).toEqual([4, 5, 6, 7]);
    expect(spanGap(ink, 1, 3, 1, 1)).toBeUndefined();
    const across = line('1 1 . . . 1 . . . 1');
    expect(spanGap(across, 1, 9, 1, 1)).toBeUndefined();
    // Ink within half a width and a pixel of either side is of that stroke.
    expect(spanGap(across, 1, 9, 4, 1)).toBeUndefined();
    expect(spanGap(across, 1, 9, 4.1, 1)).toMatchObject({ from: 1, to: 9 });
    expect(spanGap(across, 1, 9, 1, 4.1)).toMatchObject({ from: 1, to: 9 });
    expect(spanGap(across, 1, 9, 1, 4)).toBeUndefined();
  });

  it('meets the first ink behind paper, within reach and the picture', () => {
    const ink = line(`
      1 1 . . . 1 .
      . . . . . . .
      . . 1 . . . .`);
    const end = (x: number, y: number, direction: [number, number]) =>
      ({ x: x + 0.5, y: y + 0.5, direction }) as unknown as StrokeEnd;
    expect(castRay(ink, end(1, 0, [1, 0]), 0, 10)).toBe(5);
    expect(castRay(ink, end(0, 0, [1, 0]), 0, 10)).toBe(5);
    expect(castRay(ink, end(1, 0, [1, 0]), 0, 4)).toBe(5);
    expect(castRay(ink, end(1, 0, [1, 0]), 0, 3.9)).toBe(-1);
    expect(castRay(ink, end(1, 0, [-1, 0]), 0, 10)).toBe(-1);
    expect(castRay(ink, end(5, 0, [0, 1]), 0, 10)).toBe(-1);
    // A turn by the tangent: from (0, 0) along the diagonal to (2, 2).
    expect(castRay(ink, end(0, 0, [1, 0]), 1, 10)).toBe(16);
    expect(castRay(ink, end(0, 0, [1, 0]), 1, 2 * Math.SQRT2)).toBe(16);
    expect(castRay(ink, end(0, 0, [1, 0]), 1, 2.8)).toBe(-1);
  });
});
