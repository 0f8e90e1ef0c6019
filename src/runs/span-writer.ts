import type { Bounds, Dense } from '../raster/types.ts';
import { ByteSpans } from './byte-spans.ts';
import { PixelSpans } from './pixel-spans.ts';
import type { SpanSink } from './span-sink.ts';

/** Writes one value and counts the pixels that it changes. */
export interface SpanWriter extends SpanSink {
  readonly changed: number;
  /** Bounds of the changed pixels; null where none changed. */
  readonly bounds: Bounds | null;
}

/** The quickest writer of a value, a number for each channel, where pixels may be changed. */
export function spanWriter(
  { data, width, channels }: Dense,
  value: readonly number[],
  mayChange?: (pixel: number) => boolean,
): SpanWriter {
  const bytes = data instanceof Uint8Array || data instanceof Uint8ClampedArray;
  if (!bytes || channels > 1 || mayChange !== undefined) {
    return new PixelSpans(data, width, value, mayChange);
  }
  const same = new Uint8Array(data.buffer, data.byteOffset, data.length);
  return new ByteSpans(same, width, value[0]!);
}
