import { parseColor } from '../color/hex.ts';
import { lineAlone } from '../ink/line-alone.ts';
import { type DenseFlats, flatsArgument } from '../palette/flats-argument.ts';
import type { FlatsLike } from '../palette/types.ts';
import { checkSameSize, pixelsArgument } from '../raster/arguments.ts';
import { checkOptions } from '../raster/checks.ts';
import { wrongKind, wrongValue } from '../raster/errors.ts';
import { raster } from '../raster/raster.ts';
import { over255, sampleOffsets, toEight } from '../raster/samples.ts';
import type { Bounds, Dense, Owned, PixelData, Pixels, PixelsLike } from '../raster/types.ts';

export interface ComposeSheetOptions {
  /**
   * Line art to lay over the flats. A picture with an alpha below full anywhere is on transparent
   * paper and laid as it is; of any other, a scan, the paper and blue under-drawing are made
   * transparent first, as `clearPaper` does with `{ dropHue: 'blue' }`. @default none
   */
  readonly line?: PixelsLike | undefined;
  /**
   * What shows through bare pixels and the ground, `#rrggbb`. Middle gray, beside which black,
   * white and color are all seen: common practice, no source. @default '#808080'
   */
  readonly backdrop?: string | undefined;
  /**
   * The part to paint, `[x0, y0, x1, y1]`, half-open, inside the flats; the sheet has the size of
   * the part. @default the whole
   */
  readonly within?: Readonly<Bounds> | undefined;
}

/**
 * The sheet as a person looks at it: flats under the line on middle gray, which shows bare pixels,
 * and the ground, for what they are. A part is what it is on the whole sheet. O(pixels of the part)
 * beside the check of the flats, and the clearing of a line that is not on transparent paper.
 *
 * @returns RGBA Uint8 `[w, h, 4]`, opaque, of the size of `within` or of the flats.
 * @throws TypeError or RangeError for flats, a line, a color or bounds that are none, or sizes that
 *   differ.
 * @example
 * ```ts
 * import { composeSheet, raster } from 'underink';
 * const palette = [{ name: 'bare', color: '#000000' }, { name: 'fur', color: '#8a5d42' }];
 * const flats = { indices: raster(new Uint8Array([1, 0]), [2, 1]), palette };
 * console.log([...composeSheet(flats).data].join(' ')); // 138 93 66 255 128 128 128 255
 * const part = composeSheet(flats, { within: [1, 0, 2, 1] });
 * console.log(part.shape.join(' '), [...part.data].join(' ')); // 1 1 4 128 128 128 255
 * ```
 */
export function composeSheet(flats: FlatsLike, options?: ComposeSheetOptions): Pixels<Uint8Array> {
  const checked = checkOptions(options, 'composeSheet', ['line', 'backdrop', 'within']);
  const { backdrop = '#808080' } = checked;
  const shown = parseColor(backdrop, 'backdrop');
  const dense = flatsArgument(flats, 'flats');
  const { width, height } = dense.indices;
  const part = partArgument(checked.within, width, height);
  let line: Dense<PixelData> | undefined;
  if (checked.line !== undefined) {
    const whole = pixelsArgument(checked.line, 'line');
    checkSameSize(dense.indices, 'flats', whole, 'line');
    line = lineAlone(whole);
  }
  const sheet = paintPart(dense, part, shown);
  if (line !== undefined) layLine(line, part, sheet);
  return raster(sheet, [part[2] - part[0], part[3] - part[1], 4]);
}

/** A part of the flats as opaque RGBA; the ground and bare pixels show the backdrop. */
export function paintPart(
  { indices, palette, ground }: DenseFlats,
  [x0, y0, x1, y1]: Readonly<Bounds>,
  backdrop: readonly [number, number, number],
): Owned<Uint8Array> {
  const { data, width } = indices;
  const colors = palette.map(({ name, color }, i) =>
    i === 0 || name === ground ? backdrop : parseColor(color, 'color'),
  );
  const table = Uint8Array.from(colors.flatMap((color) => [...color, 255]));
  const sheet = new Uint8Array(4 * (x1 - x0) * (y1 - y0));
  for (let y = y0, k = 0; y < y1; y++) {
    for (let i = y * width + x0; i < y * width + x1; i++, k += 4) {
      const at = 4 * data[i]!;
      sheet[k] = table[at]!;
      sheet[k + 1] = table[at + 1]!;
      sheet[k + 2] = table[at + 2]!;
      sheet[k + 3] = 255;
    }
  }
  return sheet;
}

/** The `within` option. */
export function partArgument(
  within: unknown,
  width: number,
  height: number,
  name = 'within',
): Readonly<Bounds> {
  if (within === undefined) return [0, 0, width, height];
  const allowed = `bounds [x0, y0, x1, y1] in whole pixels inside ${width} × ${height}`;
  if (!Array.isArray(within) || within.some((side) => typeof side !== 'number')) {
    throw wrongKind(name, allowed, within);
  }
  const [x0, y0, x1, y1] = within;
  const inside = within.length === 4 && x0 >= 0 && y0 >= 0 && x1 <= width && y1 <= height;
  if (!inside || x0 >= x1 || y0 >= y1 || !within.every(Number.isInteger)) {
    throw wrongValue(name, allowed, within);
  }
  return [x0, y0, x1, y1];
}

/** Lays a part of a line with alpha over a sheet of the part's size. */
export function layLine(
  line: Dense<PixelData>,
  [x0, y0, x1, y1]: Readonly<Bounds>,
  sheet: Uint8Array,
): void {
  const { data, width, channels } = line;
  const { green, blue, alpha, wide } = sampleOffsets(line);
  for (let y = y0, k = 0; y < y1; y++) {
    const end = channels * (y * width + x1);
    for (let i = channels * (y * width + x0); i < end; i += channels, k += 4) {
      const over = toEight(data[i + alpha]!, wide);
      if (over === 0) continue;
      const under = 255 - over;
      sheet[k] = over255(toEight(data[i]!, wide) * over + sheet[k]! * under);
      sheet[k + 1] = over255(toEight(data[i + green]!, wide) * over + sheet[k + 1]! * under);
      sheet[k + 2] = over255(toEight(data[i + blue]!, wide) * over + sheet[k + 2]! * under);
    }
  }
}
