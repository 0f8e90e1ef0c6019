// Plans one after another: `{ plans, at }`, never changed in place. The plan that counts is `plans[at]`.

/** Plans that are kept; chosen so that a day's corrections can be undone. */
const MOST = 500;

export const startHistory = (plan) => ({ plans: [plan], at: 0 });

export const planOf = ({ plans, at }) => plans[at];

/**
 * The history with a plan after the one that counts; what was undone is gone. With the `kind` of the
 * step before, such as the same slider moved on, the plan takes the place of that one.
 */
export function step({ plans, at, kind: before }, plan, kind) {
  const merges = kind !== undefined && kind === before && at > 0 && at === plans.length - 1;
  const kept = plans.slice(0, merges ? at : at + 1).slice(1 - MOST);
  return { plans: [...kept, plan], at: kept.length, ...(kind === undefined ? {} : { kind }) };
}

/** The history without the plan that counts, which was refused. */
export function dropStep({ plans, at }) {
  return { plans: plans.filter((_, i) => i !== at), at: at - 1 };
}

export const canUndo = ({ at }) => at > 0;

export const canRedo = ({ plans, at }) => at < plans.length - 1;

export const undo = ({ plans, at }) => ({ plans, at: at - 1 });

export const redo = ({ plans, at }) => ({ plans, at: at + 1 });
