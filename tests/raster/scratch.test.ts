import { describe, expect, it } from 'vitest';
import { Scratch } from '../../src/raster/scratch.ts';

describe('Scratch', () => {
  it('lends each byte of its owner once, as zeros, and fresh memory where none is left', () => {
    const owner = new Int32Array(10);
    const scratch = new Scratch(owner);
    const bytes = scratch.uint8(5).fill(1);
    const shorts = scratch.uint16(3);
    const numbers = scratch.int32(6);
    expect([bytes, shorts, numbers].map(({ buffer }) => buffer === owner.buffer)).toEqual([
      true,
      true,
      true,
    ]);
    expect([...shorts, ...numbers].every((value) => value === 0)).toBe(true);
    shorts.fill(2);
    numbers.fill(3);
    expect([...bytes]).toEqual([1, 1, 1, 1, 1]);
    const fresh = scratch.uint8(1);
    expect(fresh.buffer).not.toBe(owner.buffer);
    expect(fresh[0]).toBe(0);
  });

  it('gives the owner back as zeros', () => {
    const owner = new Int32Array(2_000_000);
    const scratch = new Scratch(owner);
    scratch.int32(1_500_000).fill(-1);
    const told: number[] = [];
    scratch.clear((done) => told.push(done));
    expect(owner.every((value) => value === 0)).toBe(true);
    expect(told.length).toBeGreaterThan(1);
    scratch.uint8(8_000_000).fill(9);
    expect(owner[0]).toBe(0x09090909);
  });
});
