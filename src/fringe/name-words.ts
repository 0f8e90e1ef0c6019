import { formatColor } from '../color/hex.ts';
import type { Swatch } from '../palette/types.ts';

/** `#rrggbb` of a word `r | g << 8 | b << 16`, whatever its alpha. */
export function colorOfWord(word: number): string {
  return formatColor(word & 255, (word >>> 8) & 255, (word >>> 16) & 255);
}

/** A swatch for each word, with its color for a name. */
export function swatchesOfWords(words: ArrayLike<number>): Swatch[] {
  return Array.from(words, (word) => {
    const color = colorOfWord(word);
    return { name: color, color };
  });
}
