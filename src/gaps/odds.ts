import { expMinus } from '../color/elementary.ts';

/** Log-odds of what is known: their probability is 1 to the last bit. */
export const CERTAIN = 40;

/** The probability of log-odds. */
export function probabilityOf(odds: number): number {
  const rest = expMinus(Math.abs(odds));
  return odds < 0 ? rest / (1 + rest) : 1 / (1 + rest);
}
