import { bytesArgument } from '../png/bytes-argument.ts';
import { readResolution } from '../png/metadata.ts';
import { parsePng } from '../png/parse-png.ts';
import { readPng } from '../png/read-png.ts';
import { readTable } from '../png/swatch-table.ts';
import type { PngBytes, Resolution } from '../png/types.ts';
import { checkNumber, checkOptions } from '../raster/checks.ts';
import { entryBytes } from './entry-bytes.ts';
import { LayersError } from './layers-error.ts';
import { readStack, type Stack, type StackedLayer } from './read-stack.ts';
import { perInch, perMeter } from './stack-xml.ts';
import type { Layer, LayeredPicture } from './types.ts';
import { type ZipEntry, zipEntries } from './zip-entries.ts';

export interface ReadLayersOptions {
  /**
   * Most pixels of all layers together, and of the whole picture; a file of more is refused before they
   * are inflated. RGBA takes 4 bytes a pixel. From 1 to 2^31 − 1 pixels.
   * @default 2 ** 29
   */
  readonly maxPixels?: number | undefined;
}

const DEFAULT_MAX_PIXELS = 2 ** 29;
/** A list of 65,536 layers has less. */
const MAX_STACK_BYTES = 2 ** 25;
/** Most bytes of a pixel in a PNG. */
const PIXEL_BYTES = 8;
/** What a file may hold beside its pixels. */
const OTHER_BYTES = 2 ** 24;

/**
 * Reads an OpenRaster file: its layers as rasters, the topmost first, with names and offsets; those in
 * stacks with the names of their stacks. {@link flatsFromLayers} makes flats of them.
 *
 * Layers are read as they are: opacity, visibility and blending are told, not applied. The resolution is
 * that of stack.xml, in the exact figures of `mergedimage.png` where both say the same.
 *
 * The file need not be trusted: places, sizes and CRCs are checked, nothing more is inflated than
 * `maxPixels` allows, stack.xml may have no document type, and names are looked up in the file alone.
 *
 * @param bytes - The file: a Uint8Array (any view, a Node `Buffer` too), an ArrayBuffer or a
 *   SharedArrayBuffer.
 * @returns Layers that share no memory with `bytes`. O(bytes + pixels of all layers).
 * @throws LayersError for anything wrong with the file, with the inner error (such as a PngError of a
 *   layer) as its `cause`.
 * @example
 * ```ts
 * import { raster, readLayers, writeLayers } from 'underink';
 * const palette = [{ name: 'bare', color: '#000000' }, { name: 'otter/fur', color: '#8a5d42' }];
 * const flats = { indices: raster(new Uint8Array([0, 1]), [2, 1]), palette };
 * const [layer] = readLayers(writeLayers(flats, { groups: true })).layers;
 * console.log(layer?.groups, layer?.name, layer?.offset); // [ 'otter' ] fur [ 1, 0 ]
 * ```
 */
export function readLayers(bytes: PngBytes, options?: ReadLayersOptions): LayeredPicture {
  const { maxPixels = DEFAULT_MAX_PIXELS } = checkOptions(options, 'readLayers', ['maxPixels']);
  checkNumber(maxPixels, 'maxPixels', { min: 1, max: 2 ** 31 - 1, integer: true });
  const entries = zipEntries(bytesArgument(bytes, 'bytes'));
  let bytesLeft = PIXEL_BYTES * maxPixels + OTHER_BYTES;
  const file = (name: string, most = bytesLeft): Uint8Array => {
    const entry = entries.get(name);
    if (entry === undefined) throw new LayersError(`the file has no ${JSON.stringify(name)}`);
    const data = entryBytes(entry, most);
    bytesLeft -= data.length;
    return data;
  };
  checkMimeType(entries);
  const stack = readStack(decodeUtf8(file('stack.xml', MAX_STACK_BYTES)));
  const [width, height] = stack.size;
  if (width * height > maxPixels) {
    throw new LayersError(
      `the picture must have at most ${maxPixels} pixels (maxPixels), got ${width} × ${height}`,
    );
  }
  let pixelsLeft = maxPixels;
  const layers = stack.layers.map((layer) => {
    const read = readLayer(layer, file(layer.src), pixelsLeft);
    pixelsLeft -= read.pixels.shape[0]! * read.pixels.shape[1]!;
    return read;
  });
  const merged = entries.has('mergedimage.png') ? file('mergedimage.png') : undefined;
  const resolution = resolutionOf(stack, merged, maxPixels);
  return { layers, size: stack.size, ...(resolution && { resolution }) };
}

function checkMimeType(entries: ReadonlyMap<string, ZipEntry>): void {
  const entry = entries.get('mimetype');
  const type = entry && new TextDecoder().decode(entryBytes(entry, 1000)).trim();
  if (type !== 'image/openraster') {
    const got = type === undefined ? 'none' : JSON.stringify(type);
    throw new LayersError(
      `not an OpenRaster file: its mimetype must be image/openraster, got ${got}`,
    );
  }
}

function decodeUtf8(bytes: Uint8Array): string {
  try {
    return new TextDecoder('utf-8', { fatal: true }).decode(bytes);
  } catch (error) {
    throw new LayersError('stack.xml is not UTF-8', { cause: error });
  }
}

function readLayer({ src, ...layer }: StackedLayer, png: Uint8Array, pixelsLeft: number): Layer {
  const where = `layer ${JSON.stringify(layer.name)} (${src})`;
  if (pixelsLeft < 1) {
    throw new LayersError(`${where} is beyond the pixels that may be read (maxPixels)`);
  }
  try {
    const { pixels, text } = readPng(png, { maxPixels: pixelsLeft });
    const palette = layer.role === 'flats' ? readTable(text)?.palette : undefined;
    return { ...layer, pixels, ...(palette && { palette }) };
  } catch (error) {
    throw new LayersError(`${where} cannot be read: ${(error as Error).message}`, { cause: error });
  }
}

function resolutionOf(
  { perInch: own }: Stack,
  merged: Uint8Array | undefined,
  maxPixels: number,
): Resolution | undefined {
  let exact: Resolution | undefined;
  try {
    exact = merged && readResolution(parsePng(merged, maxPixels));
  } catch (error) {
    throw new LayersError('mergedimage.png cannot be read', { cause: error });
  }
  if (own === undefined) return exact;
  const [x, y] = own;
  if (exact?.unit === 'meter' && perInch(exact.x) === x && perInch(exact.y) === y) return exact;
  return { x: perMeter(x), y: perMeter(y), unit: 'meter' };
}
