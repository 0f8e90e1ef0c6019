import { parseColor } from '../../color/hex.ts';
import { type Leak, pixelAt } from '../../gaps/leaks.ts';
import type { GapStudy } from '../../gaps/study.ts';
import { indexStorage } from '../../palette/flats-argument.ts';
import type { Flats } from '../../palette/types.ts';
import { checkNumber, checkOptions, checkPoint } from '../../raster/checks.ts';
import { wrongValue } from '../../raster/errors.ts';
import { raster } from '../../raster/raster.ts';
import { type AbortSignalLike, type Ticks, ticksOf } from '../../raster/stages.ts';
import type { Bounds, Labels, Mask, Pixels, Point } from '../../raster/types.ts';
import { checkPlan, checkPlanSize } from '../check-plan.ts';
import { paintPart, partArgument } from '../compose-sheet.ts';
import { readDrawing } from '../drawing.ts';
import type { Source } from '../find-ink.ts';
import type { LayProgress } from '../grow-regions.ts';
import type { LayFlatsReport } from '../lay-report.ts';
import type { Plan } from '../plan.ts';
import { PageLine } from './page-line.ts';
import { isSame, type OutStorage, type PageOut, pageOut, writeOut } from './page-out.ts';
import { nextState, type PageState } from './page-state.ts';
import { type SavedPage, savePage } from './saved-page.ts';
import { maskOf, outlineOf, type RegionMask } from './view-region.ts';
import { type PageRasters, type Repainted, writeAll, writeChanges } from './write-regions.ts';

export interface PageUpdateOptions {
  /** Called now and then. What it throws ends the update and reaches the caller. */
  readonly onProgress?: ((progress: LayProgress) => void) | undefined;
  /** Looked at as often as `onProgress` is called: its reason is thrown. @default none */
  readonly signal?: AbortSignalLike | undefined;
  /** Rasters of the caller that the result is written into, too. @default none */
  readonly out?: PageOut | undefined;
}

/** What an update did. */
export interface PageUpdate {
  /** The page's own rasters, which later updates change: copy what is to stay. */
  readonly flats: Flats;
  readonly labels: Labels;
  readonly report: LayFlatsReport;
  /**
   * What looks different or has another index, `[x0, y0, x1, y1]`, half-open; null where nothing does.
   * Placeholders take what index is free: one elsewhere may get another, and all do when swatches are
   * added to the palette of the plan.
   */
  readonly changed: Bounds | null;
  /** Ids of regions that were not there before. */
  readonly addedIds: readonly number[];
  /** Ids of regions that are there no more. */
  readonly goneIds: readonly number[];
  /** Ids of regions whose pixels, swatch or index are not what they were. */
  readonly changedIds: readonly number[];
}

export interface ComposeWithinOptions {
  /** What shows through bare pixels and the ground, `#rrggbb`. @default '#808080' */
  readonly backdrop?: string | undefined;
}

/** A drawing with the flats that a plan gives it, kept from one correction to the next: `openPage`. */
export class Page {
  private readonly source: Source;
  private readonly line: PageLine;
  private state: PageState;
  private rasters: PageRasters;
  /** What the last update wrote into. */
  private written: OutStorage = {};

  /** @internal */
  constructor(source: Source, state: PageState) {
    this.source = source;
    this.line = new PageLine(source);
    this.state = state;
    this.rasters = storageFor(state);
    writeAll(state, this.rasters, source.width);
  }

  /** `[width, height]` in pixels. */
  get size(): readonly [number, number] {
    return [this.source.width, this.source.height];
  }

  /** The plan that is laid. */
  get plan(): Plan {
    return this.state.plan;
  }

  /** The page's own raster, which updates change: copy what is to stay. */
  get labels(): Labels {
    return raster(this.rasters.labels, this.size) as Labels;
  }

  /** On the page's own raster, which updates change. */
  get flats(): Flats {
    const { palette, ground } = this.state.assigned;
    const indices = raster(this.rasters.indices, this.size) as Flats['indices'];
    return { indices, palette, ...(ground === undefined ? {} : { ground }) };
  }

  get report(): LayFlatsReport {
    return this.state.report;
  }

