import { pixelCenter } from '../../raster/pixel-center.ts';
import { defineCheck, type FlatsCheck } from '../define-check.ts';

/**
 * A sheet without a ground: no region at the picture's border is the ground's, because a mark that was
 * meant for a figure names what lies around it, through a gap that stayed open. Placed in the largest
 * region at the border. Where that is meant, lay with that swatch as `ground`.
 */
export const border: FlatsCheck<never> = defineCheck(
  'border',
  (sheet) => {
    const { report, flats, size } = sheet;
    const [width, height] = size;
    const { ground } = flats;
    const atBorder = report!.border ?? [];
    if (atBorder.length === 0 || atBorder.some(({ swatch }) => swatch === ground)) return [];
    const { labels, regions } = sheet;
    const first = largestAtBorder(labels.data, width, height, regions.area);
    if (first === undefined) return [];
    const id = labels.data[first]!;
    const { name } = flats.palette[flats.indices.data[first]!]!;
    const share = Math.round((100 * regions.area[id]!) / (width * height));
    return [
      {
        message: `"${name}" reaches the picture's border and covers ${share} % of it; no region there is the ground`,
        at: pixelCenter(first, width),
        bounds: [...regions.bounds.subarray(4 * id, 4 * id + 4)] as [
          number,
          number,
          number,
          number,
        ],
        area: regions.area[id]!,
        swatches: [name],
      },
    ];
  },
  { needs: ['report'] },
);

/** The first pixel along the border of the region there that is largest; undefined where all is bare. */
function largestAtBorder(
  labels: Int32Array,
  width: number,
  height: number,
  area: Int32Array,
): number | undefined {
  let first: number | undefined;
  const look = (p: number): void => {
    const id = labels[p]!;
    if (id > 0 && (first === undefined || area[id]! > area[labels[first]!]!)) first = p;
  };
  for (let x = 0; x < width; x++) look(x);
  for (let y = 1; y < height - 1; y++) {
    look(y * width);
    look((y + 1) * width - 1);
  }
  for (let x = 0; x < width; x++) look((height - 1) * width + x);
  return first;
}
