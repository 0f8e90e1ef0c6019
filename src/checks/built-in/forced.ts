import { linePixels } from '../../runs/line.ts';
import { defineCheck, type FlatsCheck } from '../define-check.ts';
import { spansOfPixels } from '../edges.ts';
import { amount, describePlace } from '../places.ts';

/**
 * Seams that no line holds: bridges drawn only because points of different swatches asked for it, with
 * two flats on their sides. Look whether the line was meant to go on there, or one of the points is
 * wrong. Placed at the middle of the bridge; a bridge with one swatch all round is no seam.
 */
export const forced: FlatsCheck<never> = defineCheck(
  'forced',
  ({ report, flats, size }) => {
    const [width, height] = size;
    return report!.bridges
      .filter((bridge) => bridge.drawn && bridge.forced === true)
      .flatMap(({ from, to }) => {
        const [fromX, fromY, toX, toY] = [...from, ...to].map(Math.floor) as Ends;
        const pixels = linePixels(fromX, fromY, toX, toY, width);
        const swatches = swatchesAround(flats.indices.data, pixels, width, height).map(
          (index) => flats.palette[index]!.name,
        );
        if (swatches.length < 2) return [];
        const middle = pixels[pixels.length >> 1]!;
        const [x, y] = [middle % width, Math.floor(middle / width)];
        const names = swatches.map((name) => `"${name}"`).join(' and ');
        const across = amount(pixels.length, 'pixel');
        const message = `forced seam of ${across} between ${names} at [${x}, ${y}]`;
        const place = describePlace(spansOfPixels(pixels, width));
        return [{ message, ...place, at: [x + 0.5, y + 0.5] as const, swatches }];
      });
  },
  { needs: ['report'] },
);

type Ends = [number, number, number, number];

/** Indices but 0 of the pixels and their 8-neighbors, ascending; the ends alone are on a line. */
function swatchesAround(
  data: Uint8Array | Uint16Array,
  pixels: Int32Array,
  width: number,
  height: number,
): number[] {
  const seen = new Set<number>();
  const inner = pixels.length > 2 ? pixels.subarray(1, -1) : pixels;
  for (const i of inner) {
    const x = i % width;
    const y = Math.floor(i / width);
    for (let v = Math.max(0, y - 1); v <= Math.min(height - 1, y + 1); v++) {
      for (let u = Math.max(0, x - 1); u <= Math.min(width - 1, x + 1); u++) {
        seen.add(data[v * width + u]!);
      }
    }
  }
  seen.delete(0);
  return [...seen].sort((a, b) => a - b);
}
