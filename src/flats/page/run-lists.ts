import { IntList } from '../../raster/int-list.ts';
import type { Runs } from '../../runs/runs.ts';

/** Collects runs row by row, from left to right; runs that touch become one. */
export class RunList {
  private readonly rowStart: number[] = [0];
  private readonly start: IntList = new IntList();
  private readonly end: IntList = new IntList();

  put(start: number, end: number): void {
    const last = this.start.length - 1;
    if (last >= this.rowStart.at(-1)! && this.end.data[last] === start) this.end.data[last] = end;
    else {
      this.start.push(start);
      this.end.push(end);
    }
  }

  endRow(): void {
    this.rowStart.push(this.start.length);
  }

  finish(): Runs {
    const { rowStart, start, end } = this;
    return { rowStart: Int32Array.from(rowStart), start: start.trimmed(), end: end.trimmed() };
  }
}

/** The runs without some pixels, ascending by index in a picture; row 0 is row `y0` of it. */
export function withoutPixels(runs: Runs, line: Int32Array, width: number, y0: number): Runs {
  const rows = runs.rowStart.length - 1;
  const inside = line.filter((p) => p >= y0 * width && p < (y0 + rows) * width);
  const left = new RunList();
  let k = 0;
  for (let y = 0; y < rows; y++) {
    const row = (y0 + y) * width;
    for (let i = runs.rowStart[y]!; i < runs.rowStart[y + 1]!; i++) {
      let from = runs.start[i]!;
      while (k < inside.length && inside[k]! < row + from) k++;
      for (; k < inside.length && inside[k]! < row + runs.end[i]!; k++) {
        const x = inside[k]! - row;
        if (from < x) left.put(from, x);
        from = x + 1;
      }
      if (from < runs.end[i]!) left.put(from, runs.end[i]!);
    }
    left.endRow();
  }
  return left.finish();
}

/** Pixels of all runs. */
export function pixelsOf({ start, end }: Runs): number {
  let pixels = 0;
  for (let r = 0; r < start.length; r++) pixels += end[r]! - start[r]!;
  return pixels;
}
