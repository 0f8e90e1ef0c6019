import { groundIndex, groundMask } from '../halo/ground-mask.ts';
import { haloMask } from '../halo/halo.ts';
import type { Check } from './finding.ts';
import { amount, describePlace, placesOfMask, where } from './places.ts';

/**
 * Light between a flat and soft ink, one finding per 8-connected place: of the ground, or, in flats
 * without one, of their bare surroundings. Other bare pixels and blended ones are findings of their
 * own and left out.
 */
export const halo: Check = {
  name: 'halo',
  run: ({ flats, coverage, blended }) => {
    if (coverage === undefined) return [];
    const { data, shape } = flats.indices;
    const [width, height] = shape as [number, number];
    const ground = groundMask(data, groundIndex(flats), width, height);
    const mask = haloMask({ indices: data, ground, coverage: coverage.data, width, height });
    for (let i = 0; i < mask.length; i++) {
      if (data[i] === 0 && (ground[i] === 0 || blended?.data[i] === 1)) mask[i] = 0;
    }
    const swatches = flats.ground === undefined ? [] : [flats.ground];
    return placesOfMask(mask, width, height, 8).map((place) => {
      const described = describePlace(place.spans);
      const message = `halo of ${amount(described.count, 'pixel')} ${where(place)}`;
      return { message, ...described, swatches };
    });
  },
};
