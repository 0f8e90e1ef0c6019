export { chooseThreshold, type ThresholdChoice } from './choose-threshold.ts';
export { type ClearPaperOptions, clearPaper } from './clear-paper.ts';
export { type InkCoverageOptions, inkCoverage } from './coverage.ts';
export type { HueRange } from './drop-hue.ts';
export { normalizePaper } from './normalize-paper.ts';
export { otsuLevel } from './otsu.ts';
export { fillPinholes, removeSpecks, type SmallPartOptions } from './specks.ts';
export {
  type ThresholdMethod,
  type ThresholdOptions,
  thresholdInk,
} from './threshold.ts';
