import { zipSync } from 'fflate';
import { lineAlone } from '../ink/line-alone.ts';
import { type DenseFlats, flatsArgument } from '../palette/flats-argument.ts';
import type { FlatsLike } from '../palette/types.ts';
import { encodePng, resolutionChunks } from '../png/encode.ts';
import { tableChunk } from '../png/swatch-table.ts';
import type { Resolution } from '../png/types.ts';
import { checkSameSize, pixelsArgument } from '../raster/arguments.ts';
import { checkOneOf, checkOptions } from '../raster/checks.ts';
import { wrongKind } from '../raster/errors.ts';
import { toRgba } from '../raster/rgba.ts';
import type { Owned, PixelsLike } from '../raster/types.ts';
import { layLine } from './lay-line.ts';
import { colorWords, flatsPictures, type LayerPicture, swatchPictures } from './layer-pictures.ts';
import { paintPart } from './paint-part.ts';
import { type StackLayer, stackXml } from './stack-xml.ts';
import { thumbnail } from './thumbnail.ts';

export interface WriteLayersOptions {
  /** The line art, of the size of the flats, for a layer above them. @default none */
  readonly line?: PixelsLike | undefined;
  /**
   * How the line lies over the flats. `clear`: on transparent paper, as `composeSheet` lays it: the
   * paper of a scan and blue under-drawing are made transparent. `multiply`: as given, its colors
   * multiplied by those below. @default 'clear'
   */
  readonly lineOn?: 'clear' | 'multiply' | undefined;
  /**
   * Pixels per unit: `{ x: 11811, y: 11811, unit: 'meter' }` is 300 dots per inch. @default none
   */
  readonly resolution?: Resolution | undefined;
  /** A layer for each swatch, or one for all flats but the ground. @default 'swatch' */
  readonly layers?: 'swatch' | 'flats' | undefined;
  /**
   * Put the layers of swatches whose names share a first part (`heron/scarf`, `heron/plumes`) into a
   * stack of that name. @default false
   */
  readonly groups?: boolean | undefined;
}

/** More files a ZIP cannot list; four are no layers. */
const MAX_LAYERS = 65_530;
const MIME_TYPE = 'image/openraster';

/**
 * Writes flats as an OpenRaster file of layers (`.ora`), which painting programs open: the line on top,
 * below it a layer for each swatch, or one for all, then the ground. {@link readLayers} reads it.
 *
 * Layers of swatches have the swatch's name, stand in the order of the palette, the first on top, and
 * are cropped to the bounds of their pixels; one without pixels is a transparent pixel of its color.
 * Pixels are RGBA of 8 bits, opaque or with alpha 0. `bare` has no layer. The merged picture and a
 * thumbnail of at most 256 pixels show all layers, ground included.
 *
 * Standard: OpenRaster 0.0.6 (freedesktop.org), baseline. The resolution stands in whole pixels per
 * inch, as the standard has it, and exactly in the PNGs. Attributes in a namespace of our own tell
 * which layer is which swatch; other programs pass over them.
 *
 * @returns The file. The same arguments give the same bytes everywhere. O(pixels of all layers).
 * @throws TypeError or RangeError for flats, a line or options that are none; RangeError with `layers:
 *   'flats'` for two swatches of one color, which could not be told apart, and for more than 65,530
 *   layers.
 * @example
 * ```ts
 * import { flatsFromLayers, raster, readLayers, writeLayers } from 'underink';
 * const palette = ['bare', 'paper', 'scarf'].map((name, i) => ({ name, color: `#c8640${i}` }));
 * const flats = { indices: raster(new Uint8Array([1, 2, 2]), [3, 1]), palette, ground: 'paper' };
 * const layered = readLayers(writeLayers(flats));
 * console.log(layered.layers.map(({ name, offset }) => `${name} at ${offset}`)); // [ 'scarf at 1,0', 'paper at 0,0' ]
 * console.log([...flatsFromLayers(layered).indices.data]); // [ 1, 2, 2 ]
 * ```
 */
