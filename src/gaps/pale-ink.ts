import type { Looked } from './view.ts';

/** Ink on a scan that a threshold has dropped. */
export interface PaleInk {
  /** Mean coverage along the bridge, 0 to 255. */
  readonly mean: number;
  /**
   * The highest threshold that would hold the gap closed: ink is what is above it. Taken along the
   * darkest way from contact to contact.
   */
  readonly level: number;
}

/** Coverage that is told from paper: grain and the soft edges of strokes stay below. */
const PALE = 24;

/**
 * The pale ink between two pixels of ink: the way between them whose palest pixel is darkest, within
 * `margin` pixels of their bounding box, is darker than paper all along. Undefined where there is
 * none. O(box · log box).
 */
export function paleInk(
  { data, width, height, start, stepX, stepY }: Looked,
  from: number,
  to: number,
  pixels: Int32Array,
  margin: number,
): PaleInk | undefined {
  const [fx, fy, tx, ty] = [
    from % width,
    Math.floor(from / width),
    to % width,
    Math.floor(to / width),
  ];
  const x0 = Math.max(0, Math.min(fx, tx) - margin);
  const y0 = Math.max(0, Math.min(fy, ty) - margin);
  const x1 = Math.min(width - 1, Math.max(fx, tx) + margin);
  const y1 = Math.min(height - 1, Math.max(fy, ty) + margin);
  const columns = x1 - x0 + 1;
  const seen = new Uint8Array(columns * (y1 - y0 + 1));
  // Pixels that are reached but not passed, by coverage: always the darkest is passed next.
  const stacks = new Array<number[] | undefined>(256).fill(undefined);
  const reach = (x: number, y: number): number => {
    const place = (y - y0) * columns + x - x0;
    if (seen[place] === 1) return 0;
    seen[place] = 1;
    const value = x === tx && y === ty ? 255 : data[start + x * stepX + y * stepY]!;
    if (value >= PALE) (stacks[value] ??= []).push(y * width + x);
    return value;
  };
  let palest = 255;
  let darkest = 255;
  seen[(fy - y0) * columns + fx - x0] = 1;
  stacks[255] = [from];
  for (;;) {
    while (darkest >= PALE && !stacks[darkest]?.length) darkest--;
    if (darkest < PALE) return undefined;
    const p = stacks[darkest]!.pop()!;
    palest = Math.min(palest, darkest);
    if (p === to) break;
    const x = p % width;
    const y = (p - x) / width;
    for (let v = Math.max(y0, y - 1); v <= Math.min(y1, y + 1); v++) {
      for (let u = Math.max(x0, x - 1); u <= Math.min(x1, x + 1); u++) {
        darkest = Math.max(darkest, reach(u, v));
      }
    }
  }
  let sum = 0;
  for (const p of pixels) {
    const y = Math.floor(p / width);
    sum += data[start + (p - y * width) * stepX + y * stepY]!;
  }
  return { mean: pixels.length === 0 ? 255 : sum / pixels.length, level: palest - 1 };
}

/** Log-odds that ink of half coverage all along a bridge adds; chosen, not fitted. */
const HALF_ADDS = 6;
/** Across gaps of up to so many pixels the soft edges of both strokes may meet. */
const SOFT = 5;

/** Log-odds that pale ink across a gap adds, in proportion to what its palest pixel has. */
export function oddsOfPale(pale: PaleInk | undefined, length: number): number {
  if (pale === undefined || length <= SOFT) return 0;
  return HALF_ADDS * Math.min(1, pale.level / 127);
}
