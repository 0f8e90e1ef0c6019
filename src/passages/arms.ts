import { orderOf } from '../raster/order.ts';
import { partOf, TICK_STEPS, type Tick } from '../raster/progress.ts';
import { ARMS, type Ascent } from './ascent.ts';
import type { Levels } from './levels.ts';

/** Cells that the flood reaches by several arms, in the order of the flood. */
export interface Crossings {
  readonly cell: Int32Array;
  /** Where the arms begin: bit 0 up, 1 right, 2 down, 3 left. */
  readonly arms: Uint8Array;
}

/**
 * Finds the cells at which separate arms of the flood meet: among the eight neighbors that the
 * flood reaches before, there is more than one 4-connected part that touches the cell by a side.
 * Only there do components of the flood join or loops close.
 *
 * The ascent knows such cells, but for flat ones and those that come right after a flat one of their
 * level; only these are looked at here. O(forks + flat cells + crossings · log); 8 bytes per
 * crossing while sorted.
 */
export function findCrossings(levels: Levels, ascent: Ascent, tick?: Tick): Crossings {
  const { level, stride } = levels;
  const { toward, flat, forks } = ascent;
  const keys = new Keys(levels, toward);
  for (let i = 0; i < forks.length; i++) {
    if (i % TICK_STEPS === 0) tick?.((0.2 * i) / forks.length);
    keys.add(forks[i]!);
  }
  const behind = [1, stride - 1, stride, stride + 1];
  for (let n = 0; n < flat.length; n++) {
    if (n % TICK_STEPS === 0) tick?.(0.2 + (0.5 * n) / flat.length);
    const p = flat[n]!;
    keys.add(p);
    for (let k = 0; k < 4; k++) {
      const q = p + behind[k]!;
      if (level[q] === level[p] && toward[q]! < 0) keys.add(q);
    }
  }
  const sorted = keys.sorted(partOf(tick, 0.7, 0.9));
  return unpack(sorted, level.length, flat, partOf(tick, 0.9, 1));
}

/** Crossings as numbers that sort by the flood; a cell may be added more than once. */
class Keys {
  private readonly level: Uint16Array;
  private readonly stride: number;
  private readonly toward: Int32Array;
  private keys = new Float64Array(1024);
  private count = 0;

  constructor({ level, stride }: Levels, toward: Int32Array) {
    this.level = level;
    this.stride = stride;
    this.toward = toward;
  }

  /** Adds a cell if arms meet there. */
  add(p: number): void {
    const { level, stride, toward } = this;
    const v = level[p]!;
    const code =
      before(level, toward, p - stride, p, v) |
      (before(level, toward, p - stride + 1, p, v) << 1) |
      (before(level, toward, p + 1, p, v) << 2) |
      (before(level, toward, p + stride + 1, p, v) << 3) |
      (before(level, toward, p + stride, p, v) << 4) |
      (before(level, toward, p + stride - 1, p, v) << 5) |
      (before(level, toward, p - 1, p, v) << 6) |
      (before(level, toward, p - stride - 1, p, v) << 7);
    const arms = ARMS[code]!;
    if (arms === 0) return;
    if (this.count === this.keys.length) this.enlarge();
    const place = toward[p]! < 0 ? p : level.length + toward[p]!;
    this.keys[this.count++] = ((0xffff - v) * 2 ** 32 + place) * 16 + arms;
  }

  /** The keys in their order, each once. */
  sorted(tick?: Tick): Float64Array {
    const keys = this.keys.subarray(0, this.count);
    const order = orderOf(keys, partOf(tick, 0, 0.8));
    const sorted = new Float64Array(this.count);
    let kept = 0;
    for (let i = 0; i < order.length; i++) {
      if (i % TICK_STEPS === 0) tick?.(0.8 + (0.2 * i) / order.length);
      const key = keys[order[i]!]!;
      if (kept === 0 || key !== sorted[kept - 1]) sorted[kept++] = key;
    }
    return sorted.subarray(0, kept);
  }

  private enlarge(): void {
    const larger = new Float64Array(2 * this.keys.length);
    larger.set(this.keys);
    this.keys = larger;
  }
}

/** 1 where the flood reaches cell q before cell p, whose level is v. */
function before(level: Uint16Array, toward: Int32Array, q: number, p: number, v: number): number {
  const w = level[q]!;
  if (w !== v) return w > v ? 1 : 0;
  const a = toward[q]!;
  const b = toward[p]!;
  if (a < 0) return b >= 0 || q < p ? 1 : 0;
  return a < b ? 1 : 0;
}

/** Keys hold the level, then the cell's place in the order of its level, then the arms: 52 bits. */
function unpack(
  keys: Float64Array,
  size: number,
  flat: Int32Array,
  tick: Tick | undefined,
): Crossings {
  const cell = new Int32Array(keys.length);
  const arms = new Uint8Array(keys.length);
  for (let i = 0; i < keys.length; i++) {
    if (i % TICK_STEPS === 0) tick?.(i / keys.length);
    const rest = Math.floor(keys[i]! / 16);
    arms[i] = keys[i]! - 16 * rest;
    const place = rest - Math.floor(rest / 2 ** 32) * 2 ** 32;
    cell[i] = place < size ? place : flat[place - size]!;
  }
  return { cell, arms };
}
