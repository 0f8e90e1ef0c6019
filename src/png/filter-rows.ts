import type { Encodable } from './encode.ts';

const NONE = 0;
const UP = 2;

/**
 * The rows as PNG packs them, each behind its filter byte, 16 bit samples high byte first.
 *
 * `up` leaves zeros wherever a row is the row above, as most of a row of flats is: deflate finds
 * these at once. Only 8 bit samples are filtered. O(samples).
 */
export function filterRows(
  { width, height, channels, data }: Encodable,
  filter: 'none' | 'up',
): Uint8Array {
  const samples = width * channels;
  if (data instanceof Uint16Array) return wideRows(data, samples, height);
  const rows = new Uint8Array((samples + 1) * height);
  for (let y = 0; y < height; y++) {
    const row = data.subarray(y * samples, (y + 1) * samples);
    const at = y * (samples + 1);
    rows[at] = filter === 'up' && y > 0 ? UP : NONE;
    if (rows[at] === NONE) rows.set(row, at + 1);
  }
  if (filter === 'up') subtractAbove(data, samples, height, rows);
  return rows;
}

function wideRows(data: Uint16Array, samples: number, height: number): Uint8Array {
  const rows = new Uint8Array((2 * samples + 1) * height);
  for (let y = 0, i = 0, to = 0; y < height; y++) {
    rows[to++] = NONE;
    for (let s = 0; s < samples; s++) {
      const sample = data[i++]!;
      rows[to++] = sample >> 8;
      rows[to++] = sample;
    }
  }
  return rows;
}

/** The differences from row to row into `rows`, which is 0; equal words of 4 bytes are passed over. */
function subtractAbove(
  data: Uint8Array | Uint8ClampedArray,
  samples: number,
  height: number,
  rows: Uint8Array,
): void {
  const view = new DataView(data.buffer, data.byteOffset, data.byteLength);
  const words = samples - (samples % 4);
  for (let y = 1; y < height; y++) {
    const row = y * samples;
    const to = y * (samples + 1) + 1;
    for (let x = 0; x < words; x += 4) {
      const at = row + x;
      if (view.getInt32(at, true) === view.getInt32(at - samples, true)) continue;
      for (let k = 0; k < 4; k++) rows[to + x + k] = data[at + k]! - data[at + k - samples]!;
    }
    for (let x = words; x < samples; x++) {
      rows[to + x] = data[row + x]! - data[row + x - samples]!;
    }
  }
}
