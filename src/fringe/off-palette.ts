import type { Owned } from '../raster/types.ts';
import { Mixer } from './mixer.ts';
import { isSpot } from './noise.ts';
import type { Solid } from './solid-colors.ts';

/** Samples of an even spot, 3 × 3 pixels, and of two pixels of one area, differ by no more. */
const RANGE = 10;
/** Squared distance from a mix, or from the one color near, within which noise explains a pixel. */
const NOISE = 576;

/**
 * Of pixels that no swatch is near, those that no edge explains: the middle of an even spot, what is
 * no mix of the swatches within 4 pixels, and what is beside such a pixel and of nearly its color. Mask
 * of 0 and 1. O(pixels).
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
    if (!isSpot(words, i, width, height, RANGE) && isExplained(mixer, i)) continue;
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

/** Whether a pixel is a mix of two swatches near it, or nearly the one that is near. */
function isExplained(mixer: Mixer, i: number): boolean {
  if (mixer.solveNoisy(i)) return mixer.shareOf(i, mixer.mix.a, mixer.mix.b, NOISE) >= 0;
  const code = mixer.nearest(i);
  return code > 0 && mixer.distance(code) <= NOISE;
}

function isAlike(a: number, b: number): boolean {
  return (
    Math.abs((a & 255) - (b & 255)) <= RANGE &&
    Math.abs(((a >>> 8) & 255) - ((b >>> 8) & 255)) <= RANGE &&
    Math.abs(((a >>> 16) & 255) - ((b >>> 16) & 255)) <= RANGE &&
    a >>> 24 === b >>> 24
  );
}
