import { IntList } from '../raster/int-list.ts';
import { TICK_ROWS } from '../raster/progress.ts';
import type { Bounds } from '../raster/types.ts';
import { divideRegion } from '../regions/divide.ts';
import { fillSpan } from '../runs/fill-span.ts';
import type { MarkedRegions } from './marked-map.ts';
import { RegionBorders } from './region-borders.ts';
import { RegionExtents } from './region-extents.ts';
import { RegionStates } from './region-states.ts';

/**
 * Labeled regions that a plan's marks change: their swatches, and the regions themselves. Changes
 * the labels that it is given.
 *
 * Of two regions that become one, the one of fewer pixels is written anew, whichever id the two shall
 * have: `name` holds the id by which a region is known, and `finish` writes it.
 */
export class RegionMap extends RegionStates {
  readonly labels: Int32Array;
  /** Of no region until a mark asks for them. */
  readonly extents: RegionExtents;
  private readonly ink: Uint8Array | undefined;
  private readonly names: IntList;
  private borders: RegionBorders | undefined;
  private renamed = false;

  /** `border` holds ids whose paper touches the picture's border; `count` is one past the highest. */
  constructor(
    labels: Int32Array,
    [width, height]: readonly [number, number],
    count: number,
    border: ReadonlySet<number>,
    ink: Uint8Array | undefined,
  ) {
    super([width, height], count, border);
    this.labels = labels;
    this.ink = ink;
    this.extents = new RegionExtents(width, height);
    this.names = IntList.from(Int32Array.from({ length: count }, (_, id) => id));
  }

  name(region: number): number {
    return this.names.data[region]!;
  }

  merge(ids: readonly number[], keeps: number): void {
    this.begin();
    const [swatch, mark] = [this.swatch(keeps), this.laidBy(keeps)];
    const [first, ...others] = new Set(ids);
    let to = first!;
    for (const other of others) {
      const { names } = this;
      const { area } = this.extents;
      const name = names.data[to]!;
      const [large, small] = area.data[other]! > area.data[to]! ? [other, to] : [to, other];
      this.rewrite(small, large);
      const unused = names.data[large] === name ? names.data[small]! : names.data[large]!;
      if (names.data[large] !== name) this.renamed = true;
      names.data[large] = name;
      names.data[small] = unused;
      to = large;
    }
    this.lay(to, swatch, mark);
  }

  eachRun(from: number, to: number, put: (id: number, start: number, end: number) => void): void {
    const { labels } = this;
    for (let p = from; p < to; ) {
      const id = labels[p]!;
      const start = p;
      while (++p < to && labels[p] === id);
      put(id, start, p);
    }
  }

  /** Separates what is torn, and writes the ids by which regions are known. */
  finish(): MarkedRegions {
    this.separateTorn();
    const { labels, width, height, swatches, names, outer } = this;
    const count = swatches.length;
    const swatch = new Int32Array(count);
    const border = new Set<number>();
    for (let id = 0; id < count; id++) {
      swatch[names.data[id]!] = swatches.data[id]!;
      if (outer.data[id] === 1) border.add(names.data[id]!);
    }
    if (this.renamed) {
      for (let y = 0; y < height; y++) {
        if (y % TICK_ROWS === 0) this.pulse();
        for (let p = y * width; p < (y + 1) * width; p++) labels[p] = names.data[labels[p]!]!;
      }
    }
    return { swatch, border };
  }

  protected regionOf(pixel: number): number {
    return this.labels[pixel]!;
  }

  protected neighborsOf(region: number): Iterable<number> {
    this.borders ??= new RegionBorders(this.labels, this.width, this.height, this.pulse);
    return this.borders.of(region);
  }

  protected carve(swatch: number, mark: number, mayTake: (swatch: number) => boolean): void {
    const { runs, labels, extents } = this;
    const allowed = (id: number): boolean => id !== 0 && mayTake(this.swatch(id));
    runs.connect(allowed, this.pulse);
    const first = extents.length;
    const from: number[] = [];
    this.change(runs.bounds, () => {
      runs.eachTaken((id, piece, start, end) => {
        const own = first + piece;
        if (own === extents.length) {
          from.push(id);
          this.add(id);
          this.lay(own, swatch, mark);
        }
        fillSpan(labels, own, start, end);
        extents.area.data[id]! -= end - start;
        extents.extend(own, start, end);
      });
    });
    const isBefore = (id: number) => (p: number) =>
      labels[p] === id || from[labels[p]! - first] === id;
    for (const id of runs.torn()) {
      if (this.connected.data[id] === 1) this.torn.add(id);
      else this.connected.data[id] = this.divide(id, isBefore(id)).parts === 1 ? 1 : 0;
    }
  }

  protected divideWhole(id: number): void {
    this.divide(id);
  }

  protected divideAlong(id: number, line: Int32Array): boolean {
    const { labels, ink } = this;
    const isBefore = (p: number): boolean => labels[p] === id && ink?.[p] !== 1;
    return this.divide(id, isBefore, line).divided;
  }

  /**
   * Divides a region into what it has fallen apart to without the pixels of a line, or without those
   * of other regions. `isBefore` tells the pixels that were connected before; left out, all were.
   * Gives whether there are new regions, and how many parts there were before.
   */
  private divide(
    id: number,
    isBefore?: (p: number) => boolean,
    line?: Int32Array,
  ): { divided: boolean; parts: number } {
    const { labels, width, extents } = this;
    const bounds = extents.boundsOf(id);
    if (bounds[0] >= bounds[2]) return { divided: false, parts: 0 };
    const first = extents.length;
    this.pulse();
    let parts = 0;
    this.change(bounds, () => {
      const region = { labels, width, bounds, id, isBefore, line, nextId: first };
      const divided = divideRegion(region, this.pulse);
      parts = divided.parts;
      for (let piece = first; piece < divided.nextId; piece++) this.add(id);
    });
    if (extents.length === first) return { divided: false, parts };
    extents.clear(id);
    extents.count(labels, bounds, (now) => now === id || now >= first, this.pulse);
    return { divided: true, parts };
  }

  /** Writes the pixels of one region as another's. */
  private rewrite(id: number, to: number): void {
    const { labels, width, extents } = this;
    const bounds = extents.boundsOf(id);
    const [x0, y0, x1, y1] = bounds;
    this.change(bounds, () => {
      for (let y = y0; y < y1; y++) {
        if ((y - y0) % TICK_ROWS === 0) this.pulse();
        for (let p = y * width + x0, end = y * width + x1; p < end; ) {
          if (labels[p] !== id) {
            p++;
            continue;
          }
          const start = p;
          while (++p < end && labels[p] === id);
          fillSpan(labels, to, start, p);
          extents.extend(to, start, p);
        }
      }
    });
    extents.clear(id);
    this.connected.data[to] = 0;
    if (this.outer.data[id] === 1) this.outer.data[to] = 1;
  }

  /** Lets labels change within bounds, and keeps the borders between regions right. */
  private change(bounds: Readonly<Bounds>, write: () => void): void {
    this.borders?.count(bounds, -1);
    write();
    this.borders?.count(bounds, 1);
  }

  /** Counts the regions' pixels and finds their bounds, once. */
  protected override begin(): void {
    super.begin();
    const { extents, labels, width, height } = this;
    if (extents.length > 0) return;
    for (let id = 0; id < this.swatches.length; id++) extents.add();
    extents.count(labels, [0, 0, width, height], () => true, this.pulse);
  }

  protected override add(from: number): void {
    this.names.push(this.names.length);
    super.add(from);
  }
}
