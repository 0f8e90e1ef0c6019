import { formatColor } from '../color/hex.ts';
import { maskByRule, type ThresholdRule } from '../ink/apply-threshold.ts';
import type { ThresholdChoice } from '../ink/choose-threshold.ts';
import { type CoverageRule, coverByRule } from '../ink/coverage.ts';
import { maskAbove } from '../ink/mask-above.ts';
import {
  checkSameSize,
  coverageArgument,
  maskArgument,
  pixelsArgument,
} from '../raster/arguments.ts';
import { checkOptions } from '../raster/checks.ts';
import { partOf, type Tick } from '../raster/progress.ts';
import type {
  CoverageLike,
  Dense,
  MaskLike,
  Owned,
  PixelData,
  PixelsLike,
} from '../raster/types.ts';
import { packMask } from '../runs/pack.ts';

/**
 * An ink mask made elsewhere; with the coverage it was made of, regions meet on the darkest ridge of
 * the ink.
 */
export interface InkInput {
  readonly ink: MaskLike;
  readonly coverage?: CoverageLike;
}

/** Line art as kernels see it: pixels, or ink with the coverage it was made of. */
interface Source {
  readonly width: number;
  readonly height: number;
  readonly pixels?: Dense<PixelData>;
  readonly ink?: Dense<Uint8Array>;
  readonly coverage?: Uint8Array;
}

/** Checks what `layFlats` is given. */
export function readInput(input: PixelsLike | InkInput): Source {
  if (typeof input !== 'object' || input === null || !('ink' in input)) {
    const pixels = pixelsArgument(input as PixelsLike, 'pixels');
    return { width: pixels.width, height: pixels.height, pixels };
  }
  checkOptions(input, 'an input of layFlats', ['ink', 'coverage']);
  const ink = maskArgument(input.ink, 'ink');
  packMask(ink, 'ink');
  const { width, height } = ink;
  if (input.coverage === undefined) return { width, height, ink };
  const coverage = coverageArgument(input.coverage, 'coverage');
  checkSameSize(ink, 'ink', coverage, 'coverage');
  return { width, height, ink, coverage: coverage.data };
}

/** The ink mask in storage of its own, which was the coverage's. */
export function findInk(
  { pixels, ink, width, height }: Source,
  measure: CoverageRule,
  rule: ThresholdRule,
  tick: Tick | undefined,
): { ink: Owned<Uint8Array>; inkPixels: number; paper?: string; threshold?: ThresholdChoice } {
  if (ink !== undefined) {
    const own = new Uint8Array(width * height);
    return { ink: own, inkPixels: maskAbove(ink.data, 0, own, tick) };
  }
  const coverage = new Uint8Array(width * height);
  const paper = coverByRule(pixels!, measure, coverage, partOf(tick, 0, 0.8));
  const last = partOf(tick, 0.8, 1);
  const { choice, ink: inkPixels } = maskByRule(rule, coverage, width, height, coverage, last);
  tick?.(1);
  const name = typeof paper === 'string' ? paper : formatColor(...paper);
  return { ink: coverage, inkPixels, paper: name, threshold: choice };
}
