import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { labOfRgb, linearOf } from '../../src/color/lab.ts';
import { blendsOf, colorRuns, someBlends } from '../../src/fringe/color-runs.ts';
import { mixLone, mixNearest, mixTwo } from '../../src/fringe/find-mix.ts';
import { Mix } from '../../src/fringe/mix.ts';
import { NearColors } from '../../src/fringe/near-colors.ts';
import { isSpot } from '../../src/fringe/noise.ts';
import { Samples } from '../../src/fringe/samples.ts';
import {
  colorOfWord,
  compareColors,
  labOfWord,
  rankColors,
  sortColors,
  swatchesOfWords,
  wordsOf,
} from '../../src/fringe/words.ts';
import { worstPlaces } from '../../src/fringe/worst-places.ts';
import { seeded } from '../support/random.ts';

const wordOf = (r: number, g: number, b: number, a = 255) =>
  (r | (g << 8) | (b << 16) | (a << 24)) >>> 0;
const [RED, GREEN, BLUE] = [wordOf(255, 0, 0), wordOf(0, 255, 0), wordOf(0, 0, 255)];

describe('words of pixels', () => {
  it('are RGBA from the lowest byte on, of any channels, depth and place in memory', () => {
    const dense = (data: Uint8Array | Uint16Array, channels: number) =>
      wordsOf({ data, width: data.length / channels, height: 1, channels });
    expect([...dense(Uint8Array.of(1, 2, 3, 4, 250, 251, 252, 253), 4)]).toEqual([
      wordOf(1, 2, 3, 4),
      wordOf(250, 251, 252, 253),
    ]);
    const shifted = Uint8Array.of(0, 1, 2, 3, 4).subarray(1);
    expect([...dense(shifted, 4)]).toEqual([wordOf(1, 2, 3, 4)]);
    expect([...dense(Uint8Array.of(1, 2, 3, 9, 8, 7), 3)]).toEqual([
      wordOf(1, 2, 3),
      wordOf(9, 8, 7),
    ]);
    expect([...dense(Uint8Array.of(5, 6), 1)]).toEqual([wordOf(5, 5, 5), wordOf(6, 6, 6)]);
    expect([...dense(Uint8Array.of(5, 6), 2)]).toEqual([wordOf(5, 5, 5, 6)]);
    expect([...dense(Uint16Array.of(257, 514, 771, 65_535), 4)]).toEqual([wordOf(1, 2, 3, 255)]);
  });

  it('come in the order of alpha, red, green and blue', () => {
    const colors = [wordOf(9, 9, 9, 254), wordOf(0, 0, 1), wordOf(0, 1, 0), wordOf(1, 0, 0)];
    for (let i = 0; i < 4; i++) {
      for (let j = 0; j < 4; j++) {
        expect(Math.sign(compareColors(colors[i]!, colors[j]!))).toBe(Math.sign(i - j));
      }
    }
    const turned = Uint32Array.from([...colors, colors[1]!].reverse());
    expect(sortColors(turned)).toEqual([4, 0, 3, 2, 1]);
    expect([...rankColors(turned)]).toEqual([1, 4, 3, 2, 0]);
  });

  it('have the colors and names of their samples, whatever the alpha', () => {
    expect(colorOfWord(wordOf(1, 2, 255, 7))).toBe('#0102ff');
    expect(labOfWord(wordOf(10, 200, 30, 7))).toEqual(labOfRgb(10, 200, 30));
    expect(swatchesOfWords([RED, BLUE])).toEqual([
      { name: '#ff0000', color: '#ff0000' },
      { name: '#0000ff', color: '#0000ff' },
    ]);
  });
});

