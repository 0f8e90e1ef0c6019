// The table of thresholds: a line each, whose name is the option `method`.
export { fixed } from './fixed.ts';
export { hysteresis } from './hysteresis.ts';
export { otsu } from './otsu.ts';
export { sauvola } from './sauvola.ts';
