import { LayersError } from './layers-error.ts';

/** A file in a ZIP, as the central directory has it. */
export interface ZipEntry {
  readonly name: string;
  /** 0: stored, 8: deflated. */
  readonly method: 0 | 8;
  /** Of the bytes themselves. */
  readonly crc: number;
  readonly size: number;
  /** The bytes as they stand in the file, a view of it. */
  readonly packed: Uint8Array;
}

const END = 0x06054b50;
const CENTRAL = 0x02014b50;
const LOCAL = 0x04034b50;
const END_BYTES = 22;
const CENTRAL_BYTES = 46;
const LOCAL_BYTES = 30;
const MAX_COMMENT = 65_535;
const ENCRYPTED = 1;

/**
 * The files of a ZIP by name, from its central directory; nothing is inflated. Every place that the
 * directory names must lie in the file, and the name in front of the data must be the same.
 *
 * Reference: APPNOTE.TXT 6.3.10 (PKWARE), 4.3; of one disk, without encryption and without ZIP64, and
 * stored or deflated, as OpenRaster asks for. O(entries + name bytes).
 */
export function zipEntries(file: Uint8Array): Map<string, ZipEntry> {
  const view = new DataView(file.buffer, file.byteOffset, file.byteLength);
  const end = endRecord(view);
  const disks = view.getUint32(end + 4);
  const count = view.getUint16(end + 10, true);
  const length = view.getUint32(end + 12, true);
  let at = view.getUint32(end + 16, true);
  if (disks !== 0 || count === 0xffff || at === 0xffffffff) {
    throw new LayersError('the ZIP must be on one disk and no ZIP64');
  }
  if (at + length > end) throw new LayersError('the directory of the ZIP lies outside of the file');
  const limit = at + length;
  const entries = new Map<string, ZipEntry>();
  for (let i = 0; i < count; i++) {
    if (at + CENTRAL_BYTES > limit || view.getUint32(at, true) !== CENTRAL) {
      throw new LayersError(`the directory of the ZIP must have ${count} entries, got ${i}`);
    }
    const nameEnd = at + CENTRAL_BYTES + view.getUint16(at + 28, true);
    const next = nameEnd + view.getUint16(at + 30, true) + view.getUint16(at + 32, true);
    if (next > limit) throw new LayersError('the directory of the ZIP is cut off');
    const entry = readEntry(file, view, at, file.subarray(at + CENTRAL_BYTES, nameEnd));
    if (entries.has(entry.name)) {
      throw new LayersError(`the ZIP must hold each file once, got ${quote(entry.name)} twice`);
    }
    entries.set(entry.name, entry);
    at = next;
  }
  return entries;
}

/** Place of the record that ends a ZIP; behind it there is nothing but its own comment. */
function endRecord(view: DataView): number {
  const last = view.byteLength - END_BYTES;
  for (let at = last; at >= 0 && at >= last - MAX_COMMENT; at--) {
    if (view.getUint32(at, true) !== END) continue;
    if (at + END_BYTES + view.getUint16(at + 20, true) === view.byteLength) return at;
  }
  throw new LayersError('not an OpenRaster file: it does not end as a ZIP does');
}

function readEntry(file: Uint8Array, view: DataView, at: number, nameBytes: Uint8Array): ZipEntry {
  const name = new TextDecoder().decode(nameBytes);
  const flags = view.getUint16(at + 8, true);
  const method = view.getUint16(at + 10, true);
  const packedSize = view.getUint32(at + 20, true);
  const size = view.getUint32(at + 24, true);
  const local = view.getUint32(at + 42, true);
  if ((flags & ENCRYPTED) !== 0) throw new LayersError(`${quote(name)} in the ZIP is encrypted`);
  if (method !== 0 && method !== 8) {
    throw new LayersError(
      `${quote(name)} in the ZIP must be stored or deflated, got method ${method}`,
    );
  }
  const headEnd = local + LOCAL_BYTES;
  if (headEnd > file.length || view.getUint32(local, true) !== LOCAL) {
    throw new LayersError(`${quote(name)} is not where the directory of the ZIP says`);
  }
  const nameEnd = headEnd + view.getUint16(local + 26, true);
  const start = nameEnd + view.getUint16(local + 28, true);
  if (start + packedSize > file.length) throw new LayersError(`${quote(name)} is cut off`);
  const ownName = file.subarray(headEnd, nameEnd);
  if (
    ownName.length !== nameBytes.length ||
    !ownName.every((byte, i) => byte === nameBytes[i]) ||
    (method === 0 && packedSize !== size)
  ) {
    throw new LayersError(`${quote(name)} is not what the directory of the ZIP says`);
  }
  const crc = view.getUint32(at + 16, true);
  return { name, method, crc, size, packed: file.subarray(start, start + packedSize) };
}

function quote(name: string): string {
  return JSON.stringify(name.length > 60 ? `${name.slice(0, 60)}…` : name);
}
