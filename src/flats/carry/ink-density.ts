import { TICK_ROWS, type Tick } from '../../raster/progress.ts';
import type { Dense } from '../../raster/types.ts';

/** How much of each square cell of a mask is ink, 0 to 1, row by row. */
export interface InkDensity {
  readonly data: Float32Array;
  readonly width: number;
  readonly height: number;
  /** Pixels along a side of a cell. */
  readonly cell: number;
}

/** Ink, or its density in finer cells. */
type Source = Pick<Dense<Uint8Array>, 'data' | 'width' | 'height'> | InkDensity;

/**
 * Density by square cells of so many cells or pixels of the source along a side; what lies beyond the
 * picture counts as paper. O(source).
 */
export function inkDensity(source: Source, side: number, tick?: Tick): InkDensity {
  const { data, width, height } = source;
  const columns = Math.ceil(width / side);
  const rows = Math.ceil(height / side);
  const density = new Float32Array(columns * rows);
  const band = new Float64Array(columns * side);
  for (let row = 0; row < rows; row++) {
    band.fill(0);
    for (let y = row * side; y < Math.min(height, (row + 1) * side); y++) {
      if (tick !== undefined && y % TICK_ROWS === 0) tick(y / height);
      for (let x = 0, i = y * width; x < width; x++, i++) band[x]! += data[i]!;
    }
    const at = row * columns;
    for (let column = 0, x = 0; column < columns; column++) {
      let sum = 0;
      for (let k = 0; k < side; k++, x++) sum += band[x]!;
      density[at + column] = sum / (side * side);
    }
  }
  const cell = side * ('cell' in source ? source.cell : 1);
  return { data: density, width: columns, height: rows, cell };
}

/** Centers of cells with ink, in pixels, with their densities: x, y, density; at most so many, evenly chosen. */
export function inkSamples({ data, width, cell }: InkDensity, most: number): Float64Array {
  let cells = 0;
  for (let i = 0; i < data.length; i++) if (data[i]! > 0) cells++;
  const step = Math.max(1, cells / most);
  const count = Math.floor(cells / step);
  const points = new Float64Array(3 * count);
  for (let i = 0, k = 0, seen = 0; k < count; i++) {
    if (data[i]! <= 0 || seen++ !== Math.floor(k * step)) continue;
    points[3 * k] = ((i % width) + 0.5) * cell;
    points[3 * k + 1] = (Math.floor(i / width) + 0.5) * cell;
    points[3 * k + 2] = data[i]!;
    k++;
  }
  return points;
}

/** The mean over the square of cells within a reach; beyond the picture there is nothing. O(cells). */
export function boxMean(density: InkDensity, reach: number, tick?: Tick): InkDensity {
  const { data, width, height, cell } = density;
  const size = 2 * reach + 1;
  const rows = new Float32Array(data.length);
  const mean = new Float32Array(data.length);
  for (let y = 0; y < height; y++) {
    if (tick !== undefined && y % TICK_ROWS === 0) tick((0.5 * y) / height);
    slide(data, rows, y * width, 1, width, reach, size);
  }
  for (let x = 0; x < width; x++) {
    if (tick !== undefined && x % TICK_ROWS === 0) tick(0.5 + (0.5 * x) / width);
    slide(rows, mean, x, width, height, reach, size);
  }
  return { data: mean, width, height, cell };
}

function slide(
  from: Float32Array,
  to: Float32Array,
  first: number,
  step: number,
  count: number,
  reach: number,
  size: number,
): void {
  for (let k = 0; k < count; k++) {
    let sum = 0;
    const end = Math.min(count - 1, k + reach);
    for (let j = Math.max(0, k - reach); j <= end; j++) sum += from[first + j * step]!;
    to[first + k * step] = sum / size;
  }
}
