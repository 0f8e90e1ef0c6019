export { colorDifference } from './color-difference.ts';
export type { Lab } from './lab.ts';
