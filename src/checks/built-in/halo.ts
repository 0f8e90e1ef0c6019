import { groundIndex, groundMask } from '../../halo/ground-mask.ts';
import { haloMask } from '../../halo/halo.ts';
import { partOf, TICK_PIXELS } from '../../raster/progress.ts';
import { raster } from '../../raster/raster.ts';
import { defineCheck, type FlatsCheck } from '../define-check.ts';
import { amount, describePlace, placesOfMask, where } from '../places.ts';

/**
 * Light between a flat and soft ink, as `findHalo` tells, one finding per 8-connected place; with `ink`,
 * what closes a gap on clear paper says where the ground has its seam there. Halo is of the ground, or, in flats without one, of their bare surroundings. A flat drawn short of the line, so that
 * the ground shows where coverage is 0, is no halo but an open seam. Other bare pixels and blended ones
 * are findings of their own and left out.
 */
export const halo: FlatsCheck<never> = defineCheck(
  'halo',
  ({ flats, coverage, ink, blended, off, size, tick }) => {
    const { data } = flats.indices;
    const [width, height] = size;
    const ground = groundMask(data, groundIndex(flats), width, height, partOf(tick, 0, 0.2));
    const tone = coverage!.data;
    const input = { indices: data, ground, coverage: tone, sealed: ink?.data, width, height };
    const mask = haloMask(input, partOf(tick, 0.2, 0.8));
    for (let i = 0; i < mask.length; i++) {
      if (i % TICK_PIXELS === 0) tick(0.8 + (0.1 * i) / mask.length);
      if (data[i] !== 0) continue;
      if (ground[i] === 0 || blended?.data[i] === 1 || off?.data[i] === 1) mask[i] = 0;
    }
    const swatches = flats.ground === undefined ? [] : [flats.ground];
    const rest = partOf(tick, 0.9, 1);
    return placesOfMask(raster(mask, [width, height]), 8, rest).map((place) => {
      const described = describePlace(place.spans);
      const message = `halo of ${amount(described.area, 'pixel')} ${where(place)}`;
      return { message, ...described, swatches };
    });
  },
  { severity: 'error', needs: ['coverage'] },
);
