/** Whether the lowest byte of a word comes first in memory, as on all machines in common use. */
export const LITTLE: boolean = new Uint8Array(Uint32Array.of(1).buffer)[0] === 1;

/** 1 in each byte of a word of 4 that is not 0. */
export function differing(off: number): number {
  return ((((off & 0x7f7f7f7f) + 0x7f7f7f7f) | off) >>> 7) & 0x01010101;
}
