export { type StrokeEnd, strokeEnds } from './stroke-ends.ts';
export { type StrokeWidth, strokeWidth } from './stroke-width.ts';
export { thinInk } from './thin.ts';