  /** What is known of the gaps. */
  get study(): GapStudy {
    return this.state.drawing.study;
  }

  get ink(): Mask {
    return raster(this.state.drawing.ink, this.size);
  }

  /** The ink with the gaps closed, a new raster. O(pixels). */
  get sealed(): Mask {
    const { study } = this.state.drawing;
    return study.sealedBy(this.state.decided.closed);
  }

  /**
   * Lays another plan in place of the last one: the flats are those that `layFlats` gives, but that
   * ids and placeholders stay with their regions. The region that keeps the most of a region's pixels
   * keeps its id, others get ids that were never given before. Undo is the plan before.
   *
   * What both plans share is not done again.
   *
   * @throws TypeError or RangeError for a bad plan, the reason of `signal` once it is aborted, and
   * what `onProgress` throws; then the page, and `out`, are as before.
   */
  update(plan: Plan, options?: PageUpdateOptions): PageUpdate {
    const { out, ...watched } = checkOptions(options, 'update', ['onProgress', 'signal', 'out']);
    const ticks = ticksOf(watched);
    const { width, height } = this.source;
    const checked = checkPlan(plan);
    checkPlanSize(checked, width, height);
    watched.signal?.throwIfAborted();
    const { state: before, source } = this;
    const drawing = readAgain(source, before, checked, ticks);
    const basis = { drawing, outside: before.outside, before };
    const state = nextState(basis, checked, ticks);
    const inputs = [source.pixels?.data, drawing.coverage].filter((data) => data !== undefined);
    const own = [this.rasters.labels, this.rasters.indices, drawing.ink, ...inputs];
    const storage = pageOut(out, this.size, state.assigned, own);
    return this.show(state, storage);
  }

  /** Id of the region under a point; 0 outside the picture. O(1). */
  regionAt(point: Point): number {
    const [px, py] = checkPoint(point, 'point');
    const [x, y] = [Math.floor(px), Math.floor(py)];
    const { width, height } = this.source;
    return x < 0 || y < 0 || x >= width || y >= height ? 0 : this.rasters.labels[y * width + x]!;
  }

  /**
   * The pixels of a region, cropped. O(pixels of its bounds).
   *
   * @throws RangeError for an id of no region.
   */
  regionMask(id: number): RegionMask {
    return maskOf(this.rasters.labels, this.source.width, id, this.boundsOf(id));
  }

  /**
   * The outline of a region: its rings, as `outlineRegions` gives them. O(runs of its bounds).
   *
   * @throws RangeError for an id of no region.
   */
  regionOutline(id: number): Point[][] {
    return outlineOf(this.state, this.source.width, id, this.boundsOf(id));
  }

  /**
   * Why two points share a region, as the function of that name tells. O(pixels of the way's flood);
   * the first call measures how wide the paper is, O(pixels), and keeps it.
   */
  leaksBetween(a: Point, b: Point): Leak[] {
    const { drawing, leaks } = this.state;
    const [from, to] = [pixelAt(a, 'a', drawing), pixelAt(b, 'b', drawing)];
    return leaks.finderWith().find(from, to);
  }

  /**
   * The sheet within bounds as a person looks at it, as `composeSheet` paints it: the flats under the
   * line of the pixels that the page was opened on, or under its ink in black, as dark as its
   * coverage. O(pixels of the bounds); a page opened on pixels clears their paper at the first call.
   *
   * @param bounds - `[x0, y0, x1, y1]`, half-open, inside the picture.
   * @returns RGBA Uint8 `[w, h, 4]`, opaque, of the size of the bounds.
   * @throws TypeError or RangeError for bounds or a color that are none.
   */
  composeWithin(bounds: Readonly<Bounds>, options?: ComposeWithinOptions): Pixels<Uint8Array> {
    const { backdrop = '#808080' } = checkOptions(options, 'composeWithin', ['backdrop']);
    const { width, height } = this.source;
    const part = partArgument(bounds, width, height, 'bounds');
    const sheet = this.compose(part, parseColor(backdrop, 'backdrop'));
    return raster(sheet, [part[2] - part[0], part[3] - part[1], 4]);
  }

