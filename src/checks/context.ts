import { FARTHEST, squaredDistance } from '../distance/squared-distance.ts';
import type { Flats, Swatch } from '../palette/types.ts';
import { TICK_PIXELS, type Tick } from '../raster/progress.ts';
import { raster } from '../raster/raster.ts';
import type { Connectivity, Coverage, Labels, Mask, MaskLike } from '../raster/types.ts';
import { adjacencyOf, type RegionAdjacency } from '../regions/adjacency.ts';
import type { Labeling } from '../regions/label.ts';
import { labelValues } from '../regions/label-equal.ts';
import { measureLabels, type RegionColumns } from '../regions/measure.ts';
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

/** The context of one sheet for all its checks; `tick` is what long ones call. */
export function sheetContext(parts: ContextParts, tick: Tick): CheckContext {
  const { flats, ink, allowed, ...others } = parts;
  const { data, shape } = flats.indices;
  const [width, height] = shape as [number, number];
  const labeling = once(() => {
    const { labels, count } = labelValues({ data, width, height, channels: 1 }, 4, 0, tick);
    return { labels: raster(labels, [width, height]), count };
  });
  const regions = once(() => {
    const { labels, count } = labeling();
    return measureLabels(labels.data, width, height, count + 1, tick);
  });
  const regionSwatch = once(() => swatchesOf(labeling(), data, tick));
  const adjacency = once(() => adjacencyOf(labeling().labels.data, width, height, tick));
  const squaredInkDistance = once(() => {
    const squares =
      ink === undefined
        ? new Int32Array(width * height).fill(FARTHEST * FARTHEST)
        : squaredDistance(ink.data, width, height, tick);
    return raster(squares, [width, height]);
  });
  return {
    ...others,
    size: [width, height],
    flats,
    palette: allowed ?? flats.palette.slice(1),
    ink,
    get labels() {
      return labeling().labels;
    },
    get regions() {
      return regions();
    },
    get regionSwatch() {
      return regionSwatch();
    },
    get adjacency() {
      return adjacency();
    },
    get squaredInkDistance() {
      return squaredInkDistance();
    },
    places: (mask, connectivity = 8) =>
      placesOfMask(mask, connectivity, tick).map(({ spans }) => describePlace(spans)),
    tick,
  };
}

function once<T>(make: () => T): () => T {
  let made: { readonly value: T } | undefined;
  return () => {
    made ??= { value: make() };
    return made.value;
  };
}

/** Index of the swatch of each region, by id. */
function swatchesOf(
  { labels, count }: Labeling,
  data: Uint8Array | Uint16Array,
  tick: Tick,
): Uint16Array {
  const ids = labels.data;
  const swatches = new Uint16Array(count + 1);
  for (let i = 0; i < ids.length; i++) {
    if (i % TICK_PIXELS === 0) tick(i / ids.length);
    swatches[ids[i]!] = data[i]!;
  }
  return swatches;
}
