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

/** The same raster behind other storage: offset in a larger one, strided, column-major. */
export function otherViews<D extends RasterData>(r: NdArray<D>): NdArray<D>[] {
  const [w, h] = r.shape as [number, number];
  const fresh = (n: number) => new (r.data.constructor as new (n: number) => D)(n);
  const offset = ndarray(fresh((w + 3) * (h + 2)), [w + 3, h + 2], [1, w + 3])
    .lo(2, 1)
    .hi(w, h);
  const strided = ndarray(fresh(6 * w * h), [2 * w, 3 * h], [1, 2 * w]).step(2, 3);
  const columns = ndarray(fresh(w * h), [w, h]);
  for (const view of [offset, strided, columns]) {
    for (let y = 0; y < h; y++) for (let x = 0; x < w; x++) view.set(x, y, r.get(x, y) as number);
  }
  return [offset, strided, columns] as unknown as NdArray<D>[];
}

/** The eight symmetries of pixels `[w, h, c]`, then the same behind other storage: offset, strided, by planes. */
export function pixelViews<D extends RasterData>(r: NdArray<D>): NdArray<D>[] {
  const [w, h, c] = r.shape as [number, number, number];
  const fresh = (n: number) => new (r.data.constructor as new (n: number) => D)(n);
  const offset = ndarray(fresh((w + 3) * (h + 2) * c), [w + 3, h + 2, c], [c, (w + 3) * c, 1]).lo(
    2,
    1,
  );
  const strided = ndarray(fresh(12 * w * h * c), [2 * w, 3 * h, 2 * c]).step(2, 3, 2);
  const planes = ndarray(fresh(w * h * c), [w, h, c], [1, w, w * h]);
  const others = [offset.hi(w, h, c), strided, planes];
  for (const view of others) {
    for (let y = 0; y < h; y++)
      for (let x = 0; x < w; x++)
        for (let k = 0; k < c; k++) view.set(x, y, k, r.get(x, y, k) as number);
  }
  return [...symmetries(r), ...(others as unknown as NdArray<D>[])];
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
