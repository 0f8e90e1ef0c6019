import { type ColorRuns, colorRuns } from './color-runs.ts';
import { lineColors } from './line-colors.ts';
import { areaColors, type Solid, withColorsOf } from './solid-colors.ts';

/** The runs of a picture and its solid colors: those with an area, then those of lines. */
export function readSolid(
  words: Uint32Array,
  width: number,
  height: number,
  name?: string,
): { runs: ColorRuns; solid: Solid } {
  const runs = colorRuns(words, width, height);
  const areas = areaColors(runs, words.length, 0, name);
  const lines = lineColors(words, width, height, runs, areas);
  return { runs, solid: withColorsOf(lines, runs, areas, name) };
}