describe('colorRuns', () => {
  it('are the runs, the pixels of each color, and which fill 3 × 3 pixels somewhere', () => {
    const random = seeded(51);
    for (let n = 0; n < 150; n++) {
      const [w, h] = [1 + Math.floor(14 * random()), 1 + Math.floor(8 * random())];
      const few = 1 + Math.floor([3, 3, 600][n % 3]! * random());
      const stay = random();
      let last = 0;
      const words = Uint32Array.from({ length: w * h }, () => {
        if (random() >= stay) last = Math.floor(few * random());
        return last % 7 === 6 ? last : wordOf(last & 255, last >> 8, 0);
      });
      const own = [...words].map((word) => (word >>> 24 === 0 ? 0 : word));
      const runs = colorRuns(words, w, h);
      const distinct = [...new Set(own)];
      expect([...runs.words.subarray(0, runs.colors)]).toEqual(distinct);
      expect(runs.start[runs.count]).toBe(w * h);
      for (let r = 0; r < runs.count; r++) {
        const [from, to] = [runs.start[r]!, runs.start[r + 1]!];
        const pixels = [...words.subarray(from, to)];
        expect(new Set(pixels).size).toBe(1);
        expect(own[from]).toBe(distinct[runs.color[r]!]);
        expect(to % w === 0 || words[to] !== words[from]).toBe(true);
        expect(Math.floor(from / w)).toBe(Math.floor((to - 1) / w));
      }
      const [sideX, sideY] = [Math.min(3, w), Math.min(3, h)];
      distinct.forEach((word, k) => {
        const places = [...own.keys()].filter((p) => own[p] === word);
        expect(runs.pixels[k]).toBe(places.length);
        // Runs are of equal words, so what is transparent fills a square by equal words only.
        const fills = places.some((p) => {
          if ((p % w) + sideX > w || Math.floor(p / w) + sideY > h) return false;
          return Array.from({ length: sideX * sideY }, (_, i) => {
            return words[p + (i % sideX) + w * Math.floor(i / sideX)] === words[p];
          }).every(Boolean);
        });
        expect(runs.area[k]).toBe(fills ? 1 : 0);
      });
      const codeOf = Uint16Array.from(distinct, (_, k) => k % 2);
      const blends = [...own.keys()].filter((p) => distinct.indexOf(own[p]!) % 2 === 0);
      expect([...blendsOf(runs, codeOf)]).toEqual(blends);
    }
  });

  it('of many blends about 20,000 are asked, alike in mirrored pictures', () => {
    const [w, h] = [400, 300];
    const all = Int32Array.from({ length: w * h }, (_, i) => i);
    const some = someBlends(all, w, h);
    expect(Math.abs(some.length - 20_000)).toBeLessThan(2000);
    const turned = Int32Array.from(some, (i) => w * h - 1 - i).sort();
    expect(turned).toEqual(some);
    const few = all.subarray(0, 20_000);
    expect(someBlends(few, w, h)).toBe(few);
  });
});

describe('worstPlaces', () => {
  it('are the largest components by 8 neighbors, the first of equal ones', () => {
    const random = seeded(52);
    for (let n = 0; n < 150; n++) {
      const [w, h] = [1 + Math.floor(12 * random()), 1 + Math.floor(9 * random())];
      const share = random();
      const is = Array.from({ length: w * h }, () => random() < share);
      const pixels = Int32Array.from([...is.keys()].filter((p) => is[p]));
      const seen = new Set<number>();
      const parts: number[][] = [];
      for (const p of pixels) {
        if (seen.has(p)) continue;
        seen.add(p);
        const part = [p];
        for (const q of part) {
          for (let k = 0; k < 9; k++) {
            const [x, y] = [(q % w) + (k % 3) - 1, Math.floor(q / w) + Math.floor(k / 3) - 1];
            const r = y * w + x;
            if (x < 0 || y < 0 || x >= w || y >= h || !is[r] || seen.has(r)) continue;
            seen.add(r);
            part.push(r);
          }
        }
        parts.push(part.sort((a, b) => a - b));
      }
      parts.sort((a, b) => b.length - a.length || a[0]! - b[0]!);
      const expected = parts.slice(0, 3).map((part) => {
        const [xs, ys] = [part.map((p) => p % w), part.map((p) => Math.floor(p / w))];
        return {
          at: [xs[0]! + 0.5, ys[0]! + 0.5],
          count: part.length,
          bounds: [Math.min(...xs), Math.min(...ys), Math.max(...xs) + 1, Math.max(...ys) + 1],
        };
      });
      expect(worstPlaces(pixels, w, 3)).toEqual(expected);
    }
  });
});

describe('NearColors', () => {
  it('are the codes around a pixel by their touch, the eight that touch most, in the order of colors', () => {
    const random = seeded(53);
    for (let n = 0; n < 200; n++) {
      const [w, h] = [1 + Math.floor(9 * random()), 1 + Math.floor(9 * random())];
      const few = [4, 30][n % 2]!;
      const codes = Uint16Array.from({ length: w * h }, () => Math.floor(few * random()));
      const rank = Uint16Array.from({ length: few }, (_, code) => (code * 7) % few);
      const near = new NearColors(codes, w, h, rank);
      const [i, reach] = [Math.floor(w * h * random()), 1 + Math.floor(4 * random())];
      const touch = new Map<number, number>();
      codes.forEach((code, p) => {
        const [dx, dy] = [(p % w) - (i % w), Math.floor(p / w) - Math.floor(i / w)];
        if (code === 0 || p === i || Math.max(Math.abs(dx), Math.abs(dy)) > reach) return;
        const far = dx * dx + dy * dy;
        const own = far === 1 ? 20 : far === 2 ? 10 : far <= 5 ? 3 : 1;
        touch.set(code, (touch.get(code) ?? 0) + own);
      });
      const expected = [...touch]
        .sort((a, b) => b[1] - a[1] || rank[a[0]]! - rank[b[0]]!)
        .slice(0, 8)
        .sort((a, b) => rank[a[0]]! - rank[b[0]]!);
      near.gather(i, reach);
      const found = Array.from({ length: near.count }, (_, k) => [near.near[k], near.weight[k]]);
      expect(found).toEqual(expected);
    }
  });
});

