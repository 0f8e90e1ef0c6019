import type { Rings } from '../polygon/rings-argument.ts';
import { IntList } from '../raster/int-list.ts';
import { type MarkedMap, OPEN, type TookPixels } from './marked-map.ts';
import { PolygonRuns, type RunSource } from './polygon-runs.ts';
import type { RegionExtents } from './region-extents.ts';

/**
 * What marks make of regions, however their pixels are kept: who has which swatch, and what is torn.
 *
 * A region whose pixels are known to be connected may fall apart under a polygon without a look at
 * once: it is put down as torn, and separated when a mark asks for it or at the end. So a hundred
 * polygons across one page-wide region cost one look.
 */
export abstract class RegionStates implements MarkedMap, RunSource {
  readonly width: number;
  readonly height: number;
  pulse: () => void = () => {};
  /** Whether a mark may have changed a region. */
  changed = false;
  abstract readonly extents: RegionExtents;
  /** Index in the palette by id, or `OPEN`. */
  protected swatches: IntList;
  /** Mark that gave each region its swatch; of regions without one, meaningless. */
  protected layers: IntList;
  /** 1 for parts of regions whose paper touched the picture's border. */
  protected outer: IntList;
  /** 1 for regions whose pixels are known to have been connected when they were last looked at. */
  protected connected: IntList;
  protected readonly torn: Set<number> = new Set();
  protected readonly runs: PolygonRuns = new PolygonRuns();

  /** `border` holds ids whose paper touches the picture's border; `count` is one past the highest. */
  constructor(
    [width, height]: readonly [number, number],
    count: number,
    border: ReadonlySet<number>,
  ) {
    this.width = width;
    this.height = height;
    this.swatches = IntList.from(new Int32Array(count).fill(OPEN));
    this.layers = IntList.from(new Int32Array(count));
    this.outer = IntList.from(new Int32Array(count));
    this.connected = IntList.from(new Int32Array(count));
    this.swatches.data[0] = 0;
    for (const id of border) this.outer.data[id] = 1;
  }

  abstract name(region: number): number;
  abstract merge(ids: readonly number[], keeps: number): void;
  abstract eachRun(
    from: number,
    to: number,
    put: (id: number, start: number, end: number) => void,
  ): void;

  /** Region of a pixel by its index, torn or not; 0 for none. */
  protected abstract regionOf(pixel: number): number;
  /** Regions that share an edge of a pixel with a region. */
  protected abstract neighborsOf(region: number): Iterable<number>;
  /** Takes what the polygon's runs hold out of its regions. */
  protected abstract carve(
    swatch: number,
    mark: number,
    mayTake: (swatch: number) => boolean,
  ): void;
  /** Divides a region into what has fallen apart without the pixels of other regions. */
  protected abstract divideWhole(id: number): void;
  /** Divides a region along its pixels of a line, ascending; gives whether there are new regions. */
  protected abstract divideAlong(id: number, line: Int32Array): boolean;

  at(x: number, y: number): number {
    const pixel = y * this.width + x;
    const region = this.regionOf(pixel);
    if (!this.torn.has(region)) return region;
    this.separate(region);
    return this.regionOf(pixel);
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

  layPatch(region: number, swatch: number, mark: number): void {
    const before = this.swatch(region);
    for (const id of [...this.torn]) if (this.swatch(id) === before) this.separate(id);
    this.lay(region, swatch, mark);
    const patch = [region];
    for (let k = 0; k < patch.length; k++) {
      for (const next of this.neighborsOf(patch[k]!)) {
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
    this.begin();
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
    this.begin();
    let regions = this.under(line);
    const torn = [...regions.keys()].filter((id) => this.torn.has(id));
    for (const id of torn) this.separate(id);
    if (torn.length > 0) regions = this.under(line);
    const first = this.extents.length;
    for (const [id, pixels] of regions) {
      if (this.divideAlong(id, Int32Array.from(pixels))) this.connected.data[id] = 0;
    }
    // Pixels on the ink and the line go to the nearest piece, which they need not touch.
    for (let id = first; id < this.extents.length; id++) this.connected.data[id] = 0;
    return this.extents.length > first;
  }

  /** Called before pixels change their regions. */
  protected begin(): void {
    this.changed = true;
  }

  protected separateTorn(): void {
    for (const id of [...this.torn]) this.separate(id);
  }

  /** A new region, connected, without a pixel yet, taken out of another and with its swatch. */
  protected add(from: number): void {
    this.swatches.push(this.swatches.data[from]!);
    this.layers.push(this.layers.data[from]!);
    this.outer.push(this.outer.data[from]!);
    this.connected.push(1);
    this.extents.add();
  }

  /** Separates a region that was connected before polygons tore it. */
  private separate(id: number): void {
    this.begin();
    this.torn.delete(id);
    this.divideWhole(id);
  }

  /** Some pixels by their regions, in the order of these regions' names; 0 is left out. */
  private under(pixels: Int32Array): Map<number, number[]> {
    const found = new Map<number, number[]>();
    for (const p of pixels) {
      const id = this.regionOf(p);
      if (id === 0) continue;
      const own = found.get(id);
      if (own === undefined) found.set(id, [p]);
      else own.push(p);
    }
    return new Map([...found].sort(([a], [b]) => this.name(a) - this.name(b)));
  }
}
