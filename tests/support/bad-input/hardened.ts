/**
 * Arguments that a caller has frozen, whose memory is shared. Rasters become plain views: a frozen
 * ndarray is no less, but its methods would not be copied. What is no plain data stays as it is.
 */
export function hardened(value: unknown): unknown {
  if (ArrayBuffer.isView(value)) return shared(value);
  if (typeof value !== 'object' || value === null) return value;
  if (Array.isArray(value)) return Object.freeze(value.map(hardened));
  if ('data' in value && 'shape' in value && 'stride' in value && 'offset' in value) {
    const { data, shape, stride, offset } = value;
    return Object.freeze(hardenedFields({ data, shape, stride, offset }));
  }
  if (Object.getPrototypeOf(value) !== Object.prototype) return value;
  return Object.freeze(hardenedFields(value));
}

function hardenedFields(value: object): object {
  return Object.fromEntries(Object.entries(value).map(([key, own]) => [key, hardened(own)]));
}

/** A copy of the memory that is seen, under the same type of array. */
function shared(view: ArrayBufferView): unknown {
  const bytes = new Uint8Array(view.buffer, view.byteOffset, view.byteLength);
  const copy = new SharedArrayBuffer(bytes.length);
  new Uint8Array(copy).set(bytes);
  return new (view.constructor as new (memory: SharedArrayBuffer) => unknown)(copy);
}
