import { FARTHEST, squaredDistance } from '../distance/squared-distance.ts';
import type { Flats, Swatch } from '../palette/types.ts';
import type { Tick } from '../raster/progress.ts';
import { raster } from '../raster/raster.ts';
import type { Connectivity, Coverage, Labels, Mask, MaskLike } from '../raster/types.ts';
import { adjacencyOf, type RegionAdjacency } from '../regions/adjacency.ts';
import type { Labeling } from '../regions/label.ts';
import { labelEqual } from '../regions/label-equal.ts';
import { measureRegions, type RegionColumns } from '../regions/measure.ts';
import type { Finding } from './finding.ts';
import type { LaidReport } from './laid-report.ts';
import { describePlace, placesOfMask } from './places.ts';
import type { ReadSheet } from './read-sheet.ts';

/** What a check sees. What costs time is worked out when it is first asked for, once for all checks. */
export interface CheckContext {
  /** `[width, height]` in pixels. */
  readonly size: readonly [number, number];
  /** The flats; of a picture, pixels that are `blended` or `off` have index 0. */
  readonly flats: Flats;
  /** What the flats may hold: the palette that was given, or their own; without `bare`. */
  readonly palette: readonly Swatch[];
  /** 1 where a pixel of a picture is blended; undefined for flats. */
  readonly blended: Mask | undefined;
  /** 1 where a pixel has a color that the palette lacks; undefined where no palette was given. */
  readonly off: Mask | undefined;
  /** The ink over the flats, where it was given, or coverage above 127. */
  readonly ink: Mask | undefined;
  readonly coverage: Coverage | undefined;
  /** What `layFlats` reported, where it was given. */
  readonly report: LaidReport | undefined;
  /** The 4-connected regions of one swatch, 1..n by first pixel, row by row; 0 where bare. */
  readonly labels: Labels;
  /** Their measures, by id. */
  readonly regions: RegionColumns;
  /** Index of the swatch of each, by id. */
  readonly regionSwatch: Uint16Array;
  /** Which of them share a border. */
  readonly adjacency: RegionAdjacency;
  /** Squared distance to the nearest ink, between pixel centers; 46,340² where there is none. */
  readonly squaredInkDistance: Labels;
  /** The connected places of a mask, in the order of first pixels; spread one into what is found. */
  places(
    mask: MaskLike,
    connectivity?: Connectivity,
  ): Required<Pick<Finding, 'at' | 'bounds' | 'area' | 'spans'>>[];
  /** To be called now and then by a long check with the share that is done, 0 to 1. */
  tick(done: number): void;
}

/** What a context stands on. */
export interface ContextParts extends ReadSheet {
  readonly ink: Mask | undefined;
  readonly coverage: Coverage | undefined;
  readonly report: LaidReport | undefined;
}

/** The context of one sheet for all its checks; `look` is called by their ticks. */
export class SheetContext implements CheckContext {
  readonly size: readonly [number, number];
  readonly flats: Flats;
  readonly palette: readonly Swatch[];
  readonly blended: Mask | undefined;
  readonly off: Mask | undefined;
  readonly ink: Mask | undefined;
  readonly coverage: Coverage | undefined;
  readonly report: LaidReport | undefined;
  readonly tick: Tick;
  private ownLabeling: Labeling | undefined;
  private ownRegions: RegionColumns | undefined;
  private ownSwatches: Uint16Array | undefined;
  private ownAdjacency: RegionAdjacency | undefined;
  private ownDistance: Labels | undefined;

  constructor(parts: ContextParts, tick: Tick) {
    const [width, height] = parts.flats.indices.shape as [number, number];
    this.size = [width, height];
    this.flats = parts.flats;
    this.palette = parts.allowed ?? parts.flats.palette.slice(1);
    this.blended = parts.blended;
    this.off = parts.off;
    this.ink = parts.ink;
    this.coverage = parts.coverage;
    this.report = parts.report;
    this.tick = tick;
  }

  get labels(): Labels {
    return this.labeling().labels;
  }

  private labeling(): Labeling {
    this.ownLabeling ??= labelEqual(this.flats.indices, { background: 0 });
    return this.ownLabeling;
  }

  get regions(): RegionColumns {
    this.ownRegions ??= measureRegions(this.labels);
    return this.ownRegions;
  }

  get regionSwatch(): Uint16Array {
    if (this.ownSwatches === undefined) {
      const { labels, count } = this.labeling();
      const ids = labels.data;
      const { data } = this.flats.indices;
      this.ownSwatches = new Uint16Array(count + 1);
      for (let i = 0; i < ids.length; i++) this.ownSwatches[ids[i]!] = data[i]!;
    }
    return this.ownSwatches;
  }

  get adjacency(): RegionAdjacency {
    const [width, height] = this.size;
    this.ownAdjacency ??= adjacencyOf(this.labels.data, width, height, this.tick);
    return this.ownAdjacency;
  }

  get squaredInkDistance(): Labels {
    if (this.ownDistance === undefined) {
      const [width, height] = this.size;
      const squares =
        this.ink === undefined
          ? new Int32Array(width * height).fill(FARTHEST * FARTHEST)
          : squaredDistance(this.ink.data, width, height);
      this.ownDistance = raster(squares, [width, height]);
    }
    return this.ownDistance;
  }

  places(
    mask: MaskLike,
    connectivity: Connectivity = 8,
  ): Required<Pick<Finding, 'at' | 'bounds' | 'area' | 'spans'>>[] {
    return placesOfMask(mask, connectivity).map(({ spans }) => describePlace(spans));
  }
}
