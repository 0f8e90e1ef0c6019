import type { Method } from './threshold-method.ts';
import * as METHODS from './threshold-methods.ts';

type Table = typeof METHODS;
type Settled = ReturnType<Table[keyof Table]['settle']>;

/** How to threshold; `auto` is what {@link chooseThreshold} says. */
export type ThresholdMethod = 'auto' | keyof Table;

/** The options of all methods together. */
export type OwnOptions = Table[keyof Table]['check'] extends (options: infer Options) => void
  ? Options
  : never;

/**
 * A way to threshold, with the reason why. All but `why` are options of `thresholdInk`; `normalize`
 * says whether the coverage is first measured against the paper around.
 */
export type ThresholdChoice = ReturnType<(typeof METHODS)[keyof typeof METHODS]['settle']> & {
  readonly normalize: boolean;
};

const TABLE: Readonly<Record<keyof Table, Method<OwnOptions, Settled>>> = METHODS;

/** Names of the methods. */
export const NAMES: readonly (keyof Table)[] = Object.keys(TABLE) as (keyof Table)[];
/** Names of the options that methods take, each once. */
export const OWN_OPTIONS: readonly (keyof OwnOptions)[] = [
  ...new Set(Object.values(TABLE).flatMap(({ options }) => options)),
];

export function methodOf(name: keyof Table): Method<OwnOptions, Settled> {
  return TABLE[name];
}