describe('isSpot', () => {
  it('asks the 3 × 3 pixels for samples within the range and for one alpha', () => {
    const flat = () => new Uint32Array(25).fill(wordOf(100, 100, 100));
    const spot = (words: Uint32Array, i = 12) => isSpot(words, i, 5, 5, 4);
    expect(spot(flat())).toBe(true);
    for (let i = 0; i < 25; i++) {
      const inner = i % 5 > 0 && i % 5 < 4 && i > 4 && i < 20;
      expect(spot(flat(), i)).toBe(inner);
      const near = Math.abs((i % 5) - 2) <= 1 && Math.abs(Math.floor(i / 5) - 2) <= 1;
      for (const [word, far] of [
        [wordOf(104, 96, 104), false],
        [wordOf(105, 100, 100), true],
        [wordOf(100, 95, 100), true],
        [wordOf(100, 100, 105), true],
        [wordOf(100, 100, 100, 254), true],
      ] as const) {
        const words = flat();
        words[i] = word;
        if (i !== 12) expect(spot(words)).toBe(!(near && far));
      }
    }
  });
});

describe('Samples', () => {
  const byte = fc.nat(255);
  const color = fc.tuple(byte, byte, byte, fc.constantFrom(255, 255, 0, 128));

  /** The samples by alpha, in a light. */
  const lit = ([r, g, b, a]: readonly number[], light: string) => {
    const value = (v: number) => (light === 'srgb' ? v : 255 * linearOf(v));
    return [...[r, g, b].map((v) => (value(v!) * a!) / 255), a!];
  };

  it('project and measure as a search over shares finds, in sRGB', () => {
    fc.assert(
      fc.property(color, color, color, (a, b, p) => {
        const [wa, wb, wp] = [a, b, p].map((c) => wordOf(c[0], c[1], c[2], c[3]));
        const samples = new Samples(Uint32Array.of(0, wa!, wb!), 'srgb');
        samples.load(wp!);
        const [va, vb, vp] = [lit(a, 'srgb'), lit(b, 'srgb'), lit(p, 'srgb')];
        const off = (t: number) =>
          vp.reduce((sum, v, k) => sum + (v - va[k]! - t * (vb[k]! - va[k]!)) ** 2, 0);
        const share = samples.project(1, 2);
        expect(share >= 0 && share <= 1).toBe(true);
        expect(samples.off(1, 2, share)).toBeCloseTo(off(share), 6);
        for (let k = 0; k <= 20; k++) expect(off(share)).toBeLessThanOrEqual(off(k / 20) + 1e-6);
        expect(samples.distance(1)).toBeCloseTo(off(0), 6);
      }),
      { numRuns: 300 },
    );
  });

  it('fit three colors to what is mixed of them, in either light, and refuse what is not', () => {
    const three = Uint32Array.of(0, RED, GREEN, BLUE);
    const samples = new Samples(three, 'srgb');
    fc.assert(
      fc.property(fc.nat(255), fc.nat(255), (g, b) => {
        fc.pre(g + b <= 255);
        samples.load(wordOf(255 - g - b, g, b));
        expect(samples.fitThree(1, 2, 3, 1e-6)).toBe(true);
        expect(samples.second).toBeCloseTo(g / 255, 9);
        expect(samples.third).toBeCloseTo(b / 255, 9);
      }),
      { numRuns: 100 },
    );
    samples.load(wordOf(200, 200, 200));
    expect(samples.fitThree(1, 2, 3, 1000)).toBe(false);
    samples.load(wordOf(60, 60, 60));
    expect(samples.fitThree(1, 2, 3, 100)).toBe(false);
    // Three colors on a line have no shares.
    const gray = new Samples(
      Uint32Array.of(0, wordOf(0, 0, 0), wordOf(255, 255, 255), wordOf(90, 90, 90)),
      'srgb',
    );
    gray.load(wordOf(100, 100, 100));
    expect(gray.fitThree(1, 2, 3, 1e9)).toBe(false);
  });

  it('measure in steps of 8 bit in linear light too', () => {
    const linear = new Samples(Uint32Array.of(0, wordOf(0, 0, 0), wordOf(255, 255, 255)), 'linear');
    for (const v of [20, 100, 188, 250]) {
      linear.load(wordOf(v, v, v));
      expect(linear.project(1, 2)).toBeCloseTo(linearOf(v), 9);
      const slope = 2 / (255 * (linearOf(v + 1) - linearOf(v - 1)));
      expect(linear.distance(1)).toBeCloseTo(3 * (255 * linearOf(v) * slope) ** 2, 6);
    }
  });

  it('try the first 64 colors in order, without that of blends', () => {
    const many = Uint32Array.from({ length: 100 }, (_, code) => wordOf(100 - code, 0, 0));
    const { tried } = new Samples(many, 'srgb');
    expect(tried).toEqual(Array.from({ length: 64 }, (_, k) => 99 - k));
  });

  it('find the pair or the lone color that a pixel is mixed of', () => {
    const colors = Uint32Array.of(0, RED, GREEN, BLUE);
    const samples = new Samples(colors, 'srgb');
    const rank = rankColors(colors);
    const near = (codes: number[], weights: number[]) =>
      Object.assign(new NearColors(new Uint16Array(1), 1, 1, rank), {
        near: Int32Array.from(codes),
        weight: Int32Array.from(weights),
        count: codes.length,
      });
    const mix = new Mix(rank);
    samples.load(wordOf(102, 153, 0));
    const all = near([1, 2, 3], [1, 1, 50]);
    expect(mixTwo(all, samples, mix, 1)).toBe(true);
    // Green comes before red in the order of colors.
    expect([mix.a, mix.b, mix.c]).toEqual([2, 1, 0]);
    expect([mix.shareA, mix.shareB]).toEqual([expect.closeTo(0.6, 9), expect.closeTo(0.4, 9)]);
    expect(mixTwo(near([1, 3], [9, 9]), samples, mix, 1)).toBe(false);
    mixNearest(near([1, 2, 3], [1, 1, 1]), samples, mix);
    expect([mix.a, mix.b]).toEqual([2, 1]);
    samples.load(wordOf(230, 25, 0));
    expect(mixLone(1, samples, mix, 1, 0.3)).toBe(true);
    expect([mix.a, mix.b, mix.shareA]).toEqual([2, 1, expect.closeTo(25 / 255, 3)]);
    expect(mixLone(1, samples, mix, 1, 0.05)).toBe(false);
    samples.load(wordOf(230, 25, 60));
    expect(mixLone(1, samples, mix, 1, 0.3)).toBe(false);
  });
});

