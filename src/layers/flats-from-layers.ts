import { indexStorage } from '../palette/flats-argument.ts';
import { freeName } from '../palette/free-name.ts';
import { BARE, BARE_SWATCH, checkPalette, MAX_SWATCHES, swatchIndex } from '../palette/swatches.ts';
import type { Flats, Swatch } from '../palette/types.ts';
import { pixelsArgument } from '../raster/arguments.ts';
import { checkList, checkOptions, checkRecord, checkSize, checkString } from '../raster/checks.ts';
import { wrongKind, wrongValue } from '../raster/errors.ts';
import { raster } from '../raster/raster.ts';
import { colorAt, type SolidLayer, solidLayer } from './solid-layer.ts';
import type { LayeredPicture, LayerLike } from './types.ts';

export interface FlatsFromLayersOptions {
  /**
   * `[width, height]` of the flats. @default that of the layered picture; of a list of layers, as far as
   * they reach to the right and down
   */
  readonly size?: readonly [number, number] | undefined;
  /**
   * Name of the swatch of what lies outside the figure. @default that which `writeLayers` wrote as
   * ground, if any
   */
  readonly ground?: string | undefined;
}

/** A layer that flats are made of. */
interface Part {
  readonly layer: LayerLike;
  readonly offset: readonly [number, number];
  readonly solid: SolidLayer;
  /** What its pixels may be: one swatch, or a palette that was written with it, `bare` first. */
  readonly swatches: readonly Swatch[];
}

const OVER = 'svg:src-over';

/**
 * Flats from layers of solid color, such as a corrected OpenRaster file: a swatch for each layer, named
 * like it, with the names of its stacks before it (`heron/scarf`). Where layers overlap, the upper one has
 * the pixel; what none covers is `bare`.
 *
 * Flats of {@link writeLayers} come back as they were, order of the palette and ground included, but for
 * the color of `bare`. Otherwise the palette has the order of the layers, the topmost first. Layers of
 * one name and color are one swatch; of one name and another color, the lower is called `scarf (2)`. A layer
 * without a name, or called `bare`, is named by its color. Hidden layers are left out, and so is the line
 * that `writeLayers` wrote.
 *
 * @param layers - What `readLayers` gives, or a list of layers, the topmost first: `{ name, pixels, offset }`.
 * @returns Flats that own their memory. O(pixels of all layers).
 * @throws RangeError for a layer that is not in one color, opaque and fully transparent, shown through
 *   (`opacity`) or blended with those below (`mode`): leave it out with `layers.filter`.
 * @example
 * ```ts
 * import { flatsFromLayers, raster } from 'underink';
 * const shell = { name: 'shell', pixels: raster(new Uint8Array([40, 60, 80, 255]), [1, 1, 4]) };
 * const paper = { name: 'paper', pixels: raster(new Uint8Array([9, 9]), [2, 1]) };
 * const flats = flatsFromLayers([{ ...shell, offset: [1, 0] }, paper], { ground: 'paper' });
 * console.log(flats.indices.data.join(' '), flats.palette[1]); // 2 1 { name: 'shell', color: '#283c50' }
 * ```
 */
export function flatsFromLayers(
  layers: readonly LayerLike[] | Pick<LayeredPicture, 'layers' | 'size'>,
  options?: FlatsFromLayersOptions,
): Flats {
  const { size, ground } = checkOptions(options, 'flatsFromLayers', ['size', 'ground']);
  const picture = pictureArgument(layers);
  const parts = picture.layers.flatMap((layer, i) => partOf(layer, `layers[${i}]`));
  const { palette, places } = nameSwatches(parts);
  const [width, height] = checkSize(size ?? picture.size ?? extentOf(parts), 'size');
  const indices = indexStorage(width * height, palette.length);
  for (let i = parts.length - 1; i >= 0; i--) lay(parts[i]!, places[i]!, indices, width, height);
  const lowest = parts.findIndex(({ layer }) => layer.role === 'ground');
  const own = palette[places[lowest]?.values().next().value ?? 0]!.name;
  const name = ground === undefined ? own : ground;
  if (ground === BARE) throw wrongValue('ground', 'a swatch other than "bare"', ground);
  if (name !== BARE) swatchIndex(palette, name, 'ground');
  return {
    indices: raster(indices, [width, height]),
    palette,
    ...(name === BARE ? {} : { ground: name }),
  };
}

function pictureArgument(value: readonly LayerLike[] | Pick<LayeredPicture, 'layers' | 'size'>): {
  layers: LayerLike[];
  size?: readonly [number, number];
} {
  const noun = 'a list of layers { name, pixels, offset }, or what readLayers gives';
  if (Array.isArray(value)) return { layers: checkList<LayerLike>(value, 'layers', noun) };
  const { layers, size } = checkRecord(value as LayeredPicture, 'layers', noun);
  return { layers: checkList<LayerLike>(layers, 'layers.layers', noun), size };
}

