// Plain data with one thing changed: what JSON, structured clone or a hand may do to it.
import { pick } from './numbers.mjs';

const NUMBERS = [0, -0, -1, 1, 0.5, 7, 255, 256, 65_536, 2 ** 31 - 1, -(2 ** 31), 2 ** 31, 2 ** 53];
const ODD = [Number.NaN, Infinity, -Infinity, 1e300, -1e300, 5e-324];
const TEXTS = [
  '',
  'bare',
  'ground',
  '#12345',
  '#ABCDEF',
  '__proto__',
  '\u0000',
  '\ud800',
  'a'.repeat(5000),
];
const ARRAYS = [Uint8Array, Uint16Array, Int32Array, Uint32Array, Float64Array];

const junk = (random) =>
  pick(
    [
      () => undefined,
      () => null,
      () => true,
      () => pick(NUMBERS, random),
      () => pick(ODD, random),
      () => pick(TEXTS, random),
      () => [],
      () => [[]],
      () => ({}),
      () => new (pick(ARRAYS, random))(random(40)),
      () => new Map([[1, 2]]),
      () => 10n,
      () => () => 1,
    ],
    random,
  )();

/** A copy of plain data with something changed, and how that is called. */
export function mutateData(data, random) {
  const copy = structuredClone(data);
  const [holder, key] = placeIn(copy, random);
  const value = holder[key];
  if (ArrayBuffer.isView(holder)) {
    holder[key] = random(2) === 0 ? value ^ (1 << random(31)) : pick(NUMBERS, random);
    return { kind: 'sample', data: copy };
  }
  const ways = {
    junk: () => junk(random),
    dropped: () => {
      if (Array.isArray(holder)) holder.splice(key, 1);
      else delete holder[key];
    },
    'of elsewhere': () => {
      const [other, from] = placeIn(copy, random);
      return other[from];
    },
    ...(typeof value === 'number' && {
      near: () => value + pick([-1, 1, 0.5, 1e-9, -1e-9, 1000], random),
      turned: () => -value,
      number: () => pick([...NUMBERS, ...ODD], random),
    }),
    ...(typeof value === 'string' && {
      cut: () => value.slice(0, random(value.length + 1)),
      letters: () => value + pick([' ', '\u0000', 'é', value, '<'], random),
    }),
    ...(Array.isArray(value) && {
      shorter: () => value.slice(0, random(value.length + 1)),
      longer: () => [...value, ...value],
      shuffled: () => [...value].reverse(),
      hole: () => Object.assign([...value], { [value.length + 1]: value[0] }),
      itself: () => [...value, value],
    }),
    ...(ArrayBuffer.isView(value) && {
      shorter: () => value.slice(0, random(value.length + 1)),
      longer: () => value.constructor.of(...value, ...value),
      'other samples': () => pick(ARRAYS, random).from(value),
    }),
    ...(isRecord(value) && { more: () => ({ ...value, more: 1 }) }),
  };
  const kind = pick(Object.keys(ways), random);
  const next = ways[kind]();
  if (kind !== 'dropped') holder[key] = next;
  return { kind, data: copy };
}

const isRecord = (value) => Object.prototype.toString.call(value) === '[object Object]';
const canEnter = (value) =>
  typeof value === 'object' && value !== null && Object.keys(value).length > 0;

/** A place anywhere in the data, as what holds it and the key there. */
function placeIn(data, random) {
  let holder = data;
  for (;;) {
    const key = pick(Object.keys(holder), random);
    const inner = holder[key];
    if (!canEnter(inner) || random(4) === 0) return [holder, key];
    holder = inner;
  }
}
