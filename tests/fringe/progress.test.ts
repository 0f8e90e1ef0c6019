import { describe, expect, it } from 'vitest';
import { type HardenEdgesProgress, hardenEdges } from '../../src/fringe/harden-edges.ts';
import { raster } from '../../src/raster/raster.ts';
import { seeded } from '../support/random.ts';

/** Bars with soft edges, or with noise all over. */
function bars(noise: number) {
  const [w, h] = [300, 260];
  const random = seeded(7);
  const gray = Uint8Array.from({ length: w * h }, (_, i) => {
    const step = (i % w) % 40;
    const soft = step < 19 ? 30 : step === 19 ? 90 : step < 39 ? 200 : 140;
    return soft + noise * (random() - 0.5);
  });
  return raster(gray, [w, h]);
}

const STAGES = ['colors', 'noise', 'blends', 'flats'];

describe.each([
  ['clean', 0],
  ['noisy', 12],
])('hardenEdges of a %s picture', (_, noise) => {
  const picture = bars(noise);

  it('tells how far it has come, stage by stage, and gives the same flats', () => {
    const seen: HardenEdgesProgress[] = [];
    const flats = hardenEdges(picture, { onProgress: (progress) => seen.push(progress) });
    expect(flats).toEqual(hardenEdges(picture));
    expect([...new Set(seen.map(({ stage }) => stage))]).toEqual(STAGES);
    let last = { stage: 'colors', done: 0 };
    for (const progress of seen) {
      const [now, before] = [progress, last].map(({ stage }) => STAGES.indexOf(stage));
      expect(now! * 2 + progress.done).toBeGreaterThanOrEqual(before! * 2 + last.done);
      expect(progress.done).toBeLessThanOrEqual(1);
      last = progress;
    }
    expect(last).toEqual({ stage: 'flats', done: 1 });
  });

  it('ends with what the callback throws, or with the reason of the signal, in any stage', () => {
    for (const stop of STAGES) {
      const thrown = new Error(`at ${stop}`);
      const onProgress = ({ stage }: HardenEdgesProgress) => {
        if (stage === stop) throw thrown;
      };
      expect(() => hardenEdges(picture, { onProgress })).toThrow(thrown);
      const controller = new AbortController();
      const abort = ({ stage }: HardenEdgesProgress) => {
        if (stage === stop) controller.abort(thrown);
      };
      const { signal } = controller;
      const call = () => hardenEdges(picture, { onProgress: abort, signal });
      expect(call).toThrow(thrown);
    }
    const signal = AbortSignal.abort();
    expect(() => hardenEdges(picture, { signal })).toThrow(signal.reason);
    expect(() => hardenEdges(picture, { signal: true as never })).toThrow(
      new TypeError('signal must be an AbortSignal, got true'),
    );
  });

  it('takes undefined for every option', () => {
    const none = {
      palette: undefined,
      gather: undefined,
      light: undefined,
      onProgress: undefined,
      signal: undefined,
    };
    expect(hardenEdges(picture, none)).toEqual(hardenEdges(picture));
  });
});
