/** Cases of bad input as data: what is put in place of a sound argument, and what is said of it. */

type ErrorName = 'TypeError' | 'RangeError' | 'PngError' | 'LayersError';

/** One wrong value of an argument. */
export interface Bad {
  /** What is wrong, for people. */
  readonly what: string;
  /** The wrong value, made anew for each case. */
  readonly value: () => unknown;
  readonly error: ErrorName;
  /** How the message begins: the argument and what is allowed. */
  readonly says: string;
  /** What else the message holds: what came, or a hint. */
  readonly tells?: RegExp;
  /** A kind of argument that is refused in the same way everywhere, with the name in this place. */
  readonly of?: { readonly kind: string; readonly name: string };
}

/** Keys and places that lead from the list of arguments to the one that is wrong. */
export type Path = readonly (string | number)[];

export interface BadArgument {
  /** How the doc names it. */
  readonly name: string;
  readonly at: Path;
  readonly bad: readonly Bad[];
}

/** All that is wrong with the arguments of one public call. */
export interface CallCases {
  /** The name under which it is exported, or `owner.method`. */
  readonly call: string;
  readonly run: (...args: never[]) => unknown;
  /** Arguments that are taken, with every option, made anew. */
  readonly sound: () => unknown[];
  readonly args: readonly BadArgument[];
  /** The option names that it takes, by the place of the options. */
  readonly takes?: readonly string[];
}

export function arg(
  name: string,
  at: Path,
  ...bad: readonly (Bad | readonly Bad[])[]
): BadArgument {
  return { name, at, bad: bad.flat() };
}

/** A value of the wrong kind: `TypeError: <says>, got …`. */
export function kind(what: string, value: () => unknown, says: string, tells?: RegExp): Bad {
  return { what, value, error: 'TypeError', says, ...(tells && { tells }) };
}

/** A wrong value of the right kind: `RangeError: <says>, got …`. */
export function range(what: string, value: () => unknown, says: string, tells?: RegExp): Bad {
  return { what, value, error: 'RangeError', says, ...(tells && { tells }) };
}

/**
 * The same arguments with another value at a path. What lies on the way is copied, so that a sound
 * argument is not changed.
 */
export function withValue(args: readonly unknown[], at: Path, value: unknown): unknown[] {
  const copy = [...args];
  let holder: Record<string | number, unknown> = copy as never;
  at.slice(0, -1).forEach((key) => {
    const inner = holder[key] as object;
    const own = Array.isArray(inner)
      ? [...inner]
      : Object.assign(Object.create(Object.getPrototypeOf(inner)), inner);
    holder[key] = own;
    holder = own;
  });
  holder[at.at(-1)!] = value;
  return copy;
}

/** The same cases as those of a kind of argument, which the page of errors tells once. */
export function ofKind(kind: string, name: string, bad: readonly Bad[]): Bad[] {
  return bad.map((one) => ({ ...one, of: { kind, name } }));
}
