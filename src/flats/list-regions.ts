import { flatsArgument } from '../palette/flats-argument.ts';
import { BARE } from '../palette/swatches.ts';
import type { FlatsLike } from '../palette/types.ts';
import { checkSameSize, labelsArgument, maskArgument } from '../raster/arguments.ts';
import { wrongKind } from '../raster/errors.ts';
import { checkMaskValues } from '../raster/mask-values.ts';
import type { Bounds, LabelsLike, MaskLike, Point } from '../raster/types.ts';
import { adjacencyOf } from '../regions/adjacency.ts';
import { columnLength } from '../regions/columns.ts';
import { inscribedDiscs } from '../regions/inscribed.ts';
import { measureSpans } from '../regions/measure.ts';
import type { PlanReport } from './assign.ts';
import { borderRegions } from './ground.ts';

/** What `layFlats` or `applyPlan` gives, or labels with what is known beside them. */
export interface LaidRegions {
  readonly labels: LabelsLike;
  readonly flats?: FlatsLike | undefined;
  /** Ink that the regions have grown under. */
  readonly ink?: MaskLike | undefined;
  /** The same with the gaps closed, which counts where it is given. */
  readonly sealed?: MaskLike | undefined;
  /** Says what no mark names. */
  readonly report?: Pick<PlanReport, 'unnamed' | 'groundIds'> | undefined;
}

/** A row of the table of regions. */
export interface Region {
  readonly id: number;
  /**
   * Center of its widest inscribed disc on paper, the center of a pixel: a point that a mark can
   * use. Ties go to the first pixel, row by row.
   */
  readonly inside: Point;
  /**
   * Distance from there to the center of the nearest pixel that is not its paper, in pixels; what
   * lies beyond the picture counts as such.
   */
  readonly radius: number;
  /** Pixels. */
  readonly area: number;
  readonly bounds: Bounds;
  /** The swatch at `inside`; left out without flats and where they are bare. */
  readonly swatch?: string;
  /** Whether a mark names it. */
  readonly named: boolean;
  /** Whether its paper touches the picture's border. */
  readonly border: boolean;
  /** Regions beside it, the longest common border first, ties to the lower id. */
  readonly neighbors: readonly RegionNeighbor[];
}

export interface RegionNeighbor {
  readonly id: number;
  /** Pixel edges between the two. */
  readonly length: number;
}

/**
 * The table of regions: where each is, how large, what lies beside it, and whether a mark names it.
 *
 * Paper is what is off the ink, with `sealed` off the closed gaps too; without any ink every pixel
 * is. A region that has no paper has its widest disc among all its pixels.
 *
 * Without a report no mark is known; then a region counts as named that has a swatch, unless this is
 * the ground's and the region touches the border, or a placeholder with the name of its place.
 *
 * @param laid - The result of `layFlats` or `applyPlan`, or `{ labels, flats?, ink? }`.
 * @returns By id. O(pixels + regions + pairs · log).
 * @throws TypeError or RangeError for rasters that are none, or whose sizes differ.
 * @example
 * ```ts
 * import { listRegions, raster } from 'underink';
 * const labels = raster(new Int32Array([1, 1, 1, 2, 1, 1, 1, 2, 1, 1, 1, 2]), [4, 3]);
 * const [first] = listRegions({ labels });
 * console.log(first?.inside, first?.radius, first?.area); // [ 1.5, 1.5 ] 2 9
 * console.log(first?.neighbors); // [ { id: 2, length: 3 } ]
 * ```
 */
export function listRegions(laid: LaidRegions): Region[] {
  const { data, width, height, ink, flats, report } = readLaid(laid);
  const length = columnLength(data, 'labels');
  const { area, bounds } = measureSpans(data, width, height, length);
  const { center, square } = inscribedDiscs(data, width, height, length, ink);
  const border = borderRegions(data, width, height, ink);
  const neighbors = neighborLists(data, width, height, length);
  const unnamed = report && new Set(report.unnamed.map(({ id }) => id).concat(report.groundIds));
  const regions: Region[] = [];
  for (let id = 1; id < length; id++) {
    if (area[id] === 0) continue;
    const at = center[id]!;
    const [x, y] = [at % width, Math.floor(at / width)];
    const swatch = flats === undefined ? BARE : flats.palette[flats.indices.data[at]!]!.name;
    const isGround = border.has(id) && swatch === flats?.ground;
    const isPlaceholder = swatch === `region ${x},${y}`;
    regions.push({
      id,
      inside: [x + 0.5, y + 0.5],
      radius: Math.sqrt(square[id]!),
      area: area[id]!,
      bounds: [...bounds.subarray(4 * id, 4 * id + 4)] as Bounds,
      ...(swatch === BARE ? {} : { swatch }),
      named: swatch !== BARE && !(unnamed?.has(id) ?? (isGround || isPlaceholder)),
      border: border.has(id),
      neighbors: neighbors[id] ?? [],
    });
  }
  return regions;
}

/** Labels with what is laid on them, checked; `ink` is the sealed one where there is one. */
export function readLaid(laid: LaidRegions): {
  data: Int32Array;
  width: number;
  height: number;
  ink: Uint8Array | undefined;
  flats: ReturnType<typeof flatsArgument> | undefined;
  report: LaidRegions['report'];
} {
  if (typeof laid !== 'object' || laid === null || !('labels' in laid)) {
    throw wrongKind('laid', 'what layFlats gives, or { labels, flats?, ink? }', laid);
  }
  const dense = labelsArgument(laid.labels, 'labels');
  const name = laid.sealed === undefined ? 'ink' : 'sealed';
  const mask = laid[name] === undefined ? undefined : maskArgument(laid[name], name);
  if (mask !== undefined) {
    checkSameSize(dense, 'labels', mask, name);
    checkMaskValues(mask, name);
  }
  const flats = laid.flats === undefined ? undefined : flatsArgument(laid.flats, 'flats');
  if (flats !== undefined) checkSameSize(dense, 'labels', flats.indices, 'flats');
  const { data, width, height } = dense;
  return { data, width, height, ink: mask?.data, flats, report: laid.report };
}

function neighborLists(
  labels: Int32Array,
  width: number,
  height: number,
  length: number,
): (RegionNeighbor[] | undefined)[] {
  const lists = new Array<RegionNeighbor[] | undefined>(length).fill(undefined);
  const pairs = adjacencyOf(labels, width, height);
  const link = (from: number, id: number, edges: number): void => {
    lists[from] ??= [];
    lists[from].push({ id, length: edges });
  };
  for (let k = 0; k < pairs.a.length; k++) {
    link(pairs.a[k]!, pairs.b[k]!, pairs.borderLength[k]!);
    link(pairs.b[k]!, pairs.a[k]!, pairs.borderLength[k]!);
  }
  for (const list of lists) list?.sort((p, q) => q.length - p.length || p.id - q.id);
  return lists;
}
