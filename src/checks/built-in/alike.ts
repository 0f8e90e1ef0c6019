import { ciede2000 } from '../../color/color-difference.ts';
import { labOf } from '../../color/lab.ts';
import { PairIndex } from '../../runs/pair-index.ts';
import { defineCheck, type FlatsCheck } from '../define-check.ts';
import { edgePlaces } from '../edges.ts';
import { amount, between, describePlace, where } from '../places.ts';

/**
 * Flats beside each other, under the ink or off it, whose colors are less than `below` apart in
 * CIEDE2000: nobody sees where one ends. One finding for each pair and place, the longest first.
 * O(pixels + edges · log).
 */
export const alike: FlatsCheck<'below'> = defineCheck(
  'alike',
  ({ flats, size, tick }, { below }) => {
    const { data } = flats.indices;
    const { palette } = flats;
    const labs = palette.map(({ color }) => labOf(color, 'color'));
    const pairs = new PairIndex();
    const differences: number[] = [];
    const differenceOf = (a: number, b: number): number => {
      const pair = pairs.add(Math.min(a, b), Math.max(a, b), 0);
      differences[pair] ??= ciede2000(labs[a]!, labs[b]!);
      return differences[pair]!;
    };
    const isAlike = (i: number, j: number): boolean =>
      data[i] !== 0 && data[j] !== 0 && differenceOf(data[i]!, data[j]!) < below;
    return edgePlaces(data, size[0], isAlike, tick).map((place) => {
      const swatches = place.values.map((index) => palette[index]!.name);
      const [a, b] = place.values as [number, number];
      const apart = place.places === 1 ? `, ${differenceOf(a, b).toFixed(1)} apart,` : '';
      const edges = amount(place.length, 'pixel edge');
      const message = `colors too alike over ${edges}${between(place, swatches)}${apart} ${where(place)}`;
      return { message, ...describePlace(place.spans), length: place.length, swatches };
    });
  },
  { thresholds: { below: 2 } },
);