describe('Mix', () => {
  const rank = Uint16Array.from([0, 3, 1, 2]);
  const mixed = (...given: Parameters<Mix['set']>) => {
    const mix = new Mix(rank);
    mix.set(...given);
    return mix;
  };
  const told = ({ a, b, c, shareA, shareB, shareC }: Mix) => [a, b, c, shareA, shareB, shareC];

  it('holds its first two colors in the order of their ranks', () => {
    expect(told(mixed(1, 2, 0, 0.25, 0))).toEqual([2, 1, 0, 0.25, 0.75, 0]);
    expect(told(mixed(2, 1, 0, 0.25, 0))).toEqual([2, 1, 0, 0.75, 0.25, 0]);
    expect(told(mixed(1, 2, 3, 0.25, 0.5))).toEqual([2, 1, 3, 0.25, 0.25, 0.5]);
    expect(told(mixed(1, 0, 0, 0, 0))).toEqual([1, 0, 0, 1, 0, 0]);
  });

  it('is led by the largest share, of equal ones by the first color', () => {
    expect(mixed(1, 0, 0, 0, 0).leader()).toBe(1);
    expect(mixed(1, 2, 0, 0.25, 0).leader()).toBe(1);
    expect(mixed(1, 2, 0, 0.5, 0).leader()).toBe(2);
    expect(mixed(1, 2, 0, 0.75, 0).leader()).toBe(2);
    expect(mixed(1, 2, 3, 0.25, 0.5).leader()).toBe(3);
    expect(mixed(1, 3, 2, 0.25, 0.375).leader()).toBe(2);
    expect(mixed(2, 3, 1, 0.375, 0.375).leader()).toBe(3);
    expect(mixed(2, 1, 3, 0.125, 0.4375).leader()).toBe(2);
  });

  it('leaves the two that lead, their shares made whole', () => {
    const pair = (...given: Parameters<Mix['set']>) => {
      const mix = mixed(...given);
      mix.leadingPair();
      return told(mix);
    };
    expect(pair(1, 2, 0, 0.25, 0)).toEqual([2, 1, 0, 0.25, 0.75, 0]);
    expect(pair(1, 2, 3, 0.5, 0.125)).toEqual([2, 1, 0, 0.5 / 0.875, 0.375 / 0.875, 0]);
    expect(pair(1, 2, 3, 0.25, 0.5)).toEqual(
      [2, 3, 0, 1 / 3, 2 / 3, 0].map((v) => expect.closeTo(v, 12)),
    );
  });
});
