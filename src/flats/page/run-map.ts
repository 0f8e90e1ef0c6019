import { IntList } from '../../raster/int-list.ts';
import type { Bounds } from '../../raster/types.ts';
import { isInRun, isSameWithin, type Parts, type RowRuns, runFrom } from '../../runs/parts.ts';
import type { Runs } from '../../runs/runs.ts';
import { connectRuns, findRoot } from '../../runs/union.ts';
import type { MarkedRegions } from '../marked-map.ts';
import { RegionExtents } from '../region-extents.ts';
import { RegionStates } from '../region-states.ts';
import { type DivideRuns, divideRuns, partsOfPieces } from './divide-runs.ts';
import { type LabelRow, placeIn, withSpans } from './label-rows.ts';
import { pixelsOf, RunList, withoutPixels } from './run-lists.ts';

/** Pixels round a line in windows in which a cut is looked at: chosen. */
const MARGINS = [8, 48, 192];

/** Regions before any mark. */
export interface UnmarkedRegions {
  readonly width: number;
  readonly height: number;
  readonly rows: readonly LabelRow[];
  /** The id that each id of the rows is a part of. */
  readonly owner: Int32Array;
  /** Ids whose paper touches the picture's border. */
  readonly border: ReadonlySet<number>;
  /** What is neither ink nor closed gap. */
  readonly paper: Parts;
  /** By owner. */
  readonly extents: RegionExtents;
}

/**
 * Regions that marks change, as `RegionMap` has them, over runs: no pixel is looked at but where a
 * cut goes through ink. Rows that no mark changes stay those that were given, and regions that become
 * one keep their ids in the rows: `rootOf` tells what each is a part of.
 */
export class RunMap extends RegionStates {
  readonly rows: LabelRow[];
  readonly extents: RegionExtents;
  private readonly given: UnmarkedRegions;
  /** Where cuts looked at the paper. */
  private readonly looked: Bounds[] = [];
  private readonly paper: RowRuns;
  private parent: IntList;
  /** Of regions that were asked for since pixels last changed theirs. */
  private readonly neighbors = new Map<number, ReadonlySet<number>>();

  /** With rows and extents that are not the given ones, those of a map on the same. */
  constructor(given: UnmarkedRegions, changed?: Pick<RunMap, 'rows' | 'extents'>) {
    const { width, height, owner, border, paper } = given;
    const { rows, extents } = changed ?? given;
    super([width, height], owner.length, border);
    this.given = given;
    this.rows = [...rows];
    this.paper = paper.runs;
    this.parent = IntList.from(owner.slice());
    this.extents = RegionExtents.copyOf(extents);
  }

  /** Whether the same marks would have made the same of other regions. O(rows). */
  isOn(other: UnmarkedRegions): boolean {
    const { rows, owner, border, paper } = this.given;
    if (rows !== other.rows || owner !== other.owner || border.size !== other.border.size) {
      return false;
    }
    for (const id of border) if (!other.border.has(id)) return false;
    return this.looked.every((bounds) => isSameWithin(paper, other.paper, bounds));
  }

  /** The regions as they are on those that `isOn` holds of, to be changed alone. O(rows + regions). */
  copy(given: UnmarkedRegions): RunMap {
    const copy = new RunMap(given, this);
    copy.looked.push(...this.looked);
    for (const key of ['parent', 'swatches', 'layers', 'outer', 'connected'] as const) {
      copy[key] = IntList.from(this[key].trimmed());
    }
    for (const id of this.torn) copy.torn.add(id);
    copy.changed = this.changed;
    return copy;
  }

  /** The region that an id of the rows is a part of. */
  rootOf(id: number): number {
    return findRoot(this.parent.data, id);
  }

  name(region: number): number {
    return region;
  }

  merge(ids: readonly number[], keeps: number): void {
    this.begin();
    const [swatch, mark] = [this.swatch(keeps), this.laidBy(keeps)];
    const [to, ...others] = new Set(ids);
    for (const other of others) {
      this.parent.data[other] = to!;
      this.extents.join(to!, other);
      this.connected.data[to!] = 0;
      if (this.outer.data[other] === 1) this.outer.data[to!] = 1;
    }
    this.lay(to!, swatch, mark);
  }

