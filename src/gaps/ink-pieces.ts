import type { Packed } from '../runs/pack.ts';
import { findRuns, type Runs, runAt } from '../runs/runs.ts';
import { componentAreas, connectRuns } from '../runs/union.ts';

/** The 8-connected pieces of ink. O(runs); 12 bytes per run. */
export class InkPieces {
  readonly inkPixels: number;
  private readonly runs: Runs;
  private readonly ids: Int32Array;
  private readonly areas: Int32Array;

  constructor(packed: Packed) {
    this.runs = findRuns(packed, 1);
    const pieces = connectRuns(this.runs, 8);
    this.ids = pieces.ids;
    this.areas = componentAreas(this.runs, pieces);
    this.inkPixels = this.areas.reduce((sum, area) => sum + area, 0);
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
