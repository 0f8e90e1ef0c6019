/** Bytes of a name in UTF-8, its ending and a number beside: file systems allow 255. */
const MAX_BYTES = 200;

/**
 * Letters that a file system, a shell's listing or a ZIP reader refuses or hides: separators and what
 * Windows reserves, control characters, half surrogates, and marks that turn or hide text.
 */
const UNSAFE =
  // biome-ignore lint/suspicious/noControlCharactersInRegex: they are what is looked for
  /[<>:"/\\|?*\u0000-\u001f\u007f-\u009f\u200b-\u200f\u2028-\u202e\u2060-\u206f\ufeff\ufff0-\uffff]|\p{Surrogate}/gu;

/** Names of devices in Windows, whatever their ending (Microsoft, Naming files, paths, and namespaces). */
const DEVICE = /^(con|prn|aux|nul|conin\$|conout\$|(com|lpt)[0-9¹²³])(?=\s*(\.|$))/i;

/**
 * A file name for each name, without an ending: safe on every common file system, and no two the same,
 * not even where case and the composition of accents count for nothing. What is unsafe becomes `_`; of
 * names that would be one file, later ones get a number. O(letters).
 */
export function safeFileNames(names: readonly string[]): string[] {
  const taken = new Set<string>();
  const numbers = new Map<string, number>();
  return names.map((name) => {
    const safe = safeName(name);
    const key = fileKey(safe);
    let own = safe;
    let number = numbers.get(key) ?? 1;
    while (taken.has(fileKey(own))) own = `${safe} (${++number})`;
    numbers.set(key, number);
    taken.add(fileKey(own));
    return own;
  });
}

/** What file systems that fold case or accents compare. */
function fileKey(name: string): string {
  return name.normalize('NFKC').toLowerCase().toUpperCase().normalize('NFKC');
}

function safeName(name: string): string {
  // A dot or a space at the end is dropped by Windows, a dot in front hides, a hyphen is an option.
  const plain = cut(name.normalize('NFC').replace(UNSAFE, '_'))
    .replace(/[. \u00a0]+$/u, '_')
    .replace(/^[. \u00a0-]/u, '_');
  return plain === '' || DEVICE.test(plain) ? `_${plain}` : plain;
}

/** As many whole characters as there is room for. */
function cut(name: string): string {
  let bytes = 0;
  let kept = '';
  for (const letter of name) {
    const code = letter.codePointAt(0)!;
    bytes += code < 0x80 ? 1 : code < 0x800 ? 2 : code < 0x10000 ? 3 : 4;
    if (bytes > MAX_BYTES) break;
    kept += letter;
  }
  return kept;
}
