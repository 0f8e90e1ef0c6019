import { parseColor } from '../color/hex.ts';
import { clearPaper } from '../ink/clear-paper.ts';
import { flatsArgument } from '../palette/flats-argument.ts';
import type { FlatsLike } from '../palette/types.ts';
import { checkSameSize, pixelsArgument } from '../raster/arguments.ts';
import { checkOptions } from '../raster/checks.ts';
import { raster } from '../raster/raster.ts';
import { over255, toEight } from '../raster/samples.ts';
import type { Dense, PixelData, Pixels, PixelsLike } from '../raster/types.ts';

export interface ComposeSheetOptions {
  /**
   * Line art to lay over the flats: floating, or a scan on white paper, whose paper is taken out
   * first. A picture with an alpha below full anywhere floats. @default none
   */
  line?: PixelsLike;
  /** What shows through bare pixels and the ground, `#rrggbb`. @default '#808080' */
  backdrop?: string;
}

/**
 * The sheet as a person looks at it: flats under floating ink on middle gray, which shows bare
 * pixels, and the ground, for what they are. O(pixels).
 *
 * @returns RGBA Uint8 `[w, h, 4]`, opaque.
 * @throws TypeError or RangeError for flats, a line or a color that is none, or sizes that differ.
 * @example
 * ```ts
 * import { composeSheet, raster } from 'underink';
 * const palette = [{ name: 'bare', color: '#000000' }, { name: 'fur', color: '#8a5d42' }];
 * const flats = { indices: raster(new Uint8Array([1, 0]), [2, 1]), palette };
 * console.log([...composeSheet(flats).data].join(' ')); // 138 93 66 255 128 128 128 255
 * ```
 */
export function composeSheet(flats: FlatsLike, options?: ComposeSheetOptions): Pixels<Uint8Array> {
  const checked = checkOptions(options, 'composeSheet', ['line', 'backdrop']);
  const backdrop = parseColor(checked.backdrop ?? '#808080', 'backdrop');
  const { indices, palette, ground } = flatsArgument(flats, 'flats');
  const colors = palette.map(({ name, color }, i) =>
    i === 0 || name === ground ? backdrop : parseColor(color, 'color'),
  );
  const table = Uint8Array.from(colors.flatMap((color) => [...color, 255]));
  const { data, width, height } = indices;
  let line: Uint8Array | undefined;
  if (checked.line !== undefined) {
    const dense = pixelsArgument(checked.line, 'line');
    checkSameSize(indices, 'flats', dense, 'line');
    line = floatingLine(dense);
  }
  const sheet = new Uint8Array(4 * data.length);
  for (let i = 0, k = 0; i < data.length; i++, k += 4) {
    const at = 4 * data[i]!;
    const alpha = line === undefined ? 0 : line[k + 3]!;
    for (let c = 0; c < 3; c++) {
      const under = table[at + c]!;
      sheet[k + c] = alpha === 0 ? under : over255(line![k + c]! * alpha + under * (255 - alpha));
    }
    sheet[k + 3] = 255;
  }
  return raster(sheet, [width, height, 4]);
}

/** RGBA, 8 bit, of a line that floats already; a scan is floated. */
export function floatingLine(line: Dense<PixelData>): Uint8Array {
  const { data, channels } = line;
  const wide = data instanceof Uint16Array;
  const full = wide ? 65_535 : 255;
  let floats = false;
  if (channels === 2 || channels === 4) {
    for (let i = channels - 1; i < data.length && !floats; i += channels) floats = data[i]! < full;
  }
  if (!floats) return clearPaper(line, { paper: 'white' }).data;
  const [green, blue] = channels === 2 ? [0, 0] : [1, 2];
  const rgba = new Uint8Array((data.length / channels) * 4);
  for (let i = 0, k = 0; k < rgba.length; i += channels, k += 4) {
    rgba[k] = toEight(data[i]!, wide);
    rgba[k + 1] = toEight(data[i + green]!, wide);
    rgba[k + 2] = toEight(data[i + blue]!, wide);
    rgba[k + 3] = toEight(data[i + channels - 1]!, wide);
  }
  return rgba;
}
