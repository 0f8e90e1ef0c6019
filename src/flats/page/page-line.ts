import { lineAlone } from '../../ink/line-alone.ts';
import type { Bounds, Dense, PixelData } from '../../raster/types.ts';
import { layLine } from '../compose-sheet.ts';
import type { Source } from '../find-ink.ts';

/** The line that a page lays over its flats: that of its pixels, or its ink in black. */
export class PageLine {
  private readonly source: Source;
  /** The pixels without their paper, once they have been asked for. */
  private cleared: Dense<PixelData> | undefined;

  constructor(source: Source) {
    this.source = source;
  }

  /** Lays a part of the line over a sheet of the part's size. The first call is O(pixels). */
  lay(part: Readonly<Bounds>, sheet: Uint8Array): void {
    const { pixels, ink, coverage, width } = this.source;
    if (pixels !== undefined) {
      this.cleared ??= lineAlone(pixels);
      layLine(this.cleared, part, sheet);
      return;
    }
    const [x0, y0, x1, y1] = part;
    const columns = x1 - x0;
    const line = new Uint8Array(4 * columns * (y1 - y0));
    for (let y = y0, k = 3; y < y1; y++) {
      for (let p = y * width + x0; p < y * width + x1; p++, k += 4) {
        line[k] = coverage === undefined ? 255 * ink!.data[p]! : coverage[p]!;
      }
    }
    const dense = { data: line, width: columns, height: y1 - y0, channels: 4 };
    layLine(dense, [0, 0, columns, y1 - y0], sheet);
  }
}