  /**
   * The page as plain data, which `openPage` takes back: for a worker, IndexedDB or a file. It shares
   * the memory of the page's inputs; nothing of it changes with later updates.
   */
  save(): SavedPage {
    return savePage(this.source, this.state);
  }

  private boundsOf(id: number): Bounds {
    const { areas, bounds } = this.state.measured;
    checkNumber(id, 'id', { integer: true });
    if (id === 0 || !(areas[id]! > 0)) {
      const hint = id === 0 ? '; 0 is no region: the point lies outside' : '';
      throw wrongValue('id', 'the id of a region of the page', id, hint);
    }
    return [...bounds.subarray(4 * id, 4 * id + 4)] as Bounds;
  }

  private compose(
    part: Readonly<Bounds>,
    backdrop: readonly [number, number, number],
  ): ReturnType<typeof paintPart> {
    const { palette, ground } = this.state.assigned;
    const { width, height } = this.source;
    const indices = { data: this.rasters.indices, width, height, channels: 1 };
    const flats = { indices, palette, ...(ground === undefined ? {} : { ground }) };
    const sheet = paintPart(flats, part, backdrop);
    this.line.lay(part, sheet);
    return sheet;
  }

  /** Makes a state the page's own. Nothing of this throws. */
  private show(state: PageState, out: OutStorage): PageUpdate {
    const before = this.state;
    const { width } = this.source;
    const repainted = this.write(before, state);
    this.state = state;
    const { bounds, ids } = repainted;
    writeOut(out, this.written, this.rasters, width, bounds);
    this.writePicture(out, bounds);
    this.written = out;
    const [was, is] = [before.measured.areas, state.measured.areas];
    const sorted = [...ids].sort((a, b) => a - b);
    const there = (areas: Int32Array, id: number): boolean => (areas[id] ?? 0) > 0;
    return {
      flats: this.flats,
      labels: this.labels,
      report: state.report,
      changed: bounds,
      addedIds: sorted.filter((id) => !there(was, id) && there(is, id)),
      goneIds: sorted.filter((id) => there(was, id) && !there(is, id)),
      changedIds: sorted.filter((id) => there(was, id) && there(is, id)),
    };
  }

  private write(before: PageState, state: PageState): Repainted {
    const { width, height } = this.source;
    const { palette } = state.assigned;
    const fits = palette.length > 256 === this.rasters.indices instanceof Uint16Array;
    if (!fits) {
      const indices = indexStorage(width * height, palette.length);
      this.rasters = { labels: this.rasters.labels, indices };
    }
    const repainted = writeChanges(before, state, this.rasters, width);
    if (!fits) writeAll(state, this.rasters, width);
    return fits ? repainted : { ...repainted, bounds: [0, 0, width, height] };
  }

  private writePicture({ picture }: OutStorage, changed: Bounds | null): void {
    if (picture === undefined) return;
    const [width, height] = this.size;
    const part = isSame(picture, this.written.picture) ? changed : ([0, 0, width, height] as const);
    if (part === null) return;
    const sheet = this.compose(part, [128, 128, 128]);
    const row = 4 * (part[2] - part[0]);
    for (let y = part[1], k = 0; y < part[3]; y++, k += row) {
      picture.set(sheet.subarray(k, k + row), 4 * (y * width + part[0]));
    }
  }
}

/** The drawing, found anew where the plan asks for its ink to be measured in another way. */
function readAgain(
  source: Source,
  { drawing, plan }: PageState,
  next: Plan,
  ticks: Ticks<LayProgress['stage']>,
): PageState['drawing'] {
  if (source.pixels === undefined) return drawing;
  const asks = ({ settings }: Plan): string =>
    JSON.stringify([settings?.coverage ?? {}, settings?.threshold ?? {}]);
  if (asks(plan) === asks(next)) return drawing;
  return readDrawing(source, next.settings ?? {}, undefined, ticks);
}

function storageFor({ drawing: { width, height }, assigned }: PageState): PageRasters {
  const size = width * height;
  return { labels: new Int32Array(size), indices: indexStorage(size, assigned.palette.length) };
}
