import type { Packed } from '../raster/pack.ts';
import { partOf, type Tick } from '../raster/progress.ts';
import { findRuns, type Runs, runAt } from '../runs/runs.ts';
import { componentAreas, connectRuns } from '../runs/union.ts';

/** The 8-connected pieces of ink. O(runs); 12 bytes per run. */
export class InkPieces {
  readonly inkPixels: number;
  private readonly runs: Runs;
  private readonly ids: Int32Array;
  private readonly areas: Int32Array;

  constructor(packed: Packed, tick?: Tick) {
    this.runs = findRuns(packed, 1, partOf(tick, 0, 0.4));
    const pieces = connectRuns(this.runs, 8, partOf(tick, 0.4, 0.9));
    this.ids = pieces.ids;
    this.areas = componentAreas(this.runs, pieces);
    let inkPixels = 0;
    for (let piece = 0; piece < this.areas.length; piece++) inkPixels += this.areas[piece]!;
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
