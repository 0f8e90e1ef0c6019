import { arg, type CallCases } from './case.ts';
import { CHECKS } from './checks.ts';
import { COLORS } from './colors.ts';
import { FILES } from './files.ts';
import { FLATS_CALLS } from './flats.ts';
import { INK_AND_GAPS } from './ink-and-gaps.ts';
import { optionsBad } from './kinds.ts';
import { REGIONS } from './regions.ts';

/** Every call with all that is wrong with its arguments, its options object included. */
export const CALLS: readonly CallCases[] = [
  ...FILES,
  ...INK_AND_GAPS,
  ...REGIONS,
  ...COLORS,
  ...FLATS_CALLS,
  ...CHECKS,
].map((cases) => {
  const { call, takes, args } = cases;
  if (takes === undefined) return cases;
  // options are the last argument that holds one of their names
  const at = args
    .filter((one) => takes.includes(one.at[1] as string))
    .reduce((most, one) => Math.max(most, one.at[0] as number), 0);
  const method = call.split('.').at(-1)!;
  return { ...cases, args: [...args, arg('options', [at], optionsBad(method, takes))] };
});
