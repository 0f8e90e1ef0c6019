/**
 * One seed for all property tests, so that a run that passed passes again. `UNDERINK_SEED` sets
 * another: a whole number, or `random` for one that is drawn and printed.
 */
import fc from 'fast-check';

/** Chosen, not measured. */
const SEED = 20_231;

const asked = process.env.UNDERINK_SEED;
const seed = asked === undefined ? SEED : asked === 'random' ? drawSeed() : Number(asked);
if (!Number.isInteger(seed)) {
  throw new RangeError(`UNDERINK_SEED must be a whole number or "random", got "${asked}"`);
}
if (asked !== undefined) console.log(`seed of the property tests: UNDERINK_SEED=${seed}`);
fc.configureGlobal({ ...fc.readConfigureGlobal(), seed });

function drawSeed(): number {
  return Math.floor(Math.random() * 2 ** 31);
}
