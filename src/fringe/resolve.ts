import type { Lab } from '../color/lab.ts';
import type { Tick } from '../raster/progress.ts';
import { EdgeLine } from './edge-line.ts';
import { Mixer, TICK_BLENDS, TOLERANCE } from './mixer.ts';
import type { FringeLight } from './samples.ts';
import { CLEAR_CODE, nearestOf, type Solid } from './solid-colors.ts';
import { labOfWord, sortColors } from './words.ts';

/** Code of the first color of a picture. */
const FIRST_CODE = CLEAR_CODE + 1;
/** Squared distance from a mix within which a noisy neighbor counts for the line of an edge. */
const NOISY_TOLERANCE = 900;
/** Shares nearer to a half than this are settled by the line of the edge. */
const NEAR_HALF = 0.07;

/**
 * The color that covers most of each of some pixels, by code: of the mix that gives its color; of the
 * edge's line through its neighbors where two colors have nearly half each; the nearest color round
 * it where no mix does, or of the whole picture. Equal shares go to the first in the order of colors.
 */
export function resolvePixels(
  words: Uint32Array,
  solid: Solid,
  width: number,
  height: number,
  pixels: Int32Array,
  light: FringeLight,
  noisy: boolean,
  tick?: Tick,
): Uint16Array {
  const mixer = new Mixer(words, solid, width, height, light);
  const { mix } = mixer;
  const line = new EdgeLine(mixer, width, height, noisy ? NOISY_TOLERANCE : 2 * TOLERANCE);
  const far = new FarColors(solid.colors);
  const found = new Uint16Array(pixels.length);
  for (let k = 0; k < pixels.length; k++) {
    if (k % TICK_BLENDS === 0) tick?.(k / pixels.length);
    const i = pixels[k]!;
    if (!(noisy ? mixer.solveNoisy(i) : mixer.solve(i))) {
      found[k] = mixer.nearest(i) || far.codeOf(words[i]!);
      continue;
    }
    const { a, b, c, shareB } = mix;
    if (b === 0 || c !== 0 || Math.abs(shareB - 0.5) > NEAR_HALF) {
      found[k] = mix.leader();
      continue;
    }
    const share = line.share(i, a, b, shareB);
    found[k] = share > 0.5 ? b : a;
  }
  return found;
}

/**
 * The color of the whole picture that looks nearest, ties to the first in the order of colors, worked
 * out once for each color asked for.
 */
class FarColors {
  /** Codes in the order of colors, after those of blends and of what is transparent. */
  private readonly codes: number[];
  private readonly labs: Lab[];
  private readonly known = new Map<number, number>();

  constructor(colors: Uint32Array) {
    const solid = sortColors(colors).filter((code) => code > CLEAR_CODE);
    this.codes = [0, CLEAR_CODE, ...solid];
    this.labs = this.codes.map((code) => labOfWord(colors[code]!));
  }

  codeOf(word: number): number {
    if (this.labs.length === FIRST_CODE + 1) return FIRST_CODE;
    let code = this.known.get(word);
    if (code === undefined) {
      code = this.codes[nearestOf(labOfWord(word), this.labs)]!;
      this.known.set(word, code);
    }
    return code;
  }
}