  eachRun(from: number, to: number, put: (id: number, start: number, end: number) => void): void {
    if (from >= to) return;
    const { width, rows } = this;
    const y = Math.floor(from / width);
    const row = rows[y]!;
    const first = y * width;
    for (let k = placeIn(row, from - first); k < row.length && first + row[k]! < to; k += 2) {
      const end = k + 2 < row.length ? Math.min(to, first + row[k + 2]!) : to;
      put(this.rootOf(row[k + 1]!), Math.max(from, first + row[k]!), end);
    }
  }

  /** Separates what is torn; gives swatches and border by the roots of the ids. */
  finish(): MarkedRegions {
    this.separateTorn();
    const border = new Set<number>();
    for (let id = 1; id < this.nextId; id++) {
      if (this.rootOf(id) === id && this.outer.data[id] === 1) border.add(id);
    }
    return { swatch: this.swatches.trimmed(), border };
  }

  private get nextId(): number {
    return this.extents.length;
  }

  protected regionOf(pixel: number): number {
    const x = pixel % this.width;
    const row = this.rows[(pixel - x) / this.width]!;
    return this.rootOf(row[placeIn(row, x) + 1]!);
  }

  protected neighborsOf(region: number): ReadonlySet<number> {
    let found = this.neighbors.get(region);
    if (found === undefined) this.neighbors.set(region, (found = this.findNeighbors(region)));
    return found;
  }

  /** O(runs of the region's rows). */
  private findNeighbors(region: number): Set<number> {
    const { rows, height } = this;
    const [, y0, , y1] = this.extents.boundsOf(region);
    const found = new Set<number>();
    const meet = (a: number, b: number): void => {
      if (a === region && b !== region && b !== 0) found.add(b);
      if (b === region && a !== region && a !== 0) found.add(a);
    };
    for (let y = y0; y < y1; y++) {
      const row = rows[y]!;
      for (let k = 2; k < row.length; k += 2) {
        meet(this.rootOf(row[k - 1]!), this.rootOf(row[k + 1]!));
      }
    }
    for (let y = Math.max(1, y0); y < Math.min(height, y1 + 1); y++) {
      const [above, below] = [rows[y - 1]!, rows[y]!];
      for (let a = 0, b = 0; a < above.length && b < below.length; ) {
        meet(this.rootOf(above[a + 1]!), this.rootOf(below[b + 1]!));
        const endA = a + 2 < above.length ? above[a + 2]! : this.width;
        const endB = b + 2 < below.length ? below[b + 2]! : this.width;
        if (endA <= endB) a += 2;
        if (endB <= endA) b += 2;
      }
    }
    return found;
  }

  protected carve(swatch: number, mark: number, mayTake: (swatch: number) => boolean): void {
    const { runs, extents, width, rows } = this;
    const allowed = (id: number): boolean => id !== 0 && mayTake(this.swatch(id));
    runs.connect(allowed, this.pulse);
    const first = this.nextId;
    const from: number[] = [];
    let y = -1;
    let spans: number[] = [];
    const write = (): void => {
      if (spans.length > 0) rows[y] = withSpans(rows[y]!, width, spans);
      spans = [];
    };
    runs.eachTaken((id, piece, start, end) => {
      const own = first + piece;
      if (own === this.nextId) {
        from.push(id);
        this.add(id);
        this.lay(own, swatch, mark);
      }
      const row = Math.floor(start / width);
      if (row !== y) write();
      y = row;
      spans.push(start - row * width, end - row * width, own);
      extents.area.data[id]! -= end - start;
      extents.extend(own, start, end);
    });
    write();
    for (const id of runs.torn()) {
      if (this.connected.data[id] === 1) this.torn.add(id);
      else {
        const isBefore = (now: number): boolean => now === id || from[now - first] === id;
        this.connected.data[id] = this.divideLeft(id, isBefore).parts === 1 ? 1 : 0;
      }
    }
  }

  protected divideWhole(id: number): void {
    this.divideLeft(id);
  }

  protected divideAlong(id: number, line: Int32Array): boolean {
    const bounds = this.extents.boundsOf(id);
    this.looked.push(bounds);
    if (this.holdsTogether(id, line, bounds)) return false;
    const own = this.runsOf(bounds, (region) => region === id);
    const before = this.paperOf(id, bounds);
    const after = withoutPixels(before, line, this.width, bounds[1]);
    return this.divide({ bounds, own, before, after, id }).divided;
  }

