/** Short text of a value for an error message: what came, not all of it. */
export function describe(value: unknown): string {
  if (typeof value === 'string') {
    return JSON.stringify(value.length > 40 ? `${value.slice(0, 40)}…` : value);
  }
  if (typeof value === 'function') return 'a function';
  if (Array.isArray(value)) {
    const text = value.every((v) => typeof v === 'number') ? value.slice(0, 6).join(', ') : '…';
    return value.length <= 6 && text !== '…' ? `[${text}]` : `an array of ${value.length}`;
  }
  if (ArrayBuffer.isView(value)) {
    const length = 'length' in value ? `(${value.length})` : '';
    return `${value.constructor.name}${length}`;
  }
  if (typeof value === 'object' && value !== null) {
    const name = value.constructor?.name;
    if (name && name !== 'Object') return `a ${name}`;
    const keys = Object.keys(value).slice(0, 5).join(', ');
    return keys === '' ? 'an empty object' : `an object { ${keys} }`;
  }
  return String(value);
}

/** `TypeError: <name> must be <allowed>, got <value>`: the argument is of the wrong kind. */
export function wrongKind(name: string, allowed: string, value: unknown): TypeError {
  return new TypeError(`${name} must be ${allowed}, got ${describe(value)}`);
}

/** `RangeError: <name> must be <allowed>, got <value>`: right kind, wrong value. */
export function wrongValue(name: string, allowed: string, value: unknown): RangeError {
  return new RangeError(`${name} must be ${allowed}, got ${describe(value)}`);
}

/**
 * The candidate nearest to `word` by edit distance (Levenshtein 1966), as `; did you mean "x"?`, or
 * an empty text when none is near. Ties go to the earlier candidate. O(word · candidate) each.
 */
export function didYouMean(word: string, candidates: Iterable<string>): string {
  const wanted = word.toLowerCase();
  let best = '';
  let bestDistance = Math.max(1, Math.floor(wanted.length / 2)) + 1;
  for (const candidate of candidates) {
    const distance = editDistance(wanted, candidate.toLowerCase());
    if (distance < bestDistance) {
      best = candidate;
      bestDistance = distance;
    }
  }
  return best === '' ? '' : `; did you mean ${JSON.stringify(best)}?`;
}

function editDistance(a: string, b: string): number {
  let previous = Array.from({ length: b.length + 1 }, (_, j) => j);
  for (let i = 1; i <= a.length; i++) {
    const row = [i];
    for (let j = 1; j <= b.length; j++) {
      const replaced = previous[j - 1]! + (a[i - 1] === b[j - 1] ? 0 : 1);
      row.push(Math.min(replaced, previous[j]! + 1, row[j - 1]! + 1));
    }
    previous = row;
  }
  return previous[b.length]!;
}
