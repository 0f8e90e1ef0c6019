/** What XML 1.0 cannot hold at all: control characters, lone surrogates, U+FFFE and U+FFFF. */
const NO_XML =
  // biome-ignore lint/suspicious/noControlCharactersInRegex: they are what is looked for
  /[\u0000-\u0008\u000b\u000c\u000e-\u001f\ufffe\uffff]|[\ud800-\udbff](?![\udc00-\udfff])|(?<![\ud800-\udbff])[\udc00-\udfff]/g;

/**
 * A text for the content or a double-quoted attribute of XML; what XML cannot hold becomes U+FFFD.
 */
export function escapeText(text: string): string {
  return text
    .replace(NO_XML, '\ufffd')
    .replaceAll('&', '&amp;')
    .replaceAll('<', '&lt;')
    .replaceAll('>', '&gt;')
    .replaceAll('"', '&quot;');
}
