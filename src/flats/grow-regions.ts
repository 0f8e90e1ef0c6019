import { fillNearest } from '../distance/nearest-label.ts';
import { packMask } from '../raster/pack.ts';
import { partOf } from '../raster/progress.ts';
import type { Ticks } from '../raster/stages.ts';
import type { Owned } from '../raster/types.ts';
import { absorbInPlace, areasOf } from '../regions/absorb.ts';
import { labelPacked } from '../regions/label.ts';
import { floodRidges } from '../regions/ridge.ts';
import { borderRegions } from './ground.ts';
import { speckNotes } from './input-notes.ts';
import type { PlanNote } from './plan-report.ts';

/** How far `layFlats` has come. */
export interface LayProgress {
  readonly stage: 'ink' | 'gaps' | 'regions' | 'grow' | 'flats';
  /** Share of the stage that is done, 0 to 1. */
  readonly done: number;
}

export interface GrownRegions {
  readonly labels: Owned<Int32Array>;
  /** One past the highest id. */
  readonly count: number;
  readonly border: Set<number>;
  readonly absorbed: number;
  readonly specks: readonly PlanNote[];
}

/** The regions of paper, grown until they meet under the ink; written into `labels`, which hold zeros. */
export function growRegions(
  sealed: Uint8Array,
  [width, height]: readonly [number, number],
  coverage: Uint8Array | undefined,
  absorb: number,
  ticks: Ticks<LayProgress['stage']>,
  labels: Owned<Int32Array>,
): GrownRegions {
  const dense = { data: sealed, width, height, channels: 1 };
  const packed = packMask(dense, 'sealed', ticks('regions', 0, 0.5));
  const count = labelPacked(packed, 0, 4, labels, ticks('regions', 0.5, 1)) + 1;
  const border = borderRegions(labels, width, height);
  const paper = areasOf(labels, count, ticks('grow', 0, 0));
  const specks = speckNotes(paper, absorb);
  if (coverage === undefined) fillNearest(labels, width, height, ticks('grow'));
  else floodRidges(labels, coverage, width, height, ticks('grow'));
  if (absorb === 0) return { labels, count, border, absorbed: 0, specks };
  const tick = ticks('flats', 0, 0.1);
  absorbInPlace(labels, width, height, absorb, paper, partOf(tick, 0, 0.5));
  const left = regionsIn(areasOf(labels, count, partOf(tick, 0.5, 1)));
  return { labels, count, border, absorbed: count - 1 - left, specks };
}

/** Regions of which a pixel is left; 0 is none. */
function regionsIn(areas: ArrayLike<number>): number {
  let regions = 0;
  for (let id = 1; id < areas.length; id++) if (areas[id]! > 0) regions++;
  return regions;
}
