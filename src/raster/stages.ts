import { checkCallback } from './checks.ts';
import { wrongKind } from './errors.ts';
import type { Tick } from './progress.ts';

/** What an `AbortSignal` has that long calls look at; it needs no types of the DOM. */
export interface AbortSignalLike {
  /** Throws the reason once the call is to end. */
  throwIfAborted(): void;
}

/** How far a call of several stages has come. */
interface StageProgress<S extends string> {
  readonly stage: S;
  /** Share of the stage that is done, 0 to 1. */
  readonly done: number;
}

/** Options that say who is told of the progress, and what may end the call. */
interface Watched<S extends string> {
  readonly onProgress?: ((progress: StageProgress<S>) => void) | undefined;
  readonly signal?: AbortSignalLike | undefined;
}

/** Makes the tick of a part of a stage; none where nobody asks. */
export type Ticks<S extends string> = (stage: S, from?: number, to?: number) => Tick | undefined;

/** A signal, or undefined. */
export function checkSignal(signal: AbortSignalLike | undefined): AbortSignalLike | undefined {
  if (signal !== undefined && typeof signal?.throwIfAborted !== 'function') {
    throw wrongKind('signal', 'an AbortSignal', signal);
  }
  return signal;
}

/** Ticks that look at the signal, whose reason they throw, and tell the progress. */
export function ticksOf<S extends string>({ onProgress, signal }: Watched<S>): Ticks<S> {
  checkCallback(onProgress, 'onProgress');
  checkSignal(signal);
  if (onProgress === undefined && signal === undefined) return () => undefined;
  return (stage, from = 0, to = 1) =>
    (done) => {
      signal?.throwIfAborted();
      onProgress?.({ stage, done: from + (to - from) * done });
    };
}
