import { TICK_PIXELS, type Tick } from './progress.ts';
import type { Dense } from './types.ts';

/**
 * Checks that a mask holds nothing but 0 and 1. O(samples); `packMask` finds the same on its way.
 *
 * @throws RangeError for any other value, naming its place and what such a raster often is.
 */
export function checkMaskValues(mask: Dense<Uint8Array>, name: string, tick?: Tick): void {
  const { data } = mask;
  let seen = 0;
  for (let i = 0; i < data.length; ) {
    tick?.(i / data.length);
    for (const end = Math.min(data.length, i + TICK_PIXELS); i < end; i++) seen |= data[i]!;
  }
  if (seen > 1) refuseMask(mask, name);
}

/** Names the first wrong value. */
export function refuseMask({ data, width }: Dense<Uint8Array>, name: string): never {
  const i = data.findIndex((v) => v > 1);
  const only255 = data.every((v) => v === 0 || v === 255);
  const hint = only255
    ? 'this looks like a mask of 0 and 255: divide it by 255'
    : 'this looks like a coverage: thresholdInk makes a mask of it';
  throw new RangeError(
    `${name} must hold 0 or 1, got ${data[i]} at [${i % width}, ${Math.floor(i / width)}]; ${hint}`,
  );
}
