import { raster } from '../raster/raster.ts';
import type { Bounds } from '../raster/types.ts';
import { divideRegion } from '../regions/divide.ts';
import { labelEqual } from '../regions/label-equal.ts';

/** Index of a region that nobody has given a swatch yet. */
export const OPEN = -1;

/**
 * Labeled regions that a plan's marks change: their swatches, and the regions themselves. Changes
 * the labels that it is given.
 *
 * A polygon may leave the region under it in pieces. Whether it did is looked up when a mark asks
 * for that region again or at the end, so a hundred polygons on one page-wide region cost one look.
 */
export class RegionMap {
  readonly labels: Int32Array;
  readonly width: number;
  readonly height: number;
  /** Index in the palette by id, or `OPEN`. */
  readonly swatch: number[];
  /** Ids of regions that are parts of those whose paper touched the picture's border. */
  readonly border: Set<number>;
  /** Whether a mark may have changed a region. */
  changed = false;
  private readonly ink: Uint8Array | undefined;
  /** Pixels and bounds by id; empty until a mark asks for them. */
  private readonly area: number[] = [];
  private readonly bounds: Bounds[] = [];
  /** The region that each id was taken out of by a polygon; itself where none did. */
  private readonly source: number[];
  private readonly carved: Set<number> = new Set();

  /** `border` holds ids whose paper touches the picture's border; `count` is one past the highest. */
  constructor(
    labels: Int32Array,
    [width, height]: readonly [number, number],
    count: number,
    border: ReadonlySet<number>,
    ink: Uint8Array | undefined,
  ) {
    this.labels = labels;
    this.width = width;
    this.height = height;
    this.border = new Set(border);
    this.ink = ink;
    this.source = Array.from({ length: count }, (_, id) => id);
    this.swatch = this.source.map((id) => (id === 0 ? 0 : OPEN));
  }

  /** Region of a pixel, whole as the marks so far have left it. */
  at(x: number, y: number): number {
    const p = y * this.width + x;
    if (this.carved.has(this.labels[p]!)) this.separate(this.labels[p]!);
    return this.labels[p]!;
  }

  /** Ids of the regions under some pixels, lowest first; 0 is left out. */
  private under(pixels: Int32Array): number[] {
    const ids = new Set<number>();
    for (const p of pixels) if (this.labels[p] !== 0) ids.add(this.labels[p]!);
    return [...ids].sort((a, b) => a - b);
  }

  /**
   * Divides regions along a line of pixels, with the ink for walls. The pieces keep the swatch.
   * Gives whether any fell apart.
   */
  cut(line: Int32Array): boolean {
    this.measure();
    for (const id of this.under(line)) if (this.carved.has(id)) this.separate(id);
    const ids = this.under(line);
    const before = this.swatch.length;
    for (const id of ids) {
      this.divide(id, (p) => this.labels[p] === id && this.ink?.[p] !== 1, line);
    }
    return this.swatch.length > before;
  }

  /**
   * Gives the pixels of a mask to regions of their own where `mayTake` allows it: a region that
   * lies wholly inside as it is, of others each 4-connected piece that does. Gives their ids.
   */
  take(inside: Uint8Array, bounds: Bounds, mayTake: (id: number) => boolean): number[] {
    this.measure();
    const { labels, width, area } = this;
    const [x0, y0, x1, y1] = bounds;
    const counts = new Map<number, number>();
    for (let y = y0; y < y1; y++) {
      for (let p = y * width + x0; p < y * width + x1; p++) {
        const id = labels[p]!;
        if (inside[p] === 1 && id !== 0) counts.set(id, (counts.get(id) ?? 0) + 1);
      }
    }
    const taken: number[] = [];
    const parts = new Set<number>();
    for (const [id, count] of counts) {
      if (!mayTake(id)) continue;
      if (count === area[id]!) taken.push(id);
      else parts.add(id);
    }
    if (parts.size > 0) taken.push(...this.carve(inside, bounds, parts));
    return taken;
  }

  /** Makes regions one, which has the first id. */
  merge(ids: readonly number[]): void {
    this.measure();
    const [first, ...others] = new Set(ids);
    const { labels, width } = this;
    for (const id of others) {
      const [x0, y0, x1, y1] = this.bounds[id]!;
      for (let y = y0; y < y1; y++) {
        for (let p = y * width + x0; p < y * width + x1; p++) {
          if (labels[p] === id) labels[p] = first!;
        }
      }
      if (this.area[id]! > 0) {
        this.extend(first!, x0, y0);
        this.extend(first!, x1 - 1, y1 - 1);
        this.area[first!]! += this.area[id]! - 2;
      }
      this.area[id] = 0;
      if (this.carved.delete(id)) this.carved.add(first!);
      this.release(first!, id);
      this.source[id] = first!;
      if (this.border.has(id)) this.border.add(first!);
    }
  }

