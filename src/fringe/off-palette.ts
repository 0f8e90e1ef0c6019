import type { Owned } from '../raster/types.ts';
import { Mixer } from './mixer.ts';
import { isSpot } from './noise.ts';
import type { Solid } from './solid-colors.ts';

/** Samples of an even spot, 3 × 3 pixels, and of two pixels of one area, differ by no more. */
const RANGE = 10;
/**
 * Squared distance from a swatch or a mix of two that noise explains: in an even spot, where noise is low,
 * and in the rough beside edges.
 */
const NOISE = { even: 1200, rough: 4096 } as const;

/**
 * Of pixels that have no swatch's color, those that neither noise nor an edge explains: of what is not
 * nearly the color of a swatch that has pixels within 4 pixels, the middles of even spots and what is no
 * mix of two such swatches; and what is beside a pixel that is off, and of nearly its color. Mask of 0
 * and 1. O(pixels).
 */
export function markOff(
  words: Uint32Array,
  solid: Solid,
  width: number,
  height: number,
  left: Int32Array,
): Owned<Uint8Array> {
  const off = new Uint8Array(words.length);
  const front: number[] = [];
  const mixer = new Mixer(words, solid, width, height, 'srgb');
  for (let k = 0; k < left.length; k++) {
    const i = left[k]!;
    const even = isSpot(words, i, width, height, RANGE);
    const noise = even ? NOISE.even : NOISE.rough;
    if (isNoise(mixer, i, noise) || (!even && isMix(mixer, i, noise))) continue;
    off[i] = 1;
    front.push(i);
  }
  for (let i = front.pop(); i !== undefined; i = front.pop()) {
    const x = i % width;
    const x0 = x > 0 ? -1 : 0;
    const x1 = x < width - 1 ? 1 : 0;
    for (let row = i - width; row <= i + width; row += width) {
      if (row < 0 || row >= words.length) continue;
      for (let j = row + x0; j <= row + x1; j++) {
        if (off[j] === 1 || solid.codes[j] !== 0 || !isAlike(words[i]!, words[j]!)) continue;
        off[j] = 1;
        front.push(j);
      }
    }
  }
  return off;
}

/** Whether a pixel nearly has the color of the swatch near it. */
function isNoise(mixer: Mixer, i: number, noise: number): boolean {
  const code = mixer.nearest(i);
  return code > 0 && mixer.distance(code) <= noise;
}

/** Whether a pixel is a mix of two swatches near it. */
function isMix(mixer: Mixer, i: number, noise: number): boolean {
  return mixer.solveNoisy(i) && mixer.shareOf(i, mixer.mix.a, mixer.mix.b, noise) >= 0;
}

function isAlike(a: number, b: number): boolean {
  return (
    Math.abs((a & 255) - (b & 255)) <= RANGE &&
    Math.abs(((a >>> 8) & 255) - ((b >>> 8) & 255)) <= RANGE &&
    Math.abs(((a >>> 16) & 255) - ((b >>> 16) & 255)) <= RANGE &&
    a >>> 24 === b >>> 24
  );
}
