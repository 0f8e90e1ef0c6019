import type { Rings } from '../polygon/rings-argument.ts';
import { IntList } from '../raster/int-list.ts';
import { TICK_ROWS } from '../raster/progress.ts';
import type { Bounds } from '../raster/types.ts';
import { divideRegion } from '../regions/divide.ts';
import { fillSpan } from '../runs/fill-span.ts';
import { type MarkedMap, type MarkedRegions, OPEN, type TookPixels } from './marked-map.ts';
import { PolygonRuns, type RunSource } from './polygon-runs.ts';
import { RegionBorders } from './region-borders.ts';
import { RegionExtents } from './region-extents.ts';

/**
 * Labeled regions that a plan's marks change: their swatches, and the regions themselves. Changes
 * the labels that it is given.
 *
 * A region whose pixels are known to be connected may fall apart under a polygon without a look at
 * once: it is put down as torn, and separated when a mark asks for it or at the end. So a hundred
 * polygons across one page-wide region cost one look. Of two regions that become one, the one of
 * fewer pixels is written anew, whichever id the two shall have: `name` holds the id by which a
 * region is known, and `finish` writes it.
 */
export class RegionMap implements MarkedMap, RunSource {
  readonly labels: Int32Array;
  readonly width: number;
  readonly height: number;
  pulse: () => void = () => {};
  /** Whether a mark may have changed a region. */
  changed = false;
  private readonly ink: Uint8Array | undefined;
  /** Index in the palette by id, or `OPEN`. */
  private readonly swatches: IntList;
  /** Mark that gave each region its swatch; of regions without one, meaningless. */
  private readonly layers: IntList;
  private readonly names: IntList;
  /** 1 for parts of regions whose paper touched the picture's border. */
  private readonly outer: IntList;
  /** 1 for regions whose pixels are known to have been connected when they were last looked at. */
  private readonly connected: IntList;
  /** Of no region until a mark asks for them. */
  private readonly extents: RegionExtents;
  private readonly torn: Set<number> = new Set();
  private readonly runs: PolygonRuns = new PolygonRuns();
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
    this.labels = labels;
    this.width = width;
    this.height = height;
    this.ink = ink;
    this.extents = new RegionExtents(width, height);
    this.swatches = IntList.from(new Int32Array(count).fill(OPEN));
    this.layers = IntList.from(new Int32Array(count));
    this.names = IntList.from(Int32Array.from({ length: count }, (_, id) => id));
    this.outer = IntList.from(new Int32Array(count));
    this.connected = IntList.from(new Int32Array(count));
    this.swatches.data[0] = 0;
    for (const id of border) this.outer.data[id] = 1;
  }

  at(x: number, y: number): number {
    const p = y * this.width + x;
    if (this.torn.has(this.labels[p]!)) this.separate(this.labels[p]!);
    return this.labels[p]!;
  }

  swatch(region: number): number {
    return this.swatches.data[region]!;
  }

  lay(region: number, swatch: number, mark: number): void {
    this.swatches.data[region] = swatch;
    this.layers.data[region] = mark;
  }

  laidBy(region: number): number {
    return this.layers.data[region]!;
  }

  name(region: number): number {
    return this.names.data[region]!;
  }

  layPatch(region: number, swatch: number, mark: number): void {
    const before = this.swatch(region);
    for (const id of [...this.torn]) if (this.swatch(id) === before) this.separate(id);
    this.borders ??= new RegionBorders(this.labels, this.width, this.height, this.pulse);
    this.lay(region, swatch, mark);
    const patch = [region];
    for (let k = 0; k < patch.length; k++) {
      for (const next of this.borders.of(patch[k]!)) {
        if (this.swatch(next) !== before) continue;
        this.lay(next, swatch, mark);
        patch.push(next);
      }
    }
  }

  take(
    polygon: Rings,
    swatch: number,
    mark: number,
    mayTake: (swatch: number) => boolean,
  ): TookPixels {
    this.measure();
    this.pulse();
    const { runs } = this;
    const { area } = this.extents;
    if (!runs.scan(polygon, this, this.pulse)) return 'empty';
    let took = false;
    let parts = false;
    for (const [id, inside] of runs.counts()) {
      if (!mayTake(this.swatch(id))) continue;
      took = true;
      if (inside < area.data[id]!) parts = true;
      else {
        this.lay(id, swatch, mark);
        runs.leave(id);
      }
    }
    if (parts) this.carve(swatch, mark, mayTake);
    return took ? 'took' : 'kept out';
  }

  cut(line: Int32Array): boolean {
    this.measure();
    for (const id of this.under(line)) if (this.torn.has(id)) this.separate(id);
    const before = this.extents.length;
    const { labels, ink } = this;
    for (const id of this.under(line)) {
      const isBefore = (p: number): boolean => labels[p] === id && ink?.[p] !== 1;
      if (this.divide(id, isBefore, line).divided) this.connected.data[id] = 0;
    }
    // Pixels on the ink and the line go to the nearest piece, which they need not touch.
    for (let id = before; id < this.extents.length; id++) this.connected.data[id] = 0;
    return this.extents.length > before;
  }

  merge(ids: readonly number[], keeps: number): void {
    this.measure();
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
    for (const id of [...this.torn]) this.separate(id);
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

  /** Ids of the regions under some pixels, by their names; 0 is left out. */
  private under(pixels: Int32Array): number[] {
    const ids = new Set<number>();
    for (const p of pixels) if (this.labels[p] !== 0) ids.add(this.labels[p]!);
    return [...ids].sort((a, b) => this.name(a) - this.name(b));
  }

  /** Takes what the polygon's runs hold out of its regions. */
  private carve(swatch: number, mark: number, mayTake: (swatch: number) => boolean): void {
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

  /** Separates a region that was connected before polygons tore it. */
  private separate(id: number): void {
    this.torn.delete(id);
    this.divide(id);
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
  private measure(): void {
    this.changed = true;
    const { extents, labels, width, height } = this;
    if (extents.length > 0) return;
    for (let id = 0; id < this.swatches.length; id++) extents.add();
    extents.count(labels, [0, 0, width, height], () => true, this.pulse);
  }

  /** A new region, connected, without a pixel yet, taken out of another and with its swatch. */
  private add(from: number): void {
    this.names.push(this.names.length);
    this.swatches.push(this.swatches.data[from]!);
    this.layers.push(this.layers.data[from]!);
    this.outer.push(this.outer.data[from]!);
    this.connected.push(1);
    this.extents.add();
  }
}
