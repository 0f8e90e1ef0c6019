import { GOLDEN, scatter } from './scatter.ts';

/** Data that lies deeper than this refers to itself, or is none of ours. */
const DEEPEST = 64;
/** What leads to a value of each kind, so that `1`, `'1'` and `[1]` differ. */
const KINDS = {
  number: 1,
  string: 2,
  boolean: 3,
  null: 4,
  list: 5,
  record: 6,
  bytes: 7,
  clamped: 8,
  halves: 9,
  signed: 10,
  words: 11,
};

/**
 * A number of 32 bits over all that plain data holds: numbers, texts, lists, records and typed arrays
 * of whole numbers. A change of any of it gives another number but for one time in 2³²; it is no
 * protection against data that is forged. The order of a record's keys is left out of account, and so
 * is a field that is undefined. NaN for what is not plain, or refers to itself. O(bytes).
 *
 * Each value counts by the way that leads to it, and the counts are added up.
 */
export function dataSum(data: unknown): number {
  const values: unknown[] = [data];
  const ways: number[] = [0];
  const depths: number[] = [0];
  const known = new Map<string, number>();
  let sum = 0;
  while (values.length > 0) {
    const value = values.pop();
    const way = ways.pop()!;
    const depth = depths.pop()!;
    if (value === undefined) continue;
    const own = sumOfOne(value);
    if (Number.isNaN(own) || depth > DEEPEST) return Number.NaN;
    sum = (sum + scatter(way ^ own)) | 0;
    if (typeof value !== 'object' || value === null || ArrayBuffer.isView(value)) continue;
    const base = scatter(way + 1);
    const list = Array.isArray(value) ? (value as unknown[]) : undefined;
    const keys = list ?? Object.keys(value);
    for (let i = 0; i < keys.length; i++) {
      const key = keys[i] as string;
      values.push(list === undefined ? (value as Record<string, unknown>)[key] : list[i]);
      ways.push(scatter(base ^ (list === undefined ? sumOfKey(key, known) : i)));
      depths.push(depth + 1);
    }
  }
  return scatter(sum);
}

/** Of a value without what lies in it; NaN for what is not plain. */
function sumOfOne(value: unknown): number {
  if (typeof value === 'number') return mixed(KINDS.number, sumOfNumber(value));
  if (typeof value === 'string') return mixed(KINDS.string, sumOfText(value));
  if (typeof value === 'boolean') return mixed(KINDS.boolean, value ? 1 : 0);
  if (value === null) return mixed(KINDS.null, 0);
  if (Array.isArray(value)) return mixed(KINDS.list, value.length);
  if (ArrayBuffer.isView(value)) return sumOfView(value);
  const isRecord = Object.prototype.toString.call(value) === '[object Object]';
  return isRecord ? mixed(KINDS.record, 0) : Number.NaN;
}

const FLOAT = new DataView(new ArrayBuffer(8));

function sumOfNumber(value: number): number {
  if (Number.isNaN(value)) return 1;
  // −0 becomes 0, as in JSON
  FLOAT.setFloat64(0, value + 0);
  return mixed(FLOAT.getInt32(0), FLOAT.getInt32(4));
}

/** Records of one kind have the same keys again and again. */
function sumOfKey(key: string, known: Map<string, number>): number {
  let sum = known.get(key);
  if (sum === undefined) {
    sum = sumOfText(key);
    known.set(key, sum);
  }
  return sum;
}

function sumOfText(text: string): number {
  let sum = text.length;
  for (let i = 0; i < text.length; i++) sum = mixed(sum, text.charCodeAt(i));
  return sum;
}

function sumOfView(view: ArrayBufferView): number {
  if (view instanceof Uint8Array) return mixed(KINDS.bytes, sumOfBytes(view));
  if (view instanceof Uint8ClampedArray) return mixed(KINDS.clamped, sumOfBytes(view));
  if (view instanceof Uint16Array) return mixed(KINDS.halves, sumOfWords(view));
  if (view instanceof Int32Array) return mixed(KINDS.signed, sumOfWords(view));
  if (view instanceof Uint32Array) return mixed(KINDS.words, sumOfWords(view));
  return Number.NaN;
}

/** Four bytes at a time, the same on every machine. */
function sumOfBytes(bytes: Uint8Array | Uint8ClampedArray): number {
  const whole = bytes.length & ~3;
  let sum = bytes.length;
  for (let i = 0; i < whole; i += 4) {
    const word = bytes[i]! | (bytes[i + 1]! << 8) | (bytes[i + 2]! << 16) | (bytes[i + 3]! << 24);
    sum = mixed(sum, word);
  }
  for (let i = whole; i < bytes.length; i++) sum = mixed(sum, bytes[i]!);
  return sum;
}

function sumOfWords(words: Int32Array | Uint32Array | Uint16Array): number {
  let sum = words.length;
  for (let i = 0; i < words.length; i++) sum = mixed(sum, words[i]!);
  return sum;
}

/** One word more: a bijection of either where the other stays. */
function mixed(sum: number, word: number): number {
  const next = Math.imul(sum ^ word, GOLDEN);
  return next ^ (next >>> 15);
}
