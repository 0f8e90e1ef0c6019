import { checkOneOf } from '../raster/checks.ts';
import type { Tick } from '../raster/progress.ts';
import { someBlends } from './color-runs.ts';
import { Mixer, TICK_BLENDS } from './mixer.ts';
import type { FringeLight } from './samples.ts';
import type { Solid } from './solid-colors.ts';

/**
 * In which light the blends of a picture were mixed, where the option leaves it open: in the one in
 * which more of them are mixes; 8 bit sRGB where as many are in both, as between grays. Of many
 * blends 20,000 vote.
 */
export function lightOf(
  option: FringeLight | 'auto' | undefined,
  words: Uint32Array,
  solid: Solid,
  width: number,
  height: number,
  blends: Int32Array,
  tick?: Tick,
): FringeLight {
  const light = checkLight(option);
  if (light !== 'auto') return light;
  const srgb = new Mixer(words, solid, width, height, 'srgb');
  const linear = new Mixer(words, solid, width, height, 'linear');
  const asked = someBlends(blends, width, height, tick);
  let lead = 0;
  for (let k = 0; k < asked.length; k++) {
    if (k % TICK_BLENDS === 0) tick?.(k / asked.length);
    const i = asked[k]!;
    const pair = srgb.touchesPair(i);
    const other = linear.touchesPair(i);
    if (pair !== other) lead += pair ? 1 : -1;
  }
  return lead < 0 ? 'linear' : 'srgb';
}

/** The option `light`. */
export function checkLight(option: FringeLight | 'auto' = 'auto'): FringeLight | 'auto' {
  return checkOneOf(option, 'light', ['auto', 'srgb', 'linear']);
}
