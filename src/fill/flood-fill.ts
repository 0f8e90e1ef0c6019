import { checkOneOf, checkOptions } from '../raster/checks.ts';
import { targetArgument } from '../raster/target.ts';
import type { Bounds, Changed, Dense, Point, RasterLike } from '../raster/types.ts';
import { checkValue, type PixelValue } from '../raster/value.ts';
import { flood, type RunSink } from './flood.ts';
import { matcherFor } from './matcher.ts';
import { checkMatch, checkSeed, type FloodOptions, samplesAt } from './options.ts';
import { writeRun } from './write-run.ts';

/**
 * Changes `target`: gives the pixels that hang together with a seed, and are like it, a value.
 *
 * Which pixels those are is said at `floodRegion`. Time and memory are as there, and a copy of a
 * target that is not dense.
 *
 * @param target - `[w, h]` or `[w, h, 1 to 4]` of any sample type.
 * @param seed - `[x, y]` in continuous coordinates; the pixel is the floor.
 * @param value - A number for every channel, or one for each, that the target's samples can hold.
 * @throws TypeError or RangeError for bad arguments, before anything is changed; RangeError for a
 * barrier that shares memory with the target.
 * @example
 * ```ts
 * import { floodFill, raster } from 'underink';
 * const indices = raster(new Uint8Array([0, 0, 1, 0]), [4, 1]);
 * console.log(floodFill(indices, [0.5, 0.5], 7)); // { changed: 2, bounds: [ 0, 0, 2, 1 ] }
 * console.log(indices.data.join(' ')); // 7 7 1 0
 * ```
 */
export function floodFill(
  target: RasterLike,
  seed: Point,
  value: PixelValue,
  options?: FloodOptions,
): Changed {
  const names = ['connectivity', 'tolerance', 'barrier', 'only'] as const;
  const checked = checkOptions(options, 'floodFill', names);
  const connectivity = checkOneOf(checked.connectivity ?? 4, 'connectivity', [4, 8]);
  const { dense, commit } = targetArgument(target, 'target');
  const { width, height } = dense;
  const [x, y] = checkSeed(seed, 'seed', dense);
  const samples = checkValue(value, 'value', dense);
  const own = samplesAt(dense, x, y);
  const rule = { value: own, ...checkMatch(checked, dense, target) };
  const sameSamples = rule.tolerance.every((limit) => limit === 0);
  const sink =
    dense.channels === 1 && sameSamples
      ? new UniformSink(dense, samples[0]!, own[0]!)
      : new SampleSink(dense, samples);
  const found = flood(matcherFor(dense, rule), [width, height], [x, y], connectivity, sink);
  const changed = sink instanceof SampleSink ? sink.result() : sink.result(found);
  commit(changed.bounds);
  return changed;
}

/** Writes runs whose pixels all have one value. */
class UniformSink implements RunSink {
  private readonly target: Dense;
  private readonly value: number;
  private readonly differs: boolean;

  constructor(target: Dense, value: number, old: number) {
    this.target = target;
    this.value = value;
    this.differs = value !== old;
  }

  run(y: number, from: number, to: number): void {
    const { data, width } = this.target;
    if (this.differs) writeRun(data, this.value, y * width + from, y * width + to);
  }

  result({ area, bounds }: { area: number; bounds: Bounds | null }): Changed {
    return this.differs ? { changed: area, bounds } : { changed: 0, bounds: null };
  }
}

/** Writes runs of any pixels. */
class SampleSink implements RunSink {
  private readonly target: Dense;
  private readonly value: readonly number[];
  private changed = 0;
  private readonly bounds: Bounds;

  constructor(target: Dense, value: readonly number[]) {
    this.target = target;
    this.value = value;
    this.bounds = [target.width, target.height, 0, 0];
  }

  run(y: number, from: number, to: number): void {
    const { target, value, bounds } = this;
    const { data, width, channels } = target;
    for (let x = from; x < to; x++) {
      let differs = false;
      for (let c = 0; c < channels; c++) {
        const i = (y * width + x) * channels + c;
        if (data[i] === value[c]) continue;
        data[i] = value[c]!;
        differs = true;
      }
      if (!differs) continue;
      this.changed++;
      if (x < bounds[0]) bounds[0] = x;
      if (x >= bounds[2]) bounds[2] = x + 1;
      if (y < bounds[1]) bounds[1] = y;
      if (y >= bounds[3]) bounds[3] = y + 1;
    }
  }

  result(): Changed {
    return { changed: this.changed, bounds: this.changed === 0 ? null : this.bounds };
  }
}
