import { formatColor } from '../color/hex.ts';
import { maskByRule, type ThresholdRule } from '../ink/apply-threshold.ts';
import { type CoverageRule, coverByRule } from '../ink/coverage.ts';
import { maskAbove } from '../ink/mask-above.ts';
import type { ThresholdChoice } from '../ink/threshold-table.ts';
import {
  checkSameSize,
  coverageArgument,
  maskArgument,
  pixelsArgument,
} from '../raster/arguments.ts';
import { checkOptions } from '../raster/checks.ts';
import { checkMaskValues } from '../raster/mask-values.ts';
import { partOf, type Tick } from '../raster/progress.ts';
import type {
  CoverageLike,
  Dense,
  MaskLike,
  Owned,
  PixelData,
  PixelsLike,
} from '../raster/types.ts';

/**
 * An ink mask made elsewhere; with the coverage it was made of, regions meet on the darkest ridge of
 * the ink.
 */
export interface InkInput {
  readonly ink: MaskLike;
  readonly coverage?: CoverageLike | undefined;
}

/** Line art as kernels see it: pixels, or ink with the coverage it was made of. */
export interface Source {
  readonly width: number;
  readonly height: number;
  readonly pixels?: Dense<PixelData>;
  readonly ink?: Dense<Uint8Array>;
  readonly coverage?: Uint8Array;
}

/** Checks what `layFlats` is given. */
export function readInput(input: PixelsLike | InkInput): Source {
  refuseStrayInput(input);
  if (typeof input !== 'object' || input === null || !('ink' in input)) {
    const pixels = pixelsArgument(input as PixelsLike, 'pixels');
    return { width: pixels.width, height: pixels.height, pixels };
  }
  checkOptions(input, 'an input of layFlats', ['ink', 'coverage']);
  const ink = maskArgument(input.ink, 'ink');
  checkMaskValues(ink, 'ink');
  const { width, height } = ink;
  if (input.coverage === undefined) return { width, height, ink };
  const coverage = coverageArgument(input.coverage, 'coverage');
  checkSameSize(ink, 'ink', coverage, 'coverage');
  return { width, height, ink, coverage: coverage.data };
}

/** What may come in place of line art, with what to pass instead. */
function refuseStrayInput(input: unknown): void {
  if (typeof input !== 'object' || input === null) return;
  if ('version' in input && 'marks' in input) {
    throw new TypeError(
      'pixels must be line art, got a plan; pass it as layFlats(pixels, { plan })',
    );
  }
  if ('sealed' in input && 'flats' in input) {
    throw new TypeError(
      'pixels must be line art, got what layFlats gives; pass its { ink } instead',
    );
  }
}

/** Ink in storage of its own, and how it was found. */
export interface FoundInk {
  readonly ink: Owned<Uint8Array>;
  readonly inkPixels: number;
  /** What the ink was measured by; undefined where the ink came alone. */
  readonly coverage: Uint8Array | undefined;
  readonly paper?: string;
  readonly threshold?: ThresholdChoice;
}

/** Finds the ink of pixels, or copies the one that is given. */
export function findInk(
  { pixels, ink, coverage, width, height }: Source,
  measure: CoverageRule,
  rule: ThresholdRule,
  tick: Tick | undefined,
): FoundInk {
  const own = new Uint8Array(width * height);
  if (ink !== undefined) {
    return { ink: own, inkPixels: maskAbove(ink.data, 0, own, tick), coverage };
  }
  const measured = new Uint8Array(width * height);
  const paper = coverByRule(pixels!, measure, measured, partOf(tick, 0, 0.8));
  const last = partOf(tick, 0.8, 1);
  const { choice, ink: inkPixels } = maskByRule(rule, measured, width, height, own, last);
  tick?.(1);
  const name = typeof paper === 'string' ? paper : formatColor(...paper);
  return { ink: own, inkPixels, coverage: measured, paper: name, threshold: choice };
}
