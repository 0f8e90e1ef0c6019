export { type Corrections, type CorrectionsOptions, correctionsNeeded } from './corrections.ts';
export { type VariationOfInformation, variationOfInformation } from './information.ts';
export { adjustedRandIndex } from './rand-index.ts';
export { type RegionScores, type RegionScoresOptions, regionScores } from './region-scores.ts';
