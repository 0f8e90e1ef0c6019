/** Called now and then by a long kernel with the share of its work that is done, 0 to 1. */
export type Tick = (done: number) => void;

/** A tick for a kernel that does the part of the work from one share to another. */
export function partOf(tick: Tick | undefined, from: number, to: number): Tick | undefined {
  return tick && ((done) => tick(from + (to - from) * done));
}

/** Rows between two ticks: about a millisecond's work on a page that is 10,000 pixels wide. */
export const TICK_ROWS = 64;

/** The same for kernels that do not go by rows. */
export const TICK_PIXELS: number = 1 << 19;

/** And for those whose steps jump about in memory: at most about 10 ms of work. */
export const TICK_STEPS: number = 1 << 16;
