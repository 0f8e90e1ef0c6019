import type { Tick } from '../raster/progress.ts';
import type { Scratch } from '../raster/scratch.ts';
import type { Bounds, Dense, Point } from '../raster/types.ts';

/**
 * A picture as it is looked at: with rows and columns exchanged or not, and after that mirrored from
 * left to right, from top to bottom, or not.
 */
export class View {
  /** Size of the picture, and of what is looked at. */
  readonly width: number;
  readonly height: number;
  readonly seenWidth: number;
  readonly seenHeight: number;
  private readonly turned: boolean;
  private readonly mirroredX: boolean;
  private readonly mirroredY: boolean;

  constructor(
    size: readonly [number, number],
    turned: boolean,
    mirroredX: boolean,
    mirroredY: boolean,
  ) {
    [this.width, this.height] = size;
    [this.seenWidth, this.seenHeight] = turned ? [size[1], size[0]] : size;
    this.turned = turned;
    this.mirroredX = mirroredX;
    this.mirroredY = mirroredY;
  }

  /** Whether it is the picture as it is. */
  get isPlain(): boolean {
    return !(this.turned || this.mirroredX || this.mirroredY);
  }

  /** The picture as it is looked at: itself where nothing differs. O(pixels); most of it is 0. */
  see(picture: Dense<Uint8Array>, tick?: Tick, scratch?: Scratch): Dense<Uint8Array> {
    if (this.isPlain) return picture;
    const { seenWidth, seenHeight } = this;
    const { length } = picture.data;
    const seen = scratch?.uint8(length) ?? new Uint8Array(length);
    const start = this.indexIn(0);
    const stepX = this.width > 1 ? this.indexIn(1) - start : 0;
    const stepY = this.height > 1 ? this.indexIn(this.width) - start : 0;
    forEachSample(picture, tick, (value, x, y) => {
      seen[start + x * stepX + y * stepY] = value;
    });
    return { data: seen, width: seenWidth, height: seenHeight, channels: 1 };
  }

  /** The same where only some of its samples are looked at. */
  lookAt(picture: Dense<Uint8Array>): Looked {
    const { seenWidth, seenHeight } = this;
    const start = this.indexOf(0);
    const stepX = seenWidth > 1 ? this.indexOf(1) - start : 0;
    const stepY = seenHeight > 1 ? this.indexOf(seenWidth) - start : 0;
    const { data } = picture;
    return { data, width: seenWidth, height: seenHeight, start, stepX, stepY };
  }

  /** Center of the pixel of a point, as it is looked at. */
  pointIn([x, y]: Point): Point {
    const [u, v] = this.turned ? [Math.floor(y), Math.floor(x)] : [Math.floor(x), Math.floor(y)];
    return [
      (this.mirroredX ? this.seenWidth - 1 - u : u) + 0.5,
      (this.mirroredY ? this.seenHeight - 1 - v : v) + 0.5,
    ];
  }

  /** A point of what is looked at, in the picture. */
  pointOf([u, v]: Point): Point {
    const x = this.mirroredX ? this.seenWidth - u : u;
    const y = this.mirroredY ? this.seenHeight - v : v;
    return this.turned ? [y, x] : [x, y];
  }

  /** Bounds of what is looked at, in the picture. */
  boundsOf([x0, y0, x1, y1]: Readonly<Bounds>): Bounds {
    const [a, b] = [this.pointOf([x0, y0]), this.pointOf([x1, y1])];
    const [left, right] = a[0] < b[0] ? [a[0], b[0]] : [b[0], a[0]];
    const [top, bottom] = a[1] < b[1] ? [a[1], b[1]] : [b[1], a[1]];
    return [left, top, right, bottom];
  }

  /** Index in the picture of a pixel that is looked at. */
  indexOf(seen: number): number {
    const { seenWidth, seenHeight, width } = this;
    const v = Math.floor(seen / seenWidth);
    const u = seen - v * seenWidth;
    const x = this.mirroredX ? seenWidth - 1 - u : u;
    const y = this.mirroredY ? seenHeight - 1 - v : v;
    return this.turned ? x * width + y : y * width + x;
  }

