/** What is wrong with the bytes of a PNG; `cause` holds the inner error where there is one. */
export class PngError extends Error {
  override readonly name: string = 'PngError';
}
