import type { RunStore } from './run-store.ts';
import { findRoot, singleSets } from './union.ts';

/** A flood of one piece. */
export interface Flood {
  /** Runs that it has found, each with its row behind it. */
  readonly found: number[];
  /** Those from which it goes on. */
  readonly ahead: number[];
  /** How many of `ahead` have been gone on from. */
  at: number;
}

/** Calls for the runs beside one of row `y`, with their rows. */
type EachBeside = (run: number, y: number, visit: (other: number, row: number) => void) => void;

/**
 * Lets floods of runs go on, a run at a time each, until one is left; gives those that ended before.
 * Floods that meet are one from then on. O(runs of those that end, times their number).
 */
export function floodsThatEnd(
  floods: readonly Flood[],
  store: RunStore,
  eachBeside: EachBeside,
): Flood[] {
  const { marks } = store;
  const ended: Flood[] = [];
  const base = store.stamp + 1;
  store.stamp += floods.length;
  const leader = singleSets(floods.length);
  floods.forEach(({ found }, i) => {
    marks[found[0]!] = base + i;
  });
  let left = floods.length;
  /** Goes from a flood to a run; gives the flood that it is part of then. */
  const reach = (own: number, run: number, y: number): number => {
    const flood = floods[own]!;
    if (marks[run]! < base) {
      marks[run] = base + own;
      flood.found.push(run, y);
      flood.ahead.push(run, y);
      return own;
    }
    const other = findRoot(leader, marks[run]! - base);
    if (other === own) return own;
    const isMore = flood.found.length >= floods[other]!.found.length;
    const [keep, drop] = isMore ? [own, other] : [other, own];
    const [more, less] = [floods[keep]!, floods[drop]!];
    for (const one of less.found) more.found.push(one);
    for (let k = less.at; k < less.ahead.length; k++) more.ahead.push(less.ahead[k]!);
    leader[drop] = keep;
    left--;
    return keep;
  };
  let going = floods.map((_, i) => i);
  while (left > 1) {
    for (const i of going) {
      if (leader[i] !== i || left === 1) continue;
      const flood = floods[i]!;
      if (flood.at === flood.ahead.length) {
        ended.push(flood);
        leader[i] = -1;
        left--;
        continue;
      }
      const [run, y] = [flood.ahead[flood.at]!, flood.ahead[flood.at + 1]!];
      flood.at += 2;
      let own = i;
      eachBeside(run, y, (other, row) => {
        own = reach(own, other, row);
      });
    }
    going = going.filter((i) => leader[i] === i);
  }
  return ended;
}
