import { parseColor } from '../color/hex.ts';
import { checkOneOf } from '../raster/checks.ts';

/** What ink is drawn on: the samples of its color, or nothing. */
export type Paper = readonly [r: number, g: number, b: number] | 'transparent';

/** Luma of 8-bit samples, `(299 R + 587 G + 114 B) / 1000` (ITU-R BT.601), rounded half up. */
export function lumaOf(r: number, g: number, b: number): number {
  return ((299 * r + 587 * g + 114 * b + 500) / 1000) | 0;
}

/** A `paper` option; `auto` is for the caller to find. */
export function paperArgument(paper: string): Paper | 'auto' {
  if (paper === 'white') return WHITE;
  if (paper === 'transparent' || paper === 'auto') return paper;
  if (typeof paper !== 'string' || !paper.startsWith('#')) {
    checkOneOf(paper, 'paper', ['auto', 'white', 'transparent', '#rrggbb']);
  }
  return parseColor(paper, 'paper');
}

export const WHITE: Paper = [255, 255, 255];
