// Damaged PNGs from sound ones, the same for the same number.
import { crc32, deflateSync } from 'node:zlib';
import { numbers } from './numbers.mjs';

const SIGNATURE_LENGTH = 8;
/** Sides and lengths at the borders of what a PNG may say. */
const BORDERS = [0, 1, 2, 3, 13, 255, 256, 65_535, 65_536, 2 ** 20, 2 ** 24, 2 ** 27, 2 ** 27 + 1];
const LARGE = [2 ** 30, 2 ** 31 - 1, 2 ** 31, 2 ** 32 - 1];
/** Streams of a thousand times their size: zeros, what repeats, and one of stored blocks. */
const BOMBS = [
  deflateSync(new Uint8Array(2 ** 18), { level: 9 }),
  deflateSync(
    Uint8Array.from({ length: 2 ** 18 }, (_, i) => i % 251),
    { level: 9 },
  ),
  deflateSync(new Uint8Array(2 ** 16), { level: 0 }),
];
/** One of 32 MiB, more than all texts of a file may hold; seldom, for the time that it takes. */
const GREAT_BOMB = deflateSync(new Uint8Array(2 ** 25), { level: 9 });
const bomb = (random) => (random(100) === 0 ? GREAT_BOMB : BOMBS[random(BOMBS.length)]);

/** The chunks of a sound file: type and data. */
function split(file) {
  const chunks = [];
  const view = new DataView(file.buffer, file.byteOffset, file.byteLength);
  for (let at = SIGNATURE_LENGTH; at + 12 <= file.length; ) {
    const length = view.getUint32(at);
    const type = String.fromCharCode(...file.subarray(at + 4, at + 8));
    chunks.push({ type, data: file.slice(at + 8, at + 8 + length) });
    at += 12 + length;
  }
  return chunks;
}

/** A file of chunks; one may lie about its length or its CRC. */
function join(file, chunks) {
  const parts = [file.subarray(0, SIGNATURE_LENGTH)];
  for (const { type, data, length = data.length, crc } of chunks) {
    const chunk = new Uint8Array(12 + data.length);
    const view = new DataView(chunk.buffer);
    view.setUint32(0, length);
    for (let i = 0; i < 4; i++) chunk[4 + i] = type.charCodeAt(i);
    chunk.set(data, 8);
    view.setUint32(8 + data.length, crc ?? crc32(chunk.subarray(4, 8 + data.length)));
    parts.push(chunk);
  }
  return Uint8Array.from(Buffer.concat(parts));
}

/** Ways to damage a list of chunks, in place. */
const OF_CHUNKS = {
  'bits of data': (chunks, random) => {
    const { data } = chunks[random(chunks.length)];
    for (let n = random(4); n >= 0 && data.length > 0; n--) {
      data[random(data.length)] ^= 1 << random(8);
    }
  },
  'chunks swapped': (chunks, random) => {
    const [i, j] = [random(chunks.length), random(chunks.length)];
    [chunks[i], chunks[j]] = [chunks[j], chunks[i]];
  },
  'chunk dropped': (chunks, random) => chunks.splice(random(chunks.length), 1),
  'chunk doubled': (chunks, random) => {
    const i = random(chunks.length);
    chunks.splice(random(chunks.length + 1), 0, { ...chunks[i] });
  },
  'wrong length': (chunks, random) => {
    const chunk = chunks[random(chunks.length)];
    const borders = [...BORDERS, ...LARGE, chunk.data.length + 1, chunk.data.length + 12];
    chunk.length = borders[random(borders.length)];
  },
  'wrong CRC': (chunks, random) => {
    chunks[random(chunks.length)].crc = random(2 ** 32);
  },
  'other type': (chunks, random) => {
    const types = ['IHDR', 'PLTE', 'IDAT', 'IEND', 'tRNS', 'iTXt', 'zTXt', 'tEXt', 'pHYs', 'iCCP'];
    chunks[random(chunks.length)].type = types[random(types.length)];
  },
  'data cut': (chunks, random) => {
    const chunk = chunks[random(chunks.length)];
    chunk.data = chunk.data.slice(0, random(chunk.data.length + 1));
  },
  'other sides': (chunks, random) => {
    const view = new DataView(chunks[0].data.buffer);
    const sides = [...BORDERS, ...LARGE];
    view.setUint32(4 * random(2), sides[random(sides.length)]);
    if (random(2) === 0) view.setUint32(4 * random(2), sides[random(sides.length)]);
  },
  'other header': (chunks, random) => {
    chunks[0].data[8] = [1, 2, 4, 8, 16, random(256)][random(6)];
    chunks[0].data[9] = [0, 2, 3, 4, 6, random(256)][random(6)];
    if (random(2) === 0) chunks[0].data[10 + random(3)] = random(3);
  },
  'bomb as picture': (chunks, random) => {
    const at = chunks.findIndex(({ type }) => type === 'IDAT');
    const data = bomb(random);
    chunks[at] = { type: 'IDAT', data };
    if (random(2) === 0) OF_CHUNKS['other sides'](chunks, random);
  },
  'bomb as text': (chunks, random) => {
    const head = random(2) === 0 ? ['zTXt', 'a\0\0'] : ['iTXt', 'a\0\x01\0\0\0'];
    const data = Buffer.concat([Buffer.from(head[1], 'latin1'), bomb(random)]);
    for (let n = random(3); n >= 0; n--) chunks.splice(1, 0, { type: head[0], data });
  },
};

/** Ways to damage bytes. */
export const OF_BYTES = {
  'bits of the file': (file, random) => {
    const bytes = file.slice();
    for (let n = random(6); n >= 0; n--) bytes[random(bytes.length)] ^= 1 << random(8);
    return bytes;
  },
  'file cut': (file, random) => file.slice(0, random(file.length)),
  'bytes put in': (file, random) => {
    const at = random(file.length);
    const more = Uint8Array.from({ length: 1 + random(20) }, () => random(256));
    return Uint8Array.from([...file.subarray(0, at), ...more, ...file.subarray(at)]);
  },
  'bytes taken out': (file, random) => {
    const at = random(file.length);
    return Uint8Array.from([...file.subarray(0, at), ...file.subarray(at + 1 + random(20))]);
  },
};

export const KINDS = [...Object.keys(OF_CHUNKS), ...Object.keys(OF_BYTES)];

/** Mutation `number` of one of the files, with the names of what was done to it. */
export function mutate(files, number) {
  const random = numbers(number);
  const file = files[random(files.length)];
  const kind = KINDS[number % KINDS.length];
  if (kind in OF_BYTES) return { kind, bytes: OF_BYTES[kind](file, random) };
  const chunks = split(file);
  OF_CHUNKS[kind](chunks, random);
  // One time in four a second damage on top, where the first left a header to damage.
  const again = Object.keys(OF_CHUNKS)[random(4 * Object.keys(OF_CHUNKS).length)];
  const whole = chunks[0]?.data.length === 13 && chunks.some(({ type }) => type === 'IDAT');
  if (again !== undefined && whole) OF_CHUNKS[again](chunks, random);
  return { kind: again === undefined ? kind : `${kind}, ${again}`, bytes: join(file, chunks) };
}
