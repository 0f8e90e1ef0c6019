import type { Tick } from '../raster/progress.ts';
import type { Packed } from '../runs/pack.ts';
import { findRuns, type Runs, runAt } from '../runs/runs.ts';
import { connectRuns } from '../runs/union.ts';

/** The faces that ink and bridges, all drawn at once, cut the paper into. */
export interface FaceMap {
  /** Faces are 1..count. */
  readonly count: number;
  readonly area: Float64Array;
  /** Sides of pixels where a face meets ink, a bridge or the picture's border. */
  readonly perimeter: Float64Array;
  /** 1 where a face touches the border of the picture. */
  readonly outer: Uint8Array;
  readonly runs: Runs;
  /** Face of every run. */
  readonly ids: Int32Array;
  readonly width: number;
  readonly height: number;
}

/** O(pixels / 32 + runs + bridge pixels); 12 bytes per run. */
export function mapFaces(packed: Packed, bridges: readonly Int32Array[], tick?: Tick): FaceMap {
  const { width, height, stride } = packed;
  const words = packed.words.slice();
  for (const pixels of bridges) {
    for (const p of pixels) {
      words[Math.floor(p / width) * stride + ((p % width) >>> 5)]! |= 1 << ((p % width) & 31);
    }
  }
  const runs = findRuns({ words, width, height, stride }, 0);
  tick?.(0.4);
  const { ids, count } = connectRuns(runs, 4);
  tick?.(0.8);
  return { count, runs, ids, width, height, ...measure(runs, ids, count, width, height) };
}

/** The face of a pixel; 0 on ink and bridges. */
export function faceAt({ runs, ids }: FaceMap, x: number, y: number): number {
  const run = runAt(runs, x, y);
  return run < 0 ? 0 : ids[run]!;
}

function measure(
  { rowStart, start, end }: Runs,
  ids: Int32Array,
  count: number,
  width: number,
  height: number,
): Pick<FaceMap, 'area' | 'perimeter' | 'outer'> {
  const area = new Float64Array(count + 1);
  const perimeter = new Float64Array(count + 1);
  const outer = new Uint8Array(count + 1);
  for (let y = 0; y < height; y++) {
    const rowEnd = rowStart[y + 1]!;
    let above = y === 0 ? 0 : rowStart[y - 1]!;
    const aboveEnd = y === 0 ? 0 : rowStart[y]!;
    for (let r = rowStart[y]!; r < rowEnd; r++) {
      const face = ids[r]!;
      const [from, to] = [start[r]!, end[r]!];
      area[face]! += to - from;
      perimeter[face]! += 2 + 2 * (to - from);
      if (from === 0 || to === width || y === 0 || y === height - 1) outer[face] = 1;
      while (above < aboveEnd && end[above]! <= from) above++;
      for (let a = above; a < aboveEnd && start[a]! < to; a++) {
        perimeter[face]! -= 2 * (Math.min(to, end[a]!) - Math.max(from, start[a]!));
      }
    }
  }
  return { area, perimeter, outer };
}
