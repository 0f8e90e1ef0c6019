import { findHalo } from '../fringe/find-halo.ts';
import type { Check } from './finding.ts';
import { amount, describePlace, placesOfMask, where } from './places.ts';

/**
 * Light between a flat and soft ink, one finding per 8-connected place. Bare pixels are findings of
 * their own and left out.
 */
export const halo: Check = {
  name: 'halo',
  run: ({ flats, coverage }) => {
    if (coverage === undefined || flats.ground === undefined) return [];
    const { mask } = findHalo(flats, coverage);
    const { data, shape } = flats.indices;
    for (let i = 0; i < data.length; i++) if (data[i] === 0) mask.data[i] = 0;
    return placesOfMask(mask.data, shape[0]!, shape[1]!, 8).map((place) => {
      const described = describePlace(place.spans);
      const message = `halo of ${amount(described.count, 'pixel')} ${where(place)}`;
      return { message, ...described, swatches: [flats.ground!] };
    });
  },
};
