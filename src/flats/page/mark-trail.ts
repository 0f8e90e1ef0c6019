import type { Swatch } from '../../palette/types.ts';
import type { Tick } from '../../raster/progress.ts';
import { followMarks } from '../follow-marks.ts';
import { Acting } from '../marks/acting.ts';
import type { Mark } from '../marks/table.ts';
import { RunMap } from './run-map.ts';
import type { Unmarked } from './unmarked.ts';

/** Stops that are kept: of the plans before, where they end and where they part. */
const STOPS = 4;

/** What the first marks of a plan have made of the regions. */
interface Stop {
  /** The marks, as text, and before them the palette. */
  readonly texts: readonly string[];
  readonly map: RunMap;
  readonly told: Pick<Acting, 'conflicts' | 'unlabeled' | 'notes'>;
}

/**
 * Lets marks act. Where plans begin with the same marks on the same regions, these act once: the trail
 * keeps what they left.
 */
export class MarkTrail {
  /** Where others may start, the last one that was used first. */
  private stops: Stop[] = [];
  /** Of the plan that was followed last. */
  private last: readonly string[] = [];

  /** `palette` holds `bare`, then the plan's own. O(marks) beside what the marks do that are new. */
  follow(
    unmarked: Unmarked,
    palette: readonly Swatch[],
    marks: readonly Mark[],
    acts: readonly boolean[],
    tick: Tick | undefined,
  ): { map: RunMap; acting: Acting } {
    const texts = [
      JSON.stringify(palette),
      ...marks.map((mark, i) => (acts[i] ? JSON.stringify(mark) : '')),
    ];
    const stop = this.stopFor(unmarked, texts);
    const map = stop === undefined ? new RunMap(unmarked) : stop.map.copy(unmarked);
    const acting = new Acting(map, palette, undefined);
    for (const key of ['conflicts', 'unlabeled', 'notes'] as const) {
      for (const one of stop?.told[key] ?? []) (acting[key] as (typeof one)[]).push(one);
    }
    let from = stop === undefined ? 0 : stop.texts.length - 1;
    const parting = commonLength(this.last, texts) - 1;
    for (const to of [parting, marks.length]) {
      if (to <= from) continue;
      followMarks(marks, acts, acting, tick, [from, to]);
      from = to;
      this.keep(unmarked, texts.slice(0, to + 1), map, acting);
    }
    this.last = texts;
    return { map, acting };
  }

  /** The stop that lies farthest along. */
  private stopFor(unmarked: Unmarked, texts: readonly string[]): Stop | undefined {
    let best: Stop | undefined;
    for (const stop of this.stops) {
      const { length } = stop.texts;
      if (!stop.map.isOn(unmarked) || commonLength(stop.texts, texts) < length) continue;
      if (best === undefined || length > best.texts.length) best = stop;
    }
    if (best !== undefined) this.stops = [best, ...this.stops.filter((stop) => stop !== best)];
    return best;
  }

  private keep(unmarked: Unmarked, texts: readonly string[], map: RunMap, acting: Acting): void {
    const { conflicts, unlabeled, notes } = acting;
    const told = {
      conflicts: [...conflicts],
      unlabeled: [...unlabeled],
      notes: [...notes],
    };
    this.stops.unshift({ texts, map: map.copy(unmarked), told });
    this.stops.length = Math.min(this.stops.length, STOPS);
  }
}

function commonLength(a: readonly string[], b: readonly string[]): number {
  let length = 0;
  while (length < a.length && length < b.length && a[length] === b[length]) length++;
  return length;
}
