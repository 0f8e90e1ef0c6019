import { describe, didYouMean, wrongKind, wrongValue } from './errors.ts';

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
  throw wrongValue(name, list, value, typeof value === 'string' ? didYouMean(value, words) : '');
}

/** A string; `allowed` completes "must be …". */
export function checkString(value: unknown, name: string, allowed = 'a string'): string {
  if (typeof value !== 'string') throw wrongKind(name, allowed, value);
  return value;
}

/** An array; in the copy that is given, holes are undefined, so that each item meets its check. */
export function checkList<T>(value: readonly T[], name: string, allowed: string): T[] {
  if (!Array.isArray(value)) throw wrongKind(name, allowed, value);
  return Array.from(value as readonly T[]);
}

/** An object that is read by its keys. A `Map` has none, so it would be passed over in silence. */
export function checkRecord<T extends object>(value: T, name: string, allowed: string): T {
  if (Object.prototype.toString.call(value) !== '[object Object]') {
    const hint = value instanceof Map ? '; Object.fromEntries(map) makes an object of it' : '';
    throw wrongKind(name, allowed, value, hint);
  }
  return value;
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
  checkRecord(options, `options of ${call}`, 'an object');
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
    `${owner} has no ${noun} ${describe(key)}${hint} It takes: ${names.join(', ')}`,
  );
}

/** More pixels than this could not be counted in the Int32 that labels and indices use. */
const MAX_PIXELS = 2 ** 31 - 1;

/** Checked sides must not hold more pixels than can be counted. */
export function checkPixelCount(width: number, height: number, name: string): void {
  if (width * height > MAX_PIXELS) {
    throw new RangeError(
      `${name} must have at most ${MAX_PIXELS} pixels, got ${width} × ${height}`,
    );
  }
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
  const [width, height] = value as unknown as readonly [number, number];
  checkPixelCount(width, height, name);
  return [width, height];
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
