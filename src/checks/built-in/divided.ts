import { fillNearest } from '../../distance/nearest-label.ts';
import { partOf, TICK_PIXELS } from '../../raster/progress.ts';
import { labelValues } from '../../regions/label-equal.ts';
import { defineCheck, type FlatsCheck } from '../define-check.ts';
import { edgePlaces } from '../edges.ts';
import { amount, describePlace, where } from '../places.ts';

/**
 * Ink between two regions of one swatch: the line may part what should have two colors. Regions are
 * those of one swatch on paper; each pixel of ink counts to the nearest, and where two of one swatch
 * meet within the ink is a finding, the longest first. A pixel as near to two counts to the one that
 * comes first, row by row, so that the place may lie a pixel aside in a mirrored picture. Shorter than
 * `minLength` are mostly corners of regions that meet where lines cross. By itself it does not run: most
 * lines inside a figure are meant. O(pixels + edges · log).
 */
export const divided: FlatsCheck<'minLength'> = defineCheck(
  'divided',
  ({ flats, ink, size, tick }, { minLength }) => {
    const [width, height] = size;
    const { data } = flats.indices;
    const isInk = ink!.data;
    const paper = new Uint16Array(data.length);
    for (let i = 0; i < paper.length; i++) {
      if (i % TICK_PIXELS === 0) tick((0.1 * i) / paper.length);
      if (isInk[i] === 0) paper[i] = data[i]!;
    }
    const dense = { data: paper, width, height, channels: 1 };
    const { labels: near, count } = labelValues(dense, 4, 0, partOf(tick, 0.1, 0.4));
    const swatchOf = new Uint16Array(count + 1);
    for (let i = 0; i < paper.length; i++) {
      if (i % TICK_PIXELS === 0) tick(0.4 + (0.1 * i) / paper.length);
      swatchOf[near[i]!] = paper[i]!;
    }
    fillNearest(near, width, height, partOf(tick, 0.5, 0.8));
    const isDivided = (i: number, j: number): boolean => swatchOf[near[i]!] === swatchOf[near[j]!];
    return edgePlaces(near, width, isDivided, partOf(tick, 0.8, 1))
      .filter(({ length }) => length >= minLength)
      .map((place) => {
        const swatches = [...new Set(place.values.map((id) => swatchOf[id]!))].map(
          (index) => flats.palette[index]!.name,
        );
        const of = place.places === 1 ? ` of "${swatches[0]}"` : '';
        const edges = amount(place.length, 'pixel edge');
        const message = `line of ${edges} between two regions${of} ${where(place)}`;
        return { message, ...describePlace(place.spans), length: place.length, swatches };
      });
  },
  { severity: 'information', needs: ['ink'], onRequest: true, thresholds: { minLength: 10 } },
);
