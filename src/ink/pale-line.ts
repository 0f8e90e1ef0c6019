import { TICK_ROWS, type Tick } from '../raster/progress.ts';

/** Line that is paler than a threshold. */
export interface PaleLine {
  /** Its pixels as a share of all of the line, pale or not. */
  readonly share: number;
  /** Median coverage of it. */
  readonly coverage: number;
  /** The level that would hold nine tenths of it. */
  readonly level: number;
}

/** Coverage that counts as line, as a share of the way from paper to the threshold. */
const LEAST = 0.3;
/** How far from ink the soft edge of a stroke may reach, in pixels. */
const EDGE = 2;
/** Pale neighbors, of eight, that a pixel of a line has at least; grain has fewer. */
const FEWEST = 3;
/** Less of the line than this is not worth a word: chosen. */
const WORTH = 0.05;

/**
 * The line that a threshold drops: pixels not above the level, but well above paper, with neighbors
 * like them, and with no ink within two pixels, where soft edges lie. Undefined where that is less
 * than 5 % of the line. O(pixels).
 */
export function paleLine(
  data: Uint8Array,
  width: number,
  height: number,
  paper: number,
  level: number,
  tick?: Tick,
): PaleLine | undefined {
  const least = paper + LEAST * (level - paper);
  const tones = new Float64Array(256);
  let [ink, pale] = [0, 0];
  for (let y = 0; y < height; y++) {
    if (tick !== undefined && y % TICK_ROWS === 0) tick(y / height);
    for (let x = 0, p = y * width; x < width; x++, p++) {
      const tone = data[p]!;
      if (tone <= least) continue;
      if (tone > level) ink++;
      else if (isLine(data, width, height, x, y, least, level)) {
        pale++;
        tones[tone]! += 1;
      }
    }
  }
  const share = pale / Math.max(1, pale + ink);
  if (share < WORTH) return undefined;
  return { share, coverage: quantile(tones, pale / 2), level: quantile(tones, pale / 10) - 1 };
}

/** Whether a pale pixel has others beside it and no ink near it. */
function isLine(
  data: Uint8Array,
  width: number,
  height: number,
  x: number,
  y: number,
  least: number,
  level: number,
): boolean {
  let near = -1;
  for (let v = Math.max(0, y - EDGE); v <= Math.min(height - 1, y + EDGE); v++) {
    for (let u = Math.max(0, x - EDGE); u <= Math.min(width - 1, x + EDGE); u++) {
      const tone = data[v * width + u]!;
      if (tone > level) return false;
      const beside = u >= x - 1 && u <= x + 1 && v >= y - 1 && v <= y + 1;
      if (beside && tone > least) near++;
    }
  }
  return near >= FEWEST;
}

/** The first tone up to which so many pixels lie. */
function quantile(tones: Float64Array, count: number): number {
  let sum = 0;
  let tone = -1;
  do sum += tones[++tone]!;
  while (sum < count && tone < 255);
  return tone;
}
