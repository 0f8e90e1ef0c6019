import { floatInk } from '../ink/float.ts';
import { parseColor } from '../palette/color.ts';
import { flatsArgument } from '../palette/flats-argument.ts';
import type { FlatsLike } from '../palette/types.ts';
import { checkSameSize, pixelsArgument } from '../raster/arguments.ts';
import { checkOptions } from '../raster/checks.ts';
import { raster } from '../raster/raster.ts';
import { over255 } from '../raster/samples.ts';
import type { Pixels, PixelsLike } from '../raster/types.ts';

export interface ComposeSheetOptions {
  /**
   * Line art to lay over the flats: floating (2 or 4 channels) or a scan on white paper, whose
   * paper is taken out first. @default none
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
    const floats = dense.channels === 4 && dense.data.BYTES_PER_ELEMENT === 1;
    line = floats ? (dense.data as Uint8Array) : floatInk(dense).data;
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
