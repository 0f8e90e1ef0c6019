import { maskArgument } from '../raster/arguments.ts';
import { TICK_ROWS, type Tick } from '../raster/progress.ts';
import { raster } from '../raster/raster.ts';
import type { Mask, MaskLike } from '../raster/types.ts';
import { packMask } from '../runs/pack.ts';

/**
 * Thins ink to lines one pixel wide that run near its middle: the skeleton.
 *
 * ```text
 * ink                  skeleton
 * 1 1 1 1 1 1 1 1      . . . . . . . .
 * 1 1 1 1 1 1 1 1      . . . . . . . .
 * 1 1 1 1 1 1 1 1      . 1 1 1 1 1 1 .
 * 1 1 1 1 1 1 1 1      . . . . . . . .
 * 1 1 1 1 1 1 1 1      . . . . . . . .
 * ```
 *
 * Ink is 8-connected and paper 4-connected: every component of ink keeps exactly one component of
 * skeleton, every hole stays one hole. No further pixel could go without breaking that, but for the
 * ends of lines, which stay. The skeleton ends up to half a stroke's width before the stroke does.
 *
 * Layers are peeled off from the north, south, west and east in turn, each time all pixels at once
 * that have paper on that side, are simple and end no line (Rosenfeld 1975, "A characterization of
 * parallel thinning algorithms", Information and Control 29, 286-291; simple by the crossing number
 * of Yokoi, Toriwaki, Fukumura 1975, "An analysis of topological properties of digitized binary
 * pictures using local features"). Unlike there, only pixels beside the last layer are visited, so
 * the time is O(pixels) however wide the ink is. A stroke of even width has two middles; the peeling
 * order decides for one, so a turned mask may give a skeleton that lies one pixel aside.
 *
 * Memory: 1 byte per pixel, which the result keeps, and 8 bytes per pixel of the ink's contour.
 *
 * @param mask - `[w, h]` of 0 or 1. What lies outside counts as paper.
 * @returns A mask of the same shape, a subset of the ink.
 * @throws TypeError or RangeError for a raster that is no mask.
 * @example
 * ```ts
 * import { raster, thinInk } from 'underink';
 * const bar = raster(new Uint8Array(40).fill(1), [8, 5]);
 * console.log(Array.from(thinInk(bar).data).join('').slice(16, 24)); // 01111110
 * ```
 */
export function thinInk(mask: MaskLike): Mask {
  const { data, width, height, channels } = maskArgument(mask, 'mask');
  packMask({ data, width, height, channels }, 'mask');
  const skeleton = thinPadded(data, width, height);
  for (let y = 0; y < height; y++) {
    const from = (y + 1) * (width + 2) + 1;
    skeleton.copyWithin(y * width, from, from + width);
  }
  return raster(skeleton.subarray(0, width * height), [width, height]);
}

/**
 * The skeleton within a margin of one pixel of paper, `(width + 2) × (height + 2)`, so that every
 * pixel of it has eight neighbours.
 */
export function thinPadded(
  data: Uint8Array,
  width: number,
  height: number,
  tick?: Tick,
): Uint8Array {
  const pitch = width + 2;
  const ink = new Uint8Array(pitch * (height + 2));
  for (let y = 0; y < height; y++) {
    ink.set(data.subarray(y * width, (y + 1) * width), (y + 1) * pitch + 1);
  }
  peel(ink, pitch, findContour(ink, pitch, height, tick), tick);
  return ink;
}

/** Codes of neighbourhoods whose middle may go: simple, and not the end of a line. */
export function isRemovable(code: number): boolean {
  return REMOVABLE[code] === 1;
}

/**
 * The ink among the eight neighbours of pixel p, as bits:
 *
 * ```text
 * 3 2 1
 * 4 p 0
 * 5 6 7
 * ```
 */
export function neighborCode(ink: Uint8Array, p: number, pitch: number): number {
  const up = p - pitch;
  const down = p + pitch;
  return (
    (ink[p + 1]! & 1) |
    ((ink[up + 1]! & 1) << 1) |
    ((ink[up]! & 1) << 2) |
    ((ink[up - 1]! & 1) << 3) |
    ((ink[p - 1]! & 1) << 4) |
    ((ink[down - 1]! & 1) << 5) |
    ((ink[down]! & 1) << 6) |
    ((ink[down + 1]! & 1) << 7)
  );
}

