import type { Method } from './threshold-method.ts';
import * as METHODS from './threshold-methods.ts';

type Table = typeof METHODS;
/** @inline */
type Name = keyof Table;
/** @inline */
type Settled = ReturnType<Table[Name]['settle']>;

/** How to threshold; `auto` is what {@link chooseThreshold} says. */
export type ThresholdMethod = 'auto' | Name;

/** The options of all methods together. */
export type OwnOptions = Table[Name]['check'] extends (options: infer Options) => void
  ? Options
  : never;

/**
 * A way to threshold, with the reason why. All but `why` are options of `thresholdInk`; `normalize`
 * says whether the coverage is first measured against the paper around.
 */
export type ThresholdChoice = Settled & {
  readonly normalize: boolean;
};

const TABLE: Readonly<Record<Name, Method<OwnOptions, Settled>>> = METHODS;

/** Names of the methods. */
export const NAMES: readonly Name[] = Object.keys(TABLE) as Name[];
/** Names of the options that methods take, each once. */
export const OWN_OPTIONS: readonly (keyof OwnOptions)[] = [
  ...new Set(Object.values(TABLE).flatMap(({ options }) => options)),
];

export function methodOf(name: Name): Method<OwnOptions, Settled> {
  return TABLE[name];
}
