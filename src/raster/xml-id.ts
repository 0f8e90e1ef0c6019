/** What a Name of XML 1.0 (fifth edition, 2.3) may start with, and have behind; colons are for namespaces. */
const START =
  'A-Z_a-z\\u{c0}-\\u{d6}\\u{d8}-\\u{f6}\\u{f8}-\\u{2ff}\\u{370}-\\u{37d}\\u{37f}-\\u{1fff}\\u{200c}\\u{200d}\\u{2070}-\\u{218f}\\u{2c00}-\\u{2fef}\\u{3001}-\\u{d7ff}\\u{f900}-\\u{fdcf}\\u{fdf0}-\\u{fffd}\\u{10000}-\\u{effff}';
const NO_NAME = new RegExp(`[^${START}\\-.0-9\\u{b7}\\u{300}-\\u{36f}\\u{203f}\\u{2040}]`, 'gu');
const NO_START = new RegExp(`^(?![${START}])`, 'u');

/**
 * A valid `id` of XML for a name, none of those in `taken`, to which it is added: what an id cannot hold
 * becomes `_`, and a number tells those apart that would be the same.
 */
export function xmlId(name: string, taken: Set<string>): string {
  const id = name.replace(NO_NAME, '_').replace(NO_START, '_');
  let own = id;
  for (let n = 2; taken.has(own); n++) own = `${id}-${n}`;
  taken.add(own);
  return own;
}
