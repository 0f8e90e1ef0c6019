import { expMinus } from '../color/elementary.ts';

/** What is seen at a possible bridge; none of it depends on the picture's scale. */
export interface Evidence {
  /** Paper under the bridge, in stroke widths. */
  readonly widths: number;
  /** Cosine of the turn from the end's direction into the bridge. */
  readonly turn: number;
  /** The same at the other end; left out where the bridge meets the side of a stroke. */
  readonly turnBack?: number;
  /** The narrower of two ends as a share of the wider. */
  readonly match?: number;
}

/**
 * Log-odds that a stroke was meant to go on across the gap: a sum with one term per kind of
 * evidence. The weights start from a logistic regression on gaps cut at random into drawings with
 * known regions, against the other candidates there that would split a region. For a stroke that
 * lies ahead they were then lowered: detail strokes end near another on purpose.
 */
export function logOdds({ widths, turn, turnBack, match = 1 }: Evidence): number {
  if (turnBack === undefined) return 3.7 - 2.25 * widths - 18 * (1 - turn);
  const worst = 1 - Math.min(turn, turnBack);
  const other = 1 - Math.max(turn, turnBack);
  return 5.4 - 1.2 * widths - 3 * worst - 9 * other - 2 * (1 - match);
}

/** The probability of log-odds. */
export function probabilityOf(odds: number): number {
  const rest = expMinus(Math.abs(odds));
  return odds < 0 ? rest / (1 + rest) : 1 / (1 + rest);
}

/** The evidence in plain words. */
export function describeEvidence({ widths, turn, turnBack }: Evidence): string {
  const far = `${Math.round(10 * widths) / 10} widths away`;
  if (turnBack === undefined) {
    return `a stroke ${far} lies ${turn > 0.98 ? 'straight ahead' : 'slightly aside'}`;
  }
  const worst = Math.min(turn, turnBack);
  if (worst > 0.96) return `two ends face each other, ${far}`;
  return worst > 0.85 ? `two ends bend towards each other, ${far}` : `two ends stand askew, ${far}`;
}