const REMOVABLE: Uint8Array = Uint8Array.from({ length: 256 }, (_, code) => {
  const bit = (k: number) => (code >> (k & 7)) & 1;
  let neighbors = 0;
  let crossings = 0;
  for (let k = 0; k < 8; k++) neighbors += bit(k);
  for (let k = 0; k < 8; k += 2) crossings += (1 - bit(k)) & (bit(k + 1) | bit(k + 2));
  return crossings === 1 && neighbors > 1 ? 1 : 0;
});

/** Ink with paper on one of its four sides. */
function findContour(ink: Uint8Array, pitch: number, height: number, tick?: Tick): Int32Array {
  let contour: Int32Array = new Int32Array(1024);
  let count = 0;
  const last = (height + 1) * pitch;
  for (let y = 1; y <= height; y++) {
    if (tick !== undefined && y % TICK_ROWS === 0) tick((0.5 * y) / height);
    const rowEnd = (y + 1) * pitch;
    let p = ink.indexOf(1, y * pitch);
    if (p < 0 || p >= last) break;
    if (p >= rowEnd) {
      y = Math.floor(p / pitch) - 1;
      continue;
    }
    for (; p < rowEnd; p++) {
      if (ink[p] === 0) continue;
      if (ink[p - 1]! & ink[p + 1]! & ink[p - pitch]! & ink[p + pitch]!) continue;
      if (count === contour.length) contour = grow(contour);
      contour[count++] = p;
    }
  }
  return contour.subarray(0, count);
}

/**
 * Bit 1 of a pixel says that it is listed for the next layer. A pixel that stays is looked at again
 * only when one of its neighbours went, so each is looked at at most 32 times.
 */
function peel(ink: Uint8Array, pitch: number, contour: Int32Array, tick?: Tick): void {
  const sides = [-pitch, pitch, -1, 1];
  const around = [1, 1 - pitch, -pitch, -pitch - 1, -1, pitch - 1, pitch, pitch + 1];
  let layer = contour;
  let layerSize = contour.length;
  let next: Int32Array = new Int32Array(Math.max(1024, contour.length));
  let doomed = new Int32Array(0);
  let left = 0.5;
  while (layerSize > 0) {
    if (doomed.length < layerSize) doomed = new Int32Array(2 * layerSize);
    let nextSize = 0;
    for (const side of sides) {
      let doomedSize = 0;
      for (let i = 0; i < layerSize; i++) {
        if (tick !== undefined && (i & 0x3fff) === 0x3fff) tick(1 - left);
        const p = layer[i]!;
        if (ink[p] === 0 || ink[p + side] !== 0) continue;
        if (REMOVABLE[neighborCode(ink, p, pitch)] === 1) doomed[doomedSize++] = p;
      }
      for (let i = 0; i < doomedSize; i++) ink[doomed[i]!] = 0;
      for (let i = 0; i < doomedSize; i++) {
        if (tick !== undefined && (i & 0x3fff) === 0x3fff) tick(1 - left);
        const p = doomed[i]!;
        for (let k = 0; k < 8; k++) {
          const q = p + around[k]!;
          if (ink[q] !== 1) continue;
          ink[q] = 3;
          if (nextSize === next.length) next = grow(next);
          next[nextSize++] = q;
        }
      }
      tick?.(1 - left);
    }
    left *= 0.8;
    layerSize = 0;
    for (let i = 0; i < nextSize; i++) {
      if (tick !== undefined && (i & 0x3fff) === 0x3fff) tick(1 - left);
      const p = next[i]!;
      if (ink[p] === 0) continue;
      ink[p] = 1;
      next[layerSize++] = p;
    }
    const spare = layer;
    layer = next;
    next = spare;
  }
}

function grow(list: Int32Array): Int32Array {
  const longer = new Int32Array(2 * list.length);
  longer.set(list);
  return longer;
}
