import { didYouMean, wrongKind, wrongValue } from './errors.ts';

/** What a number argument must be; `unit` completes the sentence of the error. */
export interface NumberRule {
  readonly min?: number;
  readonly max?: number;
  readonly integer?: boolean;
  readonly unit?: string;
}

/** A finite number within [min, max]; min is 0 and max unbounded when left out. */
export function checkNumber(value: unknown, name: string, rule: NumberRule = {}): number {
  const { min = 0, max = Number.POSITIVE_INFINITY, integer = false, unit = '' } = rule;
  const bounds = max === Number.POSITIVE_INFINITY ? `>= ${min}` : `from ${min} to ${max}`;
  const noun = integer ? 'a whole number' : 'a finite number';
  const allowed = `${noun}${unit === '' ? '' : ` of ${unit}`} ${bounds}`;
  if (typeof value !== 'number') throw wrongKind(name, allowed, value);
  const whole = !integer || Number.isInteger(value);
  if (!Number.isFinite(value) || !whole || value < min || value > max) {
    throw wrongValue(name, allowed, value);
  }
  return value;
}

/** One of a fixed set of words or numbers. */
export function checkOneOf<T extends string | number>(
  value: unknown,
  name: string,
  allowed: readonly T[],
): T {
  if ((allowed as readonly unknown[]).includes(value)) return value as T;
  const list = `one of ${allowed.map((v) => JSON.stringify(v)).join(', ')}`;
  if (typeof value !== typeof allowed[0]) throw wrongKind(name, list, value);
  const words = allowed.filter((v) => typeof v === 'string');
  const hint = typeof value === 'string' ? didYouMean(value, words) : '';
  throw new RangeError(`${wrongValue(name, list, value).message}${hint}`);
}

/** A function, or undefined. */
export function checkCallback<T extends (...args: never[]) => unknown>(
  value: T | undefined,
  name: string,
): T | undefined {
  if (value !== undefined && typeof value !== 'function')
    throw wrongKind(name, 'a function', value);
  return value;
}

/**
 * An options object that holds no name but the given ones. `undefined` passes as no options;
 * an unknown name is a TypeError that suggests the near one.
 */
export function checkOptions<T extends object>(
  options: T | undefined,
  call: string,
  names: readonly (keyof T & string)[],
): T {
  if (options === undefined) return {} as T;
  if (typeof options !== 'object' || options === null || Array.isArray(options)) {
    throw wrongKind(`options of ${call}`, 'an object', options);
  }
  for (const key of Object.keys(options)) {
    if (!(names as readonly string[]).includes(key)) {
      throw unknownName(call, 'option', key, names);
    }
  }
  return options;
}

/** An object holds a name that it does not take; suggests the near one. */
export function unknownName(
  owner: string,
  noun: string,
  key: string,
  names: readonly string[],
): TypeError {
  const hint = didYouMean(key, names) || '.';
  return new TypeError(
    `${owner} has no ${noun} ${JSON.stringify(key)}${hint} It takes: ${names.join(', ')}`,
  );
}

/** The sides of a picture, `[width, height]`. */
export function checkSize(value: unknown, name: string): readonly [number, number] {
  const allowed = '[width, height] in whole pixels >= 1';
  const isPair = Array.isArray(value) && value.length === 2;
  if (!isPair || !value.every((side) => typeof side === 'number')) {
    throw wrongKind(name, allowed, value);
  }
  if (!value.every((side) => Number.isInteger(side) && side >= 1)) {
    throw wrongValue(name, allowed, value);
  }
  return value as unknown as readonly [number, number];
}

/** A point `[x, y]` of finite continuous coordinates. */
export function checkPoint(value: unknown, name: string): readonly [number, number] {
  const isPair = Array.isArray(value) && value.length === 2;
  if (!isPair || typeof value[0] !== 'number' || typeof value[1] !== 'number') {
    throw wrongKind(name, 'a point [x, y]', value);
  }
  if (!value.every(Number.isFinite)) throw wrongValue(name, 'a point of finite numbers', value);
  return value as unknown as readonly [number, number];
}
