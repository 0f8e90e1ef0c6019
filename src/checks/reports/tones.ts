import type { FindingSeverity } from '../finding.ts';

/**
 * Red, amber and blue of about one lightness, chosen apart from one another for people who confuse red
 * and green too. A report names the severity in words beside them.
 */
export const TONES: Readonly<Record<FindingSeverity, readonly [number, number, number]>> = {
  error: [214, 0, 50],
  warning: [201, 116, 0],
  information: [0, 106, 214],
};