  /**
   * Whether windows round a region's pixels of a line show that it divides no paper of it: what it touches there is
   * connected beside it, too, wherever it was before. They may be too small to tell.
   */
  private holdsTogether(id: number, line: Int32Array, bounds: Readonly<Bounds>): boolean {
    const { width, height } = this;
    let [x0, y0, x1, y1] = [width, height, 0, 0];
    for (const p of line) {
      const x = p % width;
      const y = (p - x) / width;
      if (!isInRun(this.paper, x, y)) continue;
      [x0, y0] = [Math.min(x0, x), Math.min(y0, y)];
      [x1, y1] = [Math.max(x1, x + 1), Math.max(y1, y + 1)];
    }
    if (y1 === 0) return true;
    for (const margin of MARGINS) {
      const window: Bounds = [
        Math.max(bounds[0], x0 - margin),
        Math.max(bounds[1], y0 - margin),
        Math.min(bounds[2], x1 + margin),
        Math.min(bounds[3], y1 + margin),
      ];
      const before = this.paperOf(id, window);
      const parts = connectRuns(before, 4);
      const after = withoutPixels(before, line, width, window[1]);
      const pieces = connectRuns(after, 4);
      const partOf = partsOfPieces({ runs: after, pieces }, { runs: before, pieces: parts });
      if (new Set(partOf.subarray(1)).size === pieces.count) return true;
    }
    return false;
  }

  /** What of a region is paper within bounds that hold it, or a window of these. */
  private paperOf(id: number, [x0, y0, x1, y1]: Readonly<Bounds>): Runs {
    const { rows, paper, width } = this;
    const list = new RunList();
    for (let y = y0; y < y1; y++) {
      const row = rows[y]!;
      const stop = paper.to[y]!;
      let r = runFrom(paper, x0, y);
      for (let k = placeIn(row, x0); k < row.length && row[k]! < x1; k += 2) {
        if (this.rootOf(row[k + 1]!) !== id) continue;
        const start = Math.max(x0, row[k]!);
        const end = Math.min(x1, k + 2 < row.length ? row[k + 2]! : width);
        while (r < stop && paper.end[r]! <= start) r++;
        for (let i = r; i < stop && paper.start[i]! < end; i++) {
          list.put(Math.max(start, paper.start[i]!), Math.min(end, paper.end[i]!));
        }
      }
      list.endRow();
    }
    return list.finish();
  }

  /** Divides what is left of a region; `isBefore` as that of `divide` in `RegionMap`, by ids. */
  private divideLeft(
    id: number,
    isBefore?: (id: number) => boolean,
  ): { divided: boolean; parts: number } {
    const bounds = this.extents.boundsOf(id);
    const own = this.runsOf(bounds, (region) => region === id);
    const before = isBefore && this.runsOf(bounds, isBefore);
    return this.divide({ bounds, own, before, after: own, id });
  }

  private divide(region: Omit<DivideRuns, 'nextId' | 'pulse'>): {
    divided: boolean;
    parts: number;
  } {
    const { extents, rows, width, nextId, pulse } = this;
    const { bounds, own, id } = region;
    pulse();
    if (pixelsOf(own) === 0) return { divided: false, parts: 0 };
    const divided = divideRuns({ ...region, nextId, pulse });
    if (divided.nextId === nextId) return { divided: false, parts: divided.parts };
    for (let piece = nextId; piece < divided.nextId; piece++) this.add(id);
    const spans: number[][] = Array.from({ length: bounds[3] - bounds[1] }, () => []);
    divided.each((y, start, end, now) => {
      extents.area.data[id]! -= end - start;
      extents.extendRow(now, y, start, end);
      spans[y - bounds[1]]!.push(start, end, now);
    });
    spans.forEach((list, k) => {
      const y = bounds[1] + k;
      if (list.length > 0) rows[y] = withSpans(rows[y]!, width, list);
    });
    return { divided: true, parts: divided.parts };
  }

  /** The runs within the rows of some bounds that are of the wanted regions. */
  private runsOf([, y0, , y1]: Readonly<Bounds>, isWanted: (region: number) => boolean): Runs {
    const list = new RunList();
    for (let y = y0; y < y1; y++) {
      const row = this.rows[y]!;
      for (let k = 0; k < row.length; k += 2) {
        if (!isWanted(this.rootOf(row[k + 1]!))) continue;
        list.put(row[k]!, k + 2 < row.length ? row[k + 2]! : this.width);
      }
      list.endRow();
    }
    return list.finish();
  }

  protected override begin(): void {
    super.begin();
    this.neighbors.clear();
  }

  protected override add(from: number): void {
    this.parent.push(this.parent.length);
    super.add(from);
  }
}
