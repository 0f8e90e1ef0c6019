import { checkPixelCount } from './checks.ts';
import { describe, wrongKind, wrongValue } from './errors.ts';
import type { PlainRaster, RasterData, RasterLike, RasterView } from './types.ts';

/** What a raster argument must be; `kinds` are the constructors of the sample types it may have. */
export interface RasterKind<D extends RasterData> {
  /** Completes "must be …": `a Uint8 mask of shape [width, height]`. */
  readonly noun: string;
  readonly kinds: readonly { new (length: number): D; readonly name: string }[];
  /** Names under which results of other calls hold such a raster. */
  readonly heldAs: readonly string[];
  /** Most channels; 1 asks for shape `[w, h]`. */
  readonly maxChannels: number;
}

/** A raster argument that has been checked, as it is: sample (x, y, c) by strides from an offset. */
export interface Checked<D extends RasterData> {
  readonly data: D;
  readonly width: number;
  readonly height: number;
  readonly channels: number;
  readonly strides: readonly [number, number, number];
  readonly offset: number;
}

/**
 * Checks a raster argument; no sample is read. A mask, coverage or label argument may also come as
 * `[w, h, 1]`.
 */
export function checkRaster<D extends RasterData>(
  value: RasterLike<D>,
  name: string,
  kind: RasterKind<D>,
): Checked<D> {
  if (typeof value !== 'object' || value === null || !('data' in value)) {
    throw wrongKind(name, kind.noun, value, rasterHint(value, kind.heldAs));
  }
  const data = ofThisRealm(value.data, kind);
  if (data === undefined) throw wrongKind(name, kind.noun, value.data);
  return 'shape' in value && value.shape !== undefined
    ? fromView({ shape: value.shape, stride: value.stride, offset: value.offset, data }, name, kind)
    : fromPlain(value as PlainRaster<D>, data, name, kind);
}

/** What to pass instead of a value that is often taken for a raster. */
function rasterHint(value: unknown, heldAs: readonly string[]): string {
  const kind = Object.prototype.toString.call(value);
  if (typeof value === 'string') return '; a file is read with readPng(bytes).pixels';
  if (ArrayBuffer.isView(value) || /^.object (Shared)?ArrayBuffer.$/.test(kind)) {
    return '; readPng(bytes).pixels reads a file, raster(data, [width, height]) takes samples';
  }
  if (typeof value !== 'object' || value === null) return '';
  const holder = heldAs.find((key) => isRaster(Reflect.get(value, key)));
  return holder === undefined ? '' : `; pass its .${holder}`;
}

function isRaster(value: unknown): boolean {
  return typeof value === 'object' && value !== null && 'data' in value;
}

/** The same memory under this realm's type of array; an iframe or a vm has types of its own. */
function ofThisRealm<D extends RasterData>(data: D, { kinds }: RasterKind<D>): D | undefined {
  if (kinds.some((kind) => data instanceof kind)) return data;
  if (!ArrayBuffer.isView(data)) return undefined;
  const { buffer, byteOffset, length } = data;
  const Kind = kinds.find(({ name }) => name === data.constructor.name);
  return Kind && new (Kind as new (...memory: unknown[]) => D)(buffer, byteOffset, length);
}

function fromPlain<D extends RasterData>(
  { width, height, channels }: PlainRaster<D>,
  data: D,
  name: string,
  kind: RasterKind<D>,
): Checked<D> {
  checkSide(width, `${name}.width`);
  checkSide(height, `${name}.height`);
  const count = channels ?? data.length / (width * height);
  checkChannels(count, name, kind);
  checkPixelCount(width, height, name);
  if (data.length !== width * height * count) {
    const samples = `${width * height * count} samples (${width} × ${height} × ${count})`;
    throw wrongValue(`${name}.data`, samples, data);
  }
  const strides: [number, number, number] = [count, count * width, 1];
  return { data, width, height, channels: count, strides, offset: 0 };
}

function fromView<D extends RasterData>(
  { data, shape, stride, offset }: RasterView<D>,
  name: string,
  kind: RasterKind<D>,
): Checked<D> {
  const axes = shape?.length;
  if ((axes !== 2 && axes !== 3) || stride?.length !== axes) {
    throw new RangeError(`${name} must be ${kind.noun}, got shape ${describe(shape)}`);
  }
  const [width, height, channels = 1] = shape as readonly [number, number, number?];
  checkSide(width, `${name}.shape[0]`);
  checkSide(height, `${name}.shape[1]`);
  checkChannels(channels, name, kind);
  checkPixelCount(width, height, name);
  if (!Number.isInteger(offset) || !stride.every(Number.isInteger)) {
    throw wrongValue(`${name}.stride and offset`, 'whole numbers', [...stride, offset]);
  }
  let first = offset;
  let last = offset;
  for (let axis = 0; axis < axes; axis++) {
    const reach = (shape[axis]! - 1) * stride[axis]!;
    if (reach < 0) first += reach;
    else last += reach;
  }
  if (first < 0 || last >= data.length) {
    throw new RangeError(
      `${name} must lie inside its data of ${data.length} samples, got indices ${first} to ${last}`,
    );
  }
  const strides: [number, number, number] = [stride[0]!, stride[1]!, stride[2] ?? 1];
  return { data, width, height, channels, strides, offset };
}

function checkSide(side: unknown, name: string): void {
  if (typeof side !== 'number') throw wrongKind(name, 'a whole number >= 1', side);
  if (!Number.isInteger(side) || side < 1) throw wrongValue(name, 'a whole number >= 1', side);
}

function checkChannels<D extends RasterData>(
  count: number,
  name: string,
  kind: RasterKind<D>,
): void {
  if (!Number.isInteger(count) || count < 1 || count > kind.maxChannels) {
    throw new RangeError(`${name} must be ${kind.noun}, got ${count} channels`);
  }
}
