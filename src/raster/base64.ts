/** Base64 (RFC 4648), in chunks of whole triples, so that no text is long while it is made. */
export function base64(bytes: Uint8Array): string {
  const chunks: string[] = [];
  for (let i = 0; i < bytes.length; i += 6144) {
    chunks.push(btoa(String.fromCharCode(...bytes.subarray(i, i + 6144))));
  }
  return chunks.join('');
}
