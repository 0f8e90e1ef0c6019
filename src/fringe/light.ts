import { checkOneOf } from '../raster/checks.ts';
import { Mixer } from './mixer.ts';
import type { Light } from './samples.ts';
import type { Solid } from './solid-colors.ts';

/** Blends that are asked at most. */
const MOST_ASKED = 20_000;

/**
 * In which light the blends of a picture were mixed, where the option leaves it open: in the one in
 * which more of them are mixes; 8 bit sRGB where as many are in both, as between grays.
 */
export function lightOf(
  option: Light | 'auto' | undefined,
  words: Uint32Array,
  solid: Solid,
  width: number,
  height: number,
  blends: Int32Array,
): Light {
  const light = checkLight(option);
  if (light !== 'auto') return light;
  const srgb = new Mixer(words, solid, width, height, 'srgb');
  const linear = new Mixer(words, solid, width, height, 'linear');
  const step = Math.max(1, Math.floor(blends.length / MOST_ASKED));
  let lead = 0;
  for (let k = 0; k < blends.length; k += step) {
    const i = blends[k]!;
    const pair = srgb.touchesPair(i);
    const other = linear.touchesPair(i);
    if (pair !== other) lead += pair ? 1 : -1;
  }
  return lead < 0 ? 'linear' : 'srgb';
}

/** The option `light`. */
export function checkLight(option: Light | 'auto' | undefined): Light | 'auto' {
  return checkOneOf(option ?? 'auto', 'light', ['auto', 'srgb', 'linear']);
}
