import { checkNumber } from '../raster/checks.ts';
import { wrongValue } from '../raster/errors.ts';
import { TICK_ROWS, type Tick } from '../raster/progress.ts';
import { sauvolaDefaults } from './sauvola-defaults.ts';
import { GIVEN, type Method } from './threshold-method.ts';

interface SauvolaOptions {
  /**
   * Side of the square of surroundings in pixels, odd, 3 to 32,767; for `sauvola`.
   * @default 12 stroke widths, as measured on the page, but 15 to 255
   */
  readonly window?: number | undefined;
  /**
   * How much darker than its surroundings ink must be, 0.01 to 1; for `sauvola`.
   * @default 0.05 to 1, so that strokes of the page's width and tone are cut halfway to the paper
   */
  readonly k?: number | undefined;
}

/** Ink is darker than its surroundings (local or adaptive thresholding). */
export interface SauvolaChoice {
  readonly method: 'sauvola';
  /** In pixels. */
  readonly window: number;
  readonly k: number;
  readonly why: string;
}

/** Sauvola's threshold, with window and k as given or as the page's strokes ask for. */
export const sauvola: Method<SauvolaOptions, SauvolaChoice> = {
  options: ['window', 'k'],
  check({ window, k }) {
    if (window !== undefined) {
      checkNumber(window, 'window', { min: 3, max: 32_767, integer: true, unit: 'pixels' });
      if (window % 2 === 0) throw wrongValue('window', 'an odd number of pixels', window);
    }
    if (k !== undefined) checkNumber(k, 'k', { min: 0.01, max: 1 });
  },
  settle({ window, k }, { data, width, height }, tick) {
    const method = 'sauvola';
    if (window !== undefined && k !== undefined) return { method, window, k, why: GIVEN };
    const found = sauvolaDefaults(data, width, height, tick);
    return { method, window: window ?? found.window, k: k ?? found.k, why: GIVEN };
  },
  apply(choice, { data, width, height }, mask, tick) {
    const source = data === mask ? data.slice() : data;
    return maskSauvola(source, width, height, choice, mask, tick);
  },
};

/** Half of the range of tones: the largest standard deviation there is. */
const RANGE = 127.5;

/**
 * Sauvola's local threshold (Sauvola, Pietikäinen 2000, "Adaptive document image binarization",
 * DOI 10.1016/S0031-3203(99)00055-2): with the tone t = 255 − coverage, its mean m and standard
 * deviation s in a square of `window` × `window` pixels, a pixel is ink where
 * t <= m · (1 + k · (s / 127.5 − 1)). The picture is mirrored at its borders without repeating the
 * border pixel.
 *
 * Sums of columns run down the page and sums of windows along the row, in exact integers, of the
 * coverage c: its mean is 255 − m and its deviation s. With n = `window`² the test is
 *
 *     255 − c <= (255 n − Σc) · ((1 − k) / n + k / (127.5 n²) · √(n Σc² − (Σc)²)),
 *
 * one root a pixel and no division. Since s is at most 127.5, nothing as light as the mean is ink,
 * so that most paper needs no root.
 * O(pixels + height · window) time, 8 bytes per column beside the result. `mask` must not be `data`.
 *
 * @returns Pixels of ink.
 */
function maskSauvola(
  data: Uint8Array,
  width: number,
  height: number,
  { window, k }: { window: number; k: number },
  mask: Uint8Array,
  tick?: Tick,
): number {
  const half = window >> 1;
  const n = window * window;
  const white = 255 * n;
  const flat = (1 - k) / n;
  const rough = k / (RANGE * n * n);
  const sums = new Int32Array(width + 2 * half);
  const squares = new Int32Array(width + 2 * half);
  for (let y = -half - 1; y < half; y++)
    addRow(data, width, mirror(y, height), half, sums, squares);
  let ink = 0;
  for (let y = 0; y < height; y++) {
    if (tick !== undefined && y % TICK_ROWS === 0) tick(y / height);
    const enter = mirror(y + half, height) * width;
    const leave = mirror(y - half - 1, height) * width;
    for (let x = 0; x < width; x++) {
      const a = data[enter + x]!;
      const b = data[leave + x]!;
      sums[half + x] = (sums[half + x]! + a - b) | 0;
      squares[half + x] = (squares[half + x]! + (a - b) * (a + b)) | 0;
    }
    mirrorSides(sums, width, half);
    mirrorSides(squares, width, half);
    let sum = 0;
    let square = 0;
    for (let x = 0; x < 2 * half; x++) {
      sum += sums[x]!;
      square += squares[x]!;
    }
    const row = y * width;
    for (let x = 0; x < width; x++) {
      sum += sums[x + 2 * half]!;
      square += squares[x + 2 * half]!;
      const cover = data[row + x]!;
      let bit = 0;
      if (cover * n > sum || sum === white) {
        // Sums beyond 2^53, of windows over 600 pixels wide, are rounded and may fall below 0.
        const variance = n * square - sum * sum;
        const root = variance > 0 ? Math.sqrt(variance) : 0;
        bit = 255 - cover <= (white - sum) * (flat + rough * root) ? 1 : 0;
      }
      mask[row + x] = bit;
      ink += bit;
      sum -= sums[x]!;
      square -= squares[x]!;
    }
  }
  return ink;
}

function addRow(
  data: Uint8Array,
  width: number,
  y: number,
  half: number,
  sums: Int32Array,
  squares: Int32Array,
): void {
  for (let x = 0; x < width; x++) {
    const cover = data[y * width + x]!;
    sums[half + x]! += cover;
    squares[half + x]! += cover * cover;
  }
}

/** Position within a side of n pixels that is mirrored on and on: … 2 1 0 1 2 … */
function mirror(i: number, n: number): number {
  if (i >= 0 && i < n) return i;
  if (n === 1) return 0;
  const period = 2 * (n - 1);
  const at = ((i % period) + period) % period;
  return at < n ? at : period - at;
}

function mirrorSides(columns: Int32Array, width: number, half: number): void {
  for (let i = 1; i <= half; i++) {
    columns[half - i] = columns[half + mirror(-i, width)]!;
    columns[half + width - 1 + i] = columns[half + mirror(width - 1 + i, width)]!;
  }
}
