import { checkNumber } from './checks.ts';
import { dataSum } from './data-sum.ts';
import { wrongKind, wrongValue } from './errors.ts';

/** Where whole numbers of saved data lie, and how many there are. */
export interface IntsRule {
  readonly length?: number;
  readonly min?: number;
  readonly max: number;
  /** Whether each is higher than the one before. */
  readonly ascending?: boolean;
}

/** Refuses saved data of another kind or version. */
export function checkHead(
  data: { readonly kind: unknown; readonly version: unknown },
  name: string,
  kind: string,
  version: number,
  allowed: string,
): void {
  if (typeof data !== 'object' || data === null || data.kind !== kind) {
    throw wrongKind(name, allowed, data);
  }
  if (data.version !== version) {
    throw wrongValue(`${name}.version`, `${version}, the format of this release`, data.version);
  }
}

/** Saved data with its sum, by which `checkSum` knows it again. */
export function withSum<T extends object>(saved: T): T & { readonly sum: number } {
  return { ...saved, sum: dataSum(saved) };
}

/** Refuses saved data that is not what was saved. */
export function checkSum({ sum, ...saved }: { readonly sum: number }, name: string): void {
  if (sum === dataSum(saved)) return;
  const hint = '; the data was changed since it was saved';
  throw wrongValue(`${name}.sum`, 'the sum of what it holds', sum, hint);
}

/** Refuses what is no Int32Array of numbers in a range. O(numbers). */
export function checkInts(value: Int32Array, name: string, rule: IntsRule): Int32Array {
  const { length, max, ascending = false } = rule;
  let { min = 0 } = rule;
  const count = length === undefined ? '' : ` of ${length} numbers`;
  if (!(value instanceof Int32Array) || (length !== undefined && value.length !== length)) {
    throw wrongKind(name, `an Int32Array${count}`, value);
  }
  for (let i = 0; i < value.length; i++) {
    const number = value[i]!;
    if (number < min || number > max) checkNumber(number, `${name}[${i}]`, { min, max });
    if (ascending) min = number + 1;
  }
  return value;
}
