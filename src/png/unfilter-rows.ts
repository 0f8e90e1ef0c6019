/** Bits of each byte of a word but the highest, and the highest. */
const LOW = 0x7f7f7f7f;
const HIGH = 0x80808080;

/**
 * Undoes the filters of PNG (specification, 9.2) in place: `height` rows of `rowBytes` behind a
 * filter byte each, from `start` on, become rows without gaps from `start` on. They move towards
 * lower places only, so that nothing is read after it was written over. O(bytes).
 *
 * @param bpp - Bytes of a whole pixel, 1 for less.
 * @throws RangeError for a filter that there is not.
 */
export function unfilterRows(
  bytes: Uint8Array,
  start: number,
  height: number,
  rowBytes: number,
  bpp: number,
): void {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  for (let y = 0; y < height; y++) {
    const from = start + y * (rowBytes + 1) + 1;
    const to = start + y * rowBytes;
    const filter = bytes[from - 1]!;
    if (filter === 0 || (filter === 2 && y === 0)) bytes.copyWithin(to, from, from + rowBytes);
    else if (filter === 1) undoSub(bytes, from, to, rowBytes, bpp);
    else if (filter === 2) undoUp(bytes, view, from, to, rowBytes);
    else if (filter === 3) undoAverage(bytes, from, to, rowBytes, bpp, y === 0);
    else if (filter === 4) undoPaeth(bytes, from, to, rowBytes, bpp, y === 0);
    else throw new RangeError(`a row must have a filter from 0 to 4, got ${filter} in row ${y}`);
  }
}

function undoSub(bytes: Uint8Array, from: number, to: number, length: number, bpp: number): void {
  bytes.copyWithin(to, from, from + Math.min(bpp, length));
  for (let i = bpp; i < length; i++) bytes[to + i] = bytes[from + i]! + bytes[to + i - bpp]!;
}

/** Four bytes at a time: their low seven bits are added as one word, the highest without a carry. */
function undoUp(bytes: Uint8Array, view: DataView, from: number, to: number, length: number): void {
  const words = length - (length % 4);
  for (let i = 0; i < words; i += 4) {
    const above = view.getInt32(to + i - length, true);
    const change = view.getInt32(from + i, true);
    const sum = ((above & LOW) + (change & LOW)) ^ ((above ^ change) & HIGH);
    view.setInt32(to + i, sum, true);
  }
  for (let i = words; i < length; i++) bytes[to + i] = bytes[from + i]! + bytes[to + i - length]!;
}

function undoAverage(
  bytes: Uint8Array,
  from: number,
  to: number,
  length: number,
  bpp: number,
  isFirst: boolean,
): void {
  for (let i = 0; i < length; i++) {
    const left = i < bpp ? 0 : bytes[to + i - bpp]!;
    const above = isFirst ? 0 : bytes[to + i - length]!;
    bytes[to + i] = bytes[from + i]! + ((left + above) >> 1);
  }
}

function undoPaeth(
  bytes: Uint8Array,
  from: number,
  to: number,
  length: number,
  bpp: number,
  isFirst: boolean,
): void {
  for (let i = 0; i < length; i++) {
    const left = i < bpp ? 0 : bytes[to + i - bpp]!;
    const above = isFirst ? 0 : bytes[to + i - length]!;
    const corner = isFirst || i < bpp ? 0 : bytes[to + i - length - bpp]!;
    const byLeft = Math.abs(above - corner);
    const byAbove = Math.abs(left - corner);
    const byCorner = Math.abs(left + above - 2 * corner);
    const nearest =
      byLeft <= byAbove && byLeft <= byCorner ? left : byAbove <= byCorner ? above : corner;
    bytes[to + i] = bytes[from + i]! + nearest;
  }
}
