import type { Tick } from '../../raster/progress.ts';
import type { AbortSignalLike } from '../../raster/stages.ts';
import type { Dense } from '../../raster/types.ts';
import type { LayProgress } from '../grow-regions.ts';
import { type CarryTransform, findTransform, LEAST_CONFIDENCE } from './find-transform.ts';
import { checkSimilarity, type Similarity } from './similarity.ts';

/** How far carrying over has come. */
export interface CarryProgress {
  readonly stage: CarryStage;
  /** Share of the stage that is done, 0 to 1. */
  readonly done: number;
}

export type CarryStage = LayProgress['stage'] | 'transform' | 'evidence' | 'match';

export interface CarryOptions {
  /** From the old picture to the new one. @default estimated from the two inks */
  readonly transform?: Similarity | undefined;
  /** Called at least every 50 ms. What it throws ends the call and reaches the caller. */
  readonly onProgress?: ((progress: CarryProgress) => void) | undefined;
  /** Looked at as often as `onProgress` is called: its reason is thrown. @default none */
  readonly signal?: AbortSignalLike | undefined;
}

export const CARRY_OPTIONS = ['transform', 'onProgress', 'signal'] as const;

/** The transform that is given, or estimated; one that is not sure enough is refused. */
export function transformFor(
  { transform }: CarryOptions,
  from: Dense<Uint8Array>,
  to: Dense<Uint8Array>,
  tick: Tick | undefined,
): CarryTransform {
  tick?.(0);
  if (transform !== undefined) {
    return { ...checkSimilarity(transform, 'transform'), confidence: 1 };
  }
  const found = findTransform(from, to, tick);
  if (found.confidence >= LEAST_CONFIDENCE) return found;
  throw new RangeError(
    'toInk must show the drawing of fromInk: the best transform between them has a confidence of ' +
      `${found.confidence.toFixed(2)}, below ${LEAST_CONFIDENCE}; an option transform says it`,
  );
}
