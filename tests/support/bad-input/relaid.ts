import ndarray, { type NdArray } from 'ndarray';
import type { RasterData } from '../../../src/raster/index.ts';

/** How a raster's samples may lie in memory, other than row by row from the first place on. */
export const LAYOUTS: readonly Layout[] = ['offset', 'strided', 'turned', 'columns'];
export type Layout = 'offset' | 'strided' | 'turned' | 'columns';

/** Arguments whose rasters are views of other memory with the same samples; `out` is left as it is. */
export function relaid(value: unknown, layout: Layout): unknown {
  if (typeof value !== 'object' || value === null || ArrayBuffer.isView(value)) return value;
  if (Array.isArray(value)) return value.map((own) => relaid(own, layout));
  if ('data' in value && 'shape' in value && 'stride' in value) {
    return relaidRaster(value as NdArray<RasterData>, layout);
  }
  if (Object.getPrototypeOf(value) !== Object.prototype) return value;
  return Object.fromEntries(
    Object.entries(value).map(([key, own]) => [key, key === 'out' ? own : relaid(own, layout)]),
  );
}

function relaidRaster(from: NdArray<RasterData>, layout: Layout): NdArray<RasterData> {
  const { shape } = from;
  const memory = (sides: readonly number[], stride?: number[]): NdArray<RasterData> => {
    const Samples = from.data.constructor as new (size: number) => RasterData;
    const size = sides.reduce((product, side) => product * side, 1);
    // What is between the samples that are seen must not be looked at.
    return ndarray(new Samples(size).fill(7), [...sides], stride);
  };
  const layouts: Record<Layout, () => NdArray<RasterData>> = {
    offset: () =>
      memory(shape.map((side) => side + 3))
        .lo(...shape.map(() => 2))
        .hi(...shape),
    strided: () => memory(shape.map((side, axis) => (axis + 2) * side)).step(2, 3, 4),
    turned: () => memory(shape).step(-1, -1, -1),
    columns: () => {
      let step = 1;
      return memory(
        shape,
        shape.map((side) => (step *= side) / side),
      );
    },
  };
  const view = layouts[layout]();
  const [width, height, channels = 1] = shape as [number, number, number?];
  for (let y = 0; y < height; y++) {
    for (let x = 0; x < width; x++) {
      for (let c = 0; c < channels; c++) {
        const sample = from.get(x, y, c) as number;
        if (shape.length === 3) view.set(x, y, c, sample);
        else view.set(x, y, sample);
      }
    }
  }
  return view;
}
