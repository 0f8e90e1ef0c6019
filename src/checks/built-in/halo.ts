import { groundIndex, groundMask } from '../../halo/ground-mask.ts';
import { haloMask } from '../../halo/halo.ts';
import { raster } from '../../raster/raster.ts';
import { defineCheck, type FlatsCheck } from '../define-check.ts';
import { amount, describePlace, placesOfMask, where } from '../places.ts';

/**
 * Light between a flat and soft ink, as `findHalo` tells, one finding per 8-connected place: of the
 * ground, or, in flats without one, of their bare surroundings. A flat drawn short of the line, so that
 * the ground shows where coverage is 0, is no halo but an open seam. Other bare pixels and blended ones
 * are findings of their own and left out.
 */
export const halo: FlatsCheck<never> = defineCheck(
  'halo',
  ({ flats, coverage, blended, off, size }) => {
    const { data } = flats.indices;
    const [width, height] = size;
    const ground = groundMask(data, groundIndex(flats), width, height);
    const mask = haloMask({ indices: data, ground, coverage: coverage!.data, width, height });
    for (let i = 0; i < mask.length; i++) {
      if (data[i] !== 0) continue;
      if (ground[i] === 0 || blended?.data[i] === 1 || off?.data[i] === 1) mask[i] = 0;
    }
    const swatches = flats.ground === undefined ? [] : [flats.ground];
    return placesOfMask(raster(mask, [width, height]), 8).map((place) => {
      const described = describePlace(place.spans);
      const message = `halo of ${amount(described.area, 'pixel')} ${where(place)}`;
      return { message, ...described, swatches };
    });
  },
  { severity: 'error', needs: ['coverage'] },
);
