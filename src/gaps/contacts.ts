import type { Dense } from '../raster/types.ts';
import { paperDistance, widthOf } from '../strokes/stroke-width.ts';

/** The ink round a place where a bridge would meet it. */
export interface Contact {
  /** Width of the stroke behind it, in pixels. */
  readonly width: number;
  /** Share of the disk of one such width that ink fills which is connected with the contact. */
  readonly near: number;
  /** The same for two and a half widths. */
  readonly far: number;
  /** Share of the larger disk that other ink fills. */
  readonly other: number;
  /** From the contact to the middle of its ink in the larger disk, as a share of the radius. */
  readonly leanX: number;
  readonly leanY: number;
}

/** Radius of the larger disk, in widths. */
const FAR = 2.5;
/** A contact's ink counts as no wider than so many strokes of the drawing. */
const WIDEST = 4;

/** Looks at the ink round contacts, at each once. O(width²) a contact. */
export class ContactReader {
  private readonly ink: Dense<Uint8Array>;
  private readonly widest: number;
  private readonly known: Map<number, Contact> = new Map();
  private readonly side: number;
  private readonly stamps: Int32Array;
  private readonly stack: Int32Array;
  private stamp = 0;

  constructor(ink: Dense<Uint8Array>, strokeWidth: number) {
    this.ink = ink;
    this.widest = WIDEST * Math.max(2, strokeWidth);
    this.side = 2 * Math.ceil(FAR * this.widest + 1) + 1;
    this.stamps = new Int32Array(this.side * this.side);
    this.stack = new Int32Array(this.side * this.side);
  }

  /** The contact at an ink pixel; `width` is known where a stroke's end is. */
  at(pixel: number, width?: number): Contact {
    let contact = this.known.get(pixel);
    if (contact === undefined) {
      contact = this.read(pixel, Math.min(this.widest, Math.max(1, width ?? this.widthAt(pixel))));
      this.known.set(pixel, contact);
    }
    return contact;
  }

  /** Climbs from the contact to where the ink is widest nearby. */
  private widthAt(pixel: number): number {
    const { data, width, height } = this.ink;
    let x = pixel % width;
    let y = Math.floor(pixel / width);
    let square = paperDistance(data, width, height, x, y, 0);
    const limit = (this.widest * this.widest) / 4;
    for (let steps = 0; square < limit && steps * steps < 4 * square + 4; steps++) {
      let [bestX, bestY, best] = [x, y, square];
      for (let v = Math.max(0, y - 1); v <= Math.min(height - 1, y + 1); v++) {
        for (let u = Math.max(0, x - 1); u <= Math.min(width - 1, x + 1); u++) {
          if (data[v * width + u] === 0 || (u === x && v === y)) continue;
          const other = paperDistance(data, width, height, u, v, square);
          if (other > best) [bestX, bestY, best] = [u, v, other];
        }
      }
      if (best === square) break;
      [x, y, square] = [bestX, bestY, best];
    }
    return widthOf(square);
  }

  private read(pixel: number, strokeWidth: number): Contact {
    const { data, width, height } = this.ink;
    const { side, stamps, stack } = this;
    const stamp = ++this.stamp;
    const middle = side >> 1;
    const x0 = pixel % width;
    const y0 = Math.floor(pixel / width);
    const radius = FAR * strokeWidth + 0.5;
    const outer = radius * radius;
    const inner = (strokeWidth + 0.5) * (strokeWidth + 0.5);
    let [own, nearInk, sumX, sumY] = [0, 0, 0, 0];
    let size = 1;
    stack[0] = middle * side + middle;
    stamps[stack[0]] = stamp;
    while (size > 0) {
      const place = stack[--size]!;
      const dx = (place % side) - middle;
      const dy = Math.floor(place / side) - middle;
      own++;
      sumX += dx;
      sumY += dy;
      if (dx * dx + dy * dy <= inner) nearInk++;
      for (let v = dy - 1; v <= dy + 1; v++) {
        const y = y0 + v;
        if (y < 0 || y >= height) continue;
        for (let u = dx - 1; u <= dx + 1; u++) {
          const x = x0 + u;
          if (x < 0 || x >= width || u * u + v * v > outer) continue;
          const next = (v + middle) * side + u + middle;
          if (stamps[next] === stamp || data[y * width + x] === 0) continue;
          stamps[next] = stamp;
          stack[size++] = next;
        }
      }
    }
    let all = 0;
    const reach = Math.floor(radius);
    for (let v = Math.max(-y0, -reach); v <= Math.min(height - 1 - y0, reach); v++) {
      const half = Math.floor(Math.sqrt(outer - v * v));
      const row = (y0 + v) * width + x0;
      for (let u = Math.max(-x0, -half); u <= Math.min(width - 1 - x0, half); u++) {
        all += data[row + u]!;
      }
    }
    const disk = Math.PI * outer;
    return {
      width: strokeWidth,
      near: nearInk / (Math.PI * inner),
      far: own / disk,
      other: (all - own) / disk,
      leanX: sumX / own / radius,
      leanY: sumY / own / radius,
    };
  }
}