  /** Renumbers the pieces that polygons have left. */
  finish(): void {
    for (const id of [...this.carved]) this.separate(id);
  }

  /** Where `id` is among the sources of `part`, takes it out, so that it can become a part itself. */
  private release(part: number, id: number): void {
    const { source } = this;
    for (let at = part; source[at] !== at; at = source[at]!) {
      if (source[at] !== id) continue;
      source[at] = source[id] === id ? at : source[id]!;
      return;
    }
  }

  /** Counts the regions' pixels and finds their bounds, once. */
  private measure(): void {
    this.changed = true;
    if (this.area.length > 0) return;
    const { labels, width, height } = this;
    for (let id = 0; id < this.swatch.length; id++) {
      this.area.push(0);
      this.bounds.push([width, height, 0, 0]);
    }
    for (let y = 0; y < height; y++) {
      const row = y * width;
      for (let x = 0; x < width; ) {
        const id = labels[row + x]!;
        const from = x;
        while (x < width && labels[row + x] === id) x++;
        this.extend(id, from, y);
        if (x > from + 1) this.extend(id, x - 1, y);
        this.area[id]! += Math.max(0, x - from - 2);
      }
    }
  }

  /** Takes the pieces of some regions that lie in a mask out of them. */
  private carve(inside: Uint8Array, bounds: Bounds, parts: ReadonlySet<number>): number[] {
    const { labels, width } = this;
    const [x0, y0, x1, y1] = bounds;
    const columns = x1 - x0;
    const own = new Int32Array(columns * (y1 - y0));
    for (let y = y0, i = 0; y < y1; y++) {
      for (let p = y * width + x0; p < y * width + x1; p++, i++) {
        if (inside[p] === 1 && parts.has(labels[p]!)) own[i] = labels[p]!;
      }
    }
    const pieces = labelEqual(raster(own, [columns, y1 - y0]), { background: 0 });
    const first = this.swatch.length;
    for (let k = 0; k < pieces.count; k++) this.add();
    const { data } = pieces.labels;
    for (let i = 0; i < own.length; i++) {
      if (data[i] === 0) continue;
      const [x, y] = [x0 + (i % columns), y0 + Math.floor(i / columns)];
      const id = first + data[i]! - 1;
      const from = own[i]!;
      if (this.border.has(from)) this.border.add(id);
      this.source[id] = from;
      this.swatch[id] = this.swatch[from]!;
      labels[y * width + x] = id;
      this.area[from]! -= 1;
      this.extend(id, x, y);
    }
    for (const id of parts) this.carved.add(id);
    return Array.from({ length: pieces.count }, (_, k) => first + k);
  }

  /** Renumbers what is left of a region that polygons took pixels of. */
  private separate(id: number): void {
    this.carved.delete(id);
    const { labels, source } = this;
    const isOf = (p: number): boolean => {
      let at = labels[p]!;
      while (at !== id && source[at] !== at) at = source[at]!;
      return at === id;
    };
    this.divide(id, isOf);
  }

  /**
   * Divides a region whose parts `isBefore` tells: what falls apart is what is left of them
   * without the pixels of a line, or without the pixels of other regions.
   */
  private divide(id: number, isBefore: (p: number) => boolean, line?: Int32Array): void {
    const { labels, width } = this;
    const bounds = this.bounds[id]!;
    const [x0, y0, x1, y1] = bounds;
    if (x0 >= x1) return;
    const first = this.swatch.length;
    const nextId = divideRegion({ labels, width, bounds, id, isBefore, line, nextId: first });
    if (nextId === first) return;
    for (let piece = first; piece < nextId; piece++) {
      this.add();
      if (this.border.has(id)) this.border.add(piece);
      this.source[piece] = piece;
      this.swatch[piece] = this.swatch[id]!;
    }
    this.bounds[id] = [this.width, this.height, 0, 0];
    this.area[id] = 0;
    for (let y = y0; y < y1; y++) {
      for (let x = x0; x < x1; x++) {
        const now = labels[y * width + x]!;
        if (now === id || (now >= first && now < nextId)) this.extend(now, x, y);
      }
    }
  }

  private add(): void {
    this.swatch.push(OPEN);
    this.source.push(this.source.length);
    this.area.push(0);
    this.bounds.push([this.width, this.height, 0, 0]);
  }

  /** Counts a pixel in. */
  private extend(id: number, x: number, y: number): void {
    const bounds = this.bounds[id]!;
    this.area[id]! += 1;
    if (x < bounds[0]) bounds[0] = x;
    if (y < bounds[1]) bounds[1] = y;
    if (x >= bounds[2]) bounds[2] = x + 1;
    if (y >= bounds[3]) bounds[3] = y + 1;
  }
}
