import type { Flats } from '../../src/palette/types.ts';
import { readFlats } from '../../src/png/read-flats.ts';
import { readPng } from '../../src/png/read-png.ts';
import type { Labels, Mask } from '../../src/raster/types.ts';
import { labelRegions } from '../../src/regions/label.ts';

/** Pixels of a written file that are bare, and those whose color is not that of their swatch. */
export function readBack(bytes: Uint8Array): { flats: Flats; bare: number; blended: number } {
  const { flats } = readFlats(bytes);
  const { data, shape } = readPng(bytes).pixels;
  const channels = shape[2]!;
  const colors = flats.palette.map(({ color }) => Number.parseInt(color.slice(1), 16));
  let bare = 0;
  let blended = 0;
  flats.indices.data.forEach((index, i) => {
    const p = i * channels;
    const alpha = channels === 4 ? data[p + 3] : 255;
    const color = (data[p]! << 16) | (data[p + 1]! << 8) | data[p + 2]!;
    if (index === 0 || alpha === 0) bare++;
    else if (alpha !== 255 || color !== colors[index]) blended++;
  });
  return { flats, bare, blended };
}

/**
 * Swatches by region of the sealed ink: what each region carries, whether it touches the border.
 * Found by labeling the sealed ink anew.
 */
export function swatchesByRegion(
  { indices, palette }: Flats,
  sealed: Mask,
): { border: boolean; names: string[] }[] {
  const { labels, count } = labelRegions(sealed, { of: 0 });
  const [w, h] = labels.shape as [number, number];
  const found = Array.from({ length: count }, () => ({
    border: false,
    indices: new Set<number>(),
  }));
  labels.data.forEach((id, i) => {
    if (id === 0) return;
    const [x, y] = [i % w, Math.floor(i / w)];
    if (x === 0 || y === 0 || x === w - 1 || y === h - 1) found[id - 1]!.border = true;
    found[id - 1]!.indices.add(indices.data[i]!);
  });
  return found.map(({ border, indices: set }) => {
    return { border, names: [...set].map((index) => palette[index]!.name) };
  });
}

/**
 * Length of the seams between regions, and of what of them runs between two pixels without ink. A
 * seam is the line through the middles of its pixel edges, so that it is not longer for its steps:
 * each half edge counts 1/2, or √2/4 where the seam turns at the pixel corner it leads to.
 */
export function seamLength(labels: Labels, ink: Mask): { all: number; open: number } {
  const [w, h] = labels.shape as [number, number];
  const differ = (ax: number, ay: number, bx: number, by: number): number => {
    const inside = Math.min(ax, ay, bx, by) >= 0 && Math.max(ax, bx) < w && Math.max(ay, by) < h;
    return inside && labels.get(ax, ay) !== labels.get(bx, by) ? 1 : 0;
  };
  const half = (x: number, y: number): number => {
    const across = differ(x - 1, y - 1, x - 1, y) + differ(x, y - 1, x, y);
    const down = differ(x - 1, y - 1, x, y - 1) + differ(x - 1, y, x, y);
    return across === 1 && down === 1 ? Math.SQRT2 / 4 : 1 / 2;
  };
  let all = 0;
  let open = 0;
  for (let y = 0; y < h; y++) {
    for (let x = 0; x < w; x++) {
      const left = differ(x - 1, y, x, y) * (half(x, y) + half(x, y + 1));
      const above = differ(x, y - 1, x, y) * (half(x, y) + half(x + 1, y));
      all += left + above;
      if (ink.get(x, y) === 1) continue;
      if (left > 0 && ink.get(x - 1, y) === 0) open += left;
      if (above > 0 && ink.get(x, y - 1) === 0) open += above;
    }
  }
  return { all, open };
}
