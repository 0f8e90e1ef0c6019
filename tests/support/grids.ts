import ndarray, { type NdArray } from 'ndarray';
import { type Labels, type Mask, type RasterData, raster } from '../../src/raster/index.ts';
import { seeded } from './random.ts';

/** Numbers of a grid literal, row by row; `.` is 0. */
function parse(text: string): { values: number[]; width: number; height: number } {
  const rows = text
    .trim()
    .split('\n')
    .map((row) => row.trim().split(/\s+/));
  const values = rows.flat().map((v) => (v === '.' ? 0 : Number(v)));
  return { values, width: rows[0]!.length, height: rows.length };
}

export function mask(text: string): Mask {
  const { values, width, height } = parse(text);
  return raster(Uint8Array.from(values), [width, height]);
}

export function labels(text: string): Labels {
  const { values, width, height } = parse(text);
  return raster(Int32Array.from(values), [width, height]);
}

/** A raster as a grid literal. */
export function grid(r: NdArray<RasterData>): string {
  const [w, h] = r.shape as [number, number];
  return Array.from({ length: h }, (_, y) =>
    Array.from({ length: w }, (_, x) => r.get(x, y) || '.').join(' '),
  ).join('\n');
}

/** The literal without its indent, as `grid` prints it. */
export function literal(text: string): string {
  return text
    .trim()
    .split('\n')
    .map((row) => row.trim())
    .join('\n');
}

/** The eight symmetries of a raster, as views of its storage. */
export function symmetries<D extends RasterData>(r: NdArray<D>): NdArray<D>[] {
  const flips = [r, r.step(-1, 1), r.step(1, -1), r.step(-1, -1)];
  return [...flips, ...flips.map((view) => view.transpose(1, 0))];
}

/** How a raster's samples may lie in memory, other than row by row from the first place on. */
export const LAYOUTS = ['offset', 'strided', 'turned', 'columns'] as const;
export type Layout = (typeof LAYOUTS)[number];

/** The same raster behind other storage, in which samples that are not seen are 7. */
export function relaidRaster<D extends RasterData>(r: NdArray<D>, layout: Layout): NdArray<D> {
  const { shape } = r;
  const [width, height, channels] = shape as [number, number, number?];
  const memory = (sides: readonly number[], stride?: number[]): NdArray<D> => {
    const Samples = r.data.constructor as new (size: number) => D;
    const size = sides.reduce((product, side) => product * side, 1);
    return ndarray(new Samples(size).fill(7) as D, [...sides], stride);
  };
  const layouts: Record<Layout, () => NdArray<D>> = {
    offset: () =>
      memory(shape.map((side) => side + 3))
        .lo(...shape.map(() => 2))
        .hi(...shape),
    strided: () => memory(shape.map((side, axis) => (axis + 2) * side)).step(2, 3, 4),
    turned: () => memory(shape).step(-1, -1, -1),
    // Column by column; with channels plane by plane, row by row in each.
    columns: () => memory(shape, channels === undefined ? undefined : [1, width, width * height]),
  };
  const view = layouts[layout]();
  for (let y = 0; y < height; y++) {
    for (let x = 0; x < width; x++) {
      if (channels === undefined) view.set(x, y, r.get(x, y) as number);
      else for (let c = 0; c < channels; c++) view.set(x, y, c, r.get(x, y, c) as number);
    }
  }
  return view;
}

/** The same raster in all other layouts. */
export function otherViews<D extends RasterData>(r: NdArray<D>): NdArray<D>[] {
  return LAYOUTS.map((layout) => relaidRaster(r, layout));
}

/** The eight symmetries of pixels `[w, h, c]`, then the same behind other storage. */
export function pixelViews<D extends RasterData>(r: NdArray<D>): NdArray<D>[] {
  return [...symmetries(r), ...otherViews(r)];
}

/** Dense worst cases and noise for labeling and growing. */
export function worstCases(width: number, height: number): Record<string, NdArray<Uint8Array>> {
  const make = (value: (x: number, y: number) => number) => {
    const data = new Uint8Array(width * height);
    for (let y = 0; y < height; y++)
      for (let x = 0; x < width; x++) data[y * width + x] = value(x, y);
    return raster(data, [width, height]);
  };
  const random = seeded(width * 7919 + height);
  return {
    checkerboard: make((x, y) => (x + y) & 1),
    comb: make((x, y) => (y === height - 1 || x % 2 === 0 ? 1 : 0)),
    spiral: spiral(width, height),
    noise: make(() => (random() < 0.5 ? 1 : 0)),
    sparse: make(() => (random() < 0.07 ? 1 : 0)),
    empty: make(() => 0),
    full: make(() => 1),
  };
}

function spiral(width: number, height: number): NdArray<Uint8Array> {
  const r = raster(new Uint8Array(width * height), [width, height]);
  let [x0, y0, x1, y1] = [0, 0, width - 1, height - 1];
  let x = 0;
  while (x0 <= x1 && y0 <= y1) {
    for (x = Math.max(0, x0 - 2); x <= x1; x++) r.set(x, y0, 1);
    for (let y = y0; y <= y1; y++) r.set(x1, y, 1);
    for (x = x1; x >= x0; x--) r.set(x, y1, 1);
    for (let y = y1; y >= y0 + 2; y--) r.set(x0, y, 1);
    [x0, y0, x1, y1] = [x0 + 2, y0 + 2, x1 - 2, y1 - 2];
  }
  return r;
}
