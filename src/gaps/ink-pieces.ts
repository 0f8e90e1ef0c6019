import type { Packed } from '../runs/pack.ts';
import { findRuns, type Runs, runAt } from '../runs/runs.ts';
import { connectRuns } from '../runs/union.ts';

/** The 8-connected pieces of ink. O(runs); 12 bytes per run. */
export class InkPieces {
  readonly inkPixels: number;
  private readonly runs: Runs;
  private readonly ids: Int32Array;
  private readonly areas: Float64Array;

  constructor(packed: Packed) {
    this.runs = findRuns(packed, 1);
    const { ids, count } = connectRuns(this.runs, 8);
    const { start, end } = this.runs;
    this.ids = ids;
    this.areas = new Float64Array(count + 1);
    let inkPixels = 0;
    for (let r = 0; r < ids.length; r++) {
      const length = end[r]! - start[r]!;
      this.areas[ids[r]!]! += length;
      inkPixels += length;
    }
    this.inkPixels = inkPixels;
  }

  /** The piece at a pixel; 0 on paper. */
  of(x: number, y: number): number {
    const run = runAt(this.runs, x, y);
    return run < 0 ? 0 : this.ids[run]!;
  }

  area(piece: number): number {
    return this.areas[piece]!;
  }
}
