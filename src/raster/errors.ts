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
    if (name && name !== 'Object') return `${/^[AEIO]/.test(name) ? 'an' : 'a'} ${name}`;
    const keys = Object.keys(value).slice(0, 5).join(', ');
    return keys === '' ? 'an empty object' : `an object { ${keys} }`;
  }
  return String(value);
}

/**
 * `TypeError: <name> must be <allowed>, got <value><hint>`: the argument is of the wrong kind. A hint
 * begins with its own semicolon.
 */
export function wrongKind(name: string, allowed: string, value: unknown, hint = ''): TypeError {
  return new TypeError(`${name} must be ${allowed}, got ${describe(value)}${hint}`);
}

/** `RangeError: <name> must be <allowed>, got <value><hint>`: right kind, wrong value. */
export function wrongValue(name: string, allowed: string, value: unknown, hint = ''): RangeError {
  return new RangeError(`${name} must be ${allowed}, got ${describe(value)}${hint}`);
}

/**
 * The candidates nearest to `word` by edit distance (Levenshtein 1966), at most `most` of them, as
 * `; did you mean "x" or "y"?`, or an empty text when none is near. Near is what differs in no more
 * than half the letters. Ties go to the earlier candidate; names of more than 64 letters are near to
 * none. O(word · candidate) each.
 */
export function didYouMean(word: string, candidates: Iterable<string>, most = 1): string {
  const near = nearNames(word, candidates, most).map((name) => JSON.stringify(name));
  if (near.length === 0) return '';
  return `; did you mean ${near.length === 1 ? near[0] : `${near.slice(0, -1).join(', ')} or ${near.at(-1)}`}?`;
}

/** At most `most` candidates that are near to `word`, as `didYouMean` has it, the nearest first. */
function nearNames(word: string, candidates: Iterable<string>, most: number): string[] {
  if (word.length > LONGEST) return [];
  const wanted = word.toLowerCase();
  const farthest = Math.max(1, Math.floor(wanted.length / 2));
  const near: { candidate: string; distance: number }[] = [];
  for (const candidate of candidates) {
    if (Math.abs(candidate.length - wanted.length) > farthest) continue;
    const distance = editDistance(wanted, candidate.toLowerCase());
    if (distance <= farthest) near.push({ candidate, distance });
  }
  near.sort((a, b) => a.distance - b.distance);
  return near.slice(0, most).map(({ candidate }) => candidate);
}

/** Letters of a name beyond which no near ones are looked for: the search takes their product. */
const LONGEST = 64;

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
