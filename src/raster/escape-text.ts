/** What XML 1.0 cannot hold at all: control characters, lone surrogates, U+FFFE and U+FFFF. */
const NO_XML =
  // biome-ignore lint/suspicious/noControlCharactersInRegex: they are what is looked for
  /[\u0000-\u0008\u000b\u000c\u000e-\u001f\ufffe\uffff]|[\ud800-\udbff](?![\udc00-\udfff])|(?<![\ud800-\udbff])[\udc00-\udfff]/g;

/** A text in which what XML cannot hold is U+FFFD. */
export function xmlText(text: string): string {
  return text.replace(NO_XML, '\ufffd');
}

/**
 * A text for the content or a double-quoted attribute of XML; what XML cannot hold becomes U+FFFD.
 */
export function escapeText(text: string): string {
  return xmlText(text)
    .replaceAll('&', '&amp;')
    .replaceAll('<', '&lt;')
    .replaceAll('>', '&gt;')
    .replaceAll('"', '&quot;');
}

/**
 * The same for an attribute that is read back letter by letter: line ends and tabs, which a reader
 * makes spaces of (XML 1.0, 3.3.3), are character references.
 */
export function escapeAttribute(text: string): string {
  return escapeText(text).replace(/[\t\n\r]/g, (letter) => `&#${letter.charCodeAt(0)};`);
}