export function writeLayers(flats: FlatsLike, options?: WriteLayersOptions): Owned<Uint8Array> {
  const {
    line,
    lineOn = 'clear',
    resolution,
    layers = 'swatch',
    groups = false,
  } = checkOptions(options, 'writeLayers', ['line', 'lineOn', 'resolution', 'layers', 'groups']);
  checkOneOf(lineOn, 'lineOn', ['clear', 'multiply']);
  checkOneOf(layers, 'layers', ['swatch', 'flats']);
  if (typeof groups !== 'boolean') throw wrongKind('groups', 'true or false', groups);
  const chunks = resolutionChunks(resolution);
  const dense = flatsArgument(flats, 'flats');
  if (layers === 'swatch' && dense.palette.length > MAX_LAYERS) {
    throw new RangeError(
      `flats.palette must have at most ${MAX_LAYERS} swatches for a layer each, got ${dense.palette.length}; write them as one (layers: 'flats')`,
    );
  }
  const { width, height } = dense.indices;
  const lineData = line === undefined ? undefined : lineArgument(line, dense, lineOn);
  const files: Record<string, Uint8Array> = {};
  const stack: StackLayer[] = [];
  for (const { data, bounds, ...layer } of picturesOf(dense, lineData, layers)) {
    const [x0, y0, x1, y1] = bounds;
    const src = `data/${String(stack.length).padStart(3, '0')}-${layer.role}.png`;
    const image = { data, width: x1 - x0, height: y1 - y0, channels: 4 };
    const own = layer.role === 'flats' ? [...chunks, tableChunk(dense)] : chunks;
    files[src] = encodePng(image, layer.role === 'line' ? 'pixels' : 'flats', own);
    const mode = layer.role === 'line' && lineOn === 'multiply' ? 'svg:multiply' : 'svg:src-over';
    stack.push({ ...layer, src, offset: [x0, y0], mode });
  }
  const merged = paintPart(dense.indices, [0, 0, width, height], colorWords(dense));
  if (lineData !== undefined) layLine(merged, lineData, lineOn === 'multiply');
  const small = { ...thumbnail(merged, width, height), channels: 4 };
  return zip({
    mimetype: new TextEncoder().encode(MIME_TYPE),
    'stack.xml': new TextEncoder().encode(stackXml(stack, [width, height], resolution, groups)),
    ...files,
    'mergedimage.png': encodePng({ data: merged, width, height, channels: 4 }, 'pixels', chunks),
    'Thumbnails/thumbnail.png': encodePng(small, 'pixels', []),
  });
}

/** The line as RGBA of 8 bits, of the size of the flats. */
function lineArgument(
  line: PixelsLike,
  { indices }: DenseFlats,
  lineOn: 'clear' | 'multiply',
): Uint8Array {
  const dense = pixelsArgument(line, 'line');
  checkSameSize(indices, 'flats', dense, 'line');
  return toRgba(lineOn === 'clear' ? lineAlone(dense) : dense);
}

function* picturesOf(
  flats: DenseFlats,
  line: Uint8Array | undefined,
  layers: 'swatch' | 'flats',
): Generator<LayerPicture, void, void> {
  const { width, height } = flats.indices;
  if (line !== undefined) {
    yield { name: 'line', role: 'line', bounds: [0, 0, width, height], data: line };
  }
  yield* layers === 'flats' ? flatsPictures(flats) : swatchPictures(flats);
}

/**
 * A ZIP of files in their order, stored: PNGs are deflated already, and the first, `mimetype`, must be.
 * The time is the first that a ZIP can hold, wherever it is read: the file says nothing of when.
 */
function zip(files: Record<string, Uint8Array>): Owned<Uint8Array> {
  return zipSync(files, { level: 0, mtime: new Date(1980, 0, 1) });
}
