/** What is wrong with the bytes of a layered file; `cause` holds the inner error where there is one. */
export class LayersError extends Error {
  override readonly name: string = 'LayersError';
}
