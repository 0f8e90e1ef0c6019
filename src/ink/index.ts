export { type InkCoverageOptions, inkCoverage } from './coverage.ts';
export { floatInk } from './float.ts';
export { otsuLevel } from './otsu.ts';
export {
  chooseThreshold,
  type ThresholdChoice,
  type ThresholdMethod,
  type ThresholdOptions,
  thresholdInk,
} from './threshold.ts';