/** The layer, checked; nothing for one that is left out. */
function partOf(layer: LayerLike, at: string): Part[] {
  checkRecord(layer, at, 'a layer { name, pixels, offset }');
  const {
    name,
    groups = [],
    opacity = 1,
    visible = true,
    mode = OVER,
    palette,
    offset = [0, 0],
  } = layer;
  checkString(name, `${at}.name`);
  if (layer.role === 'line' || !visible || opacity === 0) return [];
  const own = `${at} (${JSON.stringify(name)})`;
  const rest = '; a layer that is no flats is left out by layers.filter';
  if (opacity !== 1) throw wrongValue(`${own}.opacity`, '1', opacity, rest);
  if (mode !== OVER) throw wrongValue(`${own}.mode`, `"${OVER}"`, mode, rest);
  if (!Array.isArray(offset) || offset.length !== 2 || !offset.every(Number.isInteger)) {
    throw wrongKind(`${own}.offset`, '[x, y] in whole pixels', offset);
  }
  const swatches =
    palette === undefined ? undefined : checkPalette(palette, `${own}.palette`, 'first');
  const allowed = swatches && new Set(swatches.slice(1).map(({ color }) => color));
  const solid = solidLayer(pixelsArgument(layer.pixels, `${own}.pixels`), own, allowed);
  return [{ layer, solid, offset, swatches: swatches ?? [oneSwatch(name, groups, solid)] }];
}

function oneSwatch(name: string, groups: readonly string[], { color }: SolidLayer): Swatch {
  const whole = [...groups, name].join('/');
  return { name: whole === '' || whole === BARE ? color! : whole, color: color! };
}

/** The palette of all parts; for each part the place in it by color. */
function nameSwatches(parts: readonly Part[]): {
  palette: Swatch[];
  places: ReadonlyMap<string, number>[];
} {
  const names = new Set([BARE]);
  const byLook = new Map<string, Swatch>();
  const rank = new Map<Swatch, number>();
  // A ground has a layer of its own, so that its color stands for another swatch in one of many.
  const grounds = new Set(
    parts.filter(({ layer }) => layer.role === 'ground').map(({ layer }) => layer.name),
  );
  const own = parts.map(({ layer, swatches }) => {
    const byColor = new Map<string, Swatch>();
    swatches.forEach((swatch, i) => {
      if (swatch.name === BARE) return;
      const look = `${swatch.color} ${swatch.name}`;
      let kept = byLook.get(look);
      if (kept === undefined) {
        kept = { name: freeName(swatch.name, names), color: swatch.color };
        names.add(kept.name);
        byLook.set(look, kept);
        rank.set(kept, (layer.palette === undefined ? layer.index : i) ?? Number.NaN);
      }
      if (layer.palette !== undefined && grounds.has(swatch.name)) return;
      if (!byColor.has(swatch.color)) byColor.set(swatch.color, kept);
    });
    return byColor;
  });
  const swatches = [...rank.keys()];
  // Places that were written count where every swatch has one.
  if (![...rank.values()].some(Number.isNaN)) {
    swatches.sort((a, b) => rank.get(a)! - rank.get(b)!);
  }
  const palette = [BARE_SWATCH, ...swatches];
  if (palette.length > MAX_SWATCHES) {
    throw new RangeError(
      `layers must have at most ${MAX_SWATCHES - 1} swatches, got ${swatches.length}`,
    );
  }
  const place = new Map(palette.map((swatch, i) => [swatch, i]));
  return {
    palette,
    places: own.map(
      (byColor) => new Map([...byColor].map(([color, swatch]) => [color, place.get(swatch)!])),
    ),
  };
}

/** How far the layers reach to the right and down. */
function extentOf(parts: readonly Part[]): [number, number] {
  let [right, bottom] = [1, 1];
  for (const { offset, solid } of parts) {
    right = Math.max(right, offset[0] + solid.width);
    bottom = Math.max(bottom, offset[1] + solid.height);
  }
  return [right, bottom];
}

/** Lays the opaque pixels of a layer that are in the picture. */
function lay(
  { offset: [left, top], solid }: Part,
  places: ReadonlyMap<string, number>,
  indices: Uint8Array | Uint16Array,
  width: number,
  height: number,
): void {
  const { samples, words } = solid;
  const x0 = Math.max(0, -left);
  const x1 = Math.min(solid.width, width - left);
  const y1 = Math.min(solid.height, height - top);
  let last = -1;
  let place = 0;
  for (let y = Math.max(0, -top); y < y1; y++) {
    const row = (top + y) * width + left;
    for (let x = x0; x < x1; x++) {
      const i = y * solid.width + x;
      if (words[i] !== last) {
        last = words[i]!;
        place = samples[4 * i + 3] === 0 ? -1 : places.get(colorAt(samples, i))!;
      }
      if (place >= 0) indices[row + x] = place;
    }
  }
}