  /** Index of a pixel of the picture as it is looked at. */
  indexIn(pixel: number): number {
    const { seenWidth, seenHeight, width } = this;
    const y = Math.floor(pixel / width);
    const x = pixel - y * width;
    const [u, v] = this.turned ? [y, x] : [x, y];
    const seenX = this.mirroredX ? seenWidth - 1 - u : u;
    const seenY = this.mirroredY ? seenHeight - 1 - v : v;
    return seenY * seenWidth + seenX;
  }
}

/** A picture in a view: sample (x, y) is `data[start + x · stepX + y · stepY]`. */
export interface Looked {
  readonly data: Uint8Array;
  readonly width: number;
  readonly height: number;
  readonly start: number;
  readonly stepX: number;
  readonly stepY: number;
}

/**
 * The view that a mask has in common with all its mirrored and turned ones: the wider way across, on a
 * square the way in which the ink spreads farther; most ink on the left and at the top. What is
 * decided in that view does not depend on how the page lies.
 *
 * Ties go to the sums of columns and rows that come first, number by number. Two views are left to
 * chance only where these agree to the last one, as they do on a mask that is its own mirror image.
 * O(pixels).
 */
export function commonView({ data, width, height }: Dense<Uint8Array>, tick?: Tick): View {
  const columns = new Float64Array(width);
  const rows = new Float64Array(height);
  forEachSample({ data, width, height, channels: 1 }, tick, (value, x, y) => {
    columns[x]! += value;
    rows[y]! += value;
  });
  const across = lay(columns);
  const down = lay(rows);
  const turned =
    width === height
      ? down.spread > across.spread ||
        (down.spread === across.spread && comesFirst(down.sums, across.sums))
      : height > width;
  const [first, second] = turned ? [down, across] : [across, down];
  return new View([width, height], turned, first.mirrored, second.mirrored);
}

/** Sums of ink along one axis, mirrored where most lies behind, and how far they spread. */
function lay(sums: Float64Array): { sums: Float64Array; mirrored: boolean; spread: number } {
  const last = sums.length - 1;
  let [moment, spread] = [0, 0];
  sums.forEach((sum, i) => {
    moment += sum * (2 * i - last);
    spread += sum * (2 * i - last) * (2 * i - last);
  });
  const back = sums.slice().reverse();
  const mirrored = moment > 0 || (moment === 0 && comesFirst(back, sums));
  return { sums: mirrored ? back : sums, mirrored, spread };
}

function comesFirst(a: Float64Array, b: Float64Array): boolean {
  const i = a.findIndex((value, k) => value !== b[k]);
  return i >= 0 && a[i]! < b[i]!;
}

/** Sides of a tile: what lies in one is written to few lines of memory in a turned view, too. */
const TILE_ROWS = 64;
const TILE_COLUMNS = 256;

/** Visits the samples that are not 0, tile by tile. Where storage allows, four zeros are one step. */
function forEachSample(
  { data, width, height }: Dense<Uint8Array>,
  tick: Tick | undefined,
  visit: (value: number, x: number, y: number) => void,
): void {
  const aligned = (data.byteOffset & 3) === 0;
  const quads = new Int32Array(
    data.buffer,
    aligned ? data.byteOffset : 0,
    aligned ? data.length >> 2 : 0,
  );
  for (let top = 0; top < height; top += TILE_ROWS) {
    tick?.(top / height);
    const bottom = Math.min(height, top + TILE_ROWS);
    for (let left = 0; left < width; left += TILE_COLUMNS) {
      const right = Math.min(width, left + TILE_COLUMNS);
      for (let y = top; y < bottom; y++) {
        const row = y * width;
        const end = row + right;
        for (let p = row + left; p < end; ) {
          if ((p & 3) === 0 && quads[p >> 2] === 0) {
            p += 4;
            continue;
          }
          const value = data[p]!;
          if (value !== 0) visit(value, p - row, y);
          p++;
        }
      }
    }
  }
}
