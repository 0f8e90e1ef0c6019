import type { RasterKind } from './check-raster.ts';
import { toDense } from './dense.ts';
import type {
  CoverageLike,
  Dense,
  LabelsLike,
  MaskLike,
  PixelData,
  PixelsLike,
  RasterData,
  RasterLike,
} from './types.ts';

const MASK: RasterKind<Uint8Array | Uint8ClampedArray> = {
  noun: 'a Uint8 mask of shape [width, height]',
  heldAs: ['mask', 'ink', 'sealed'],
  kinds: [Uint8Array, Uint8ClampedArray],
  maxChannels: 1,
};
const COVERAGE: RasterKind<Uint8Array | Uint8ClampedArray> = {
  noun: 'a Uint8 coverage of shape [width, height]',
  heldAs: ['coverage'],
  kinds: [Uint8Array, Uint8ClampedArray],
  maxChannels: 1,
};
const LABELS: RasterKind<Int32Array> = {
  noun: 'an Int32 label raster of shape [width, height]',
  heldAs: ['labels'],
  kinds: [Int32Array],
  maxChannels: 1,
};
const PIXELS: RasterKind<PixelData> = {
  noun: 'Uint8, Uint8Clamped or Uint16 pixels of shape [width, height] or [width, height, 1 to 4]',
  heldAs: ['pixels'],
  kinds: [Uint8Array, Uint8ClampedArray, Uint16Array],
  maxChannels: 4,
};
const ANY: RasterKind<RasterData> = {
  noun: 'a raster of numbers of shape [width, height] or [width, height, 1 to 4]',
  heldAs: ['pixels', 'mask', 'labels', 'indices'],
  kinds: [
    Uint8Array,
    Uint8ClampedArray,
    Uint16Array,
    Uint32Array,
    Int8Array,
    Int16Array,
    Int32Array,
    Float32Array,
    Float64Array,
  ],
  maxChannels: 4,
};

/** A mask argument; that its values are 0 or 1 shows while it is packed. */
export function maskArgument(value: MaskLike, name: string): Dense<Uint8Array> {
  return bytes(toDense(value, name, MASK));
}

export function coverageArgument(value: CoverageLike, name: string): Dense<Uint8Array> {
  return bytes(toDense(value, name, COVERAGE));
}

/** A label argument of which no id is checked. */
export function labelsHead(value: LabelsLike, name: string): Dense<Int32Array> {
  return toDense(value, name, LABELS);
}

/** A label argument; negative ids are a RangeError. O(pixels). */
export function labelsArgument(value: LabelsLike, name: string): Dense<Int32Array> {
  const dense = labelsHead(value, name);
  const { data, width } = dense;
  let all = 0;
  for (let i = 0; i < data.length; i++) all |= data[i]!;
  if (all >= 0) return dense;
  const i = data.findIndex((id) => id < 0);
  const at = `${data[i]} at [${i % width}, ${Math.floor(i / width)}]`;
  throw new RangeError(`${name} must hold ids >= 0 (0 = no region), got ${at}`);
}

export function pixelsArgument(value: PixelsLike, name: string): Dense<PixelData> {
  return toDense(value, name, PIXELS);
}

export function rasterArgument(value: RasterLike, name: string): Dense {
  return toDense(value, name, ANY);
}

type Sides = Pick<Dense, 'width' | 'height'>;

/** Both rasters must have the same sides. */
export function checkSameSize(a: Sides, aName: string, b: Sides, bName: string): void {
  if (a.width !== b.width || a.height !== b.height) {
    throw new RangeError(
      `${bName} must have the size of ${aName}, ${a.width} × ${a.height}, got ${b.width} × ${b.height}`,
    );
  }
}

/** Uint8Clamped read as Uint8 over the same memory, so that kernels see one kind of array. */
function bytes(dense: Dense<Uint8Array | Uint8ClampedArray>): Dense<Uint8Array> {
  const { data, width, height, channels } = dense;
  if (data instanceof Uint8Array) return dense as Dense<Uint8Array>;
  const same = new Uint8Array(data.buffer, data.byteOffset, data.length);
  return { data: same, width, height, channels };
}
