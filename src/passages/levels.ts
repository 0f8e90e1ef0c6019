import { eachSquaredRow } from '../distance/squared-distance.ts';
import type { Tick } from '../raster/progress.ts';
import type { Scratch } from '../raster/scratch.ts';

/** Levels up to here are squared distances; above, each is a whole pixel of distance. */
const EXACT = 32_767;
const EXACT_PIXELS = 181;
const HIGHEST = 65_535;

/**
 * How far paper is from ink, in 16 bits.
 *
 * Storage has one empty column behind each row and one empty row above and below, so that a cell's
 * neighbors are always there: pixel (x, y) is cell `(y + 1) · stride + x`, with `stride` =
 * width + 1.
 */
export interface Levels {
  /** 0 on ink and in the margin. */
  readonly level: Uint16Array;
  readonly stride: number;
  readonly width: number;
  readonly height: number;
}

/**
 * Measures how far the paper of a mask is from its ink. A level orders distances as their squares
 * do: exactly up to 181 px, by whole pixels beyond, with all from 32,948 px on alike. O(pixels);
 * 2 bytes per pixel, and as much again while it is measured.
 */
export function measureLevels(
  ink: Uint8Array,
  width: number,
  height: number,
  tick?: Tick,
  scratch?: Scratch,
): Levels {
  const stride = width + 1;
  const size = (height + 2) * stride + 1;
  const level = scratch?.uint16(size) ?? new Uint16Array(size);
  const store = (squares: Int32Array, y: number): void => {
    const p = (y + 1) * stride;
    for (let x = 0; x < width; x++) {
      const square = squares[x]!;
      level[p + x] = square <= EXACT ? square : farLevel(square);
    }
  };
  eachSquaredRow(ink, width, height, store, tick);
  return { level, stride, width, height };
}

function farLevel(square: number): number {
  const pixels = Math.floor(Math.sqrt(square));
  return Math.min(EXACT + 1 + pixels - EXACT_PIXELS, HIGHEST);
}

/** The distance in pixels that a level stands for. */
export function radiusOf(level: number): number {
  return level <= EXACT ? Math.sqrt(level) : level - EXACT - 1 + EXACT_PIXELS;
}
