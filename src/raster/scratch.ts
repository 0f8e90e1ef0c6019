import { TICK_PIXELS, type Tick } from './progress.ts';
import type { Owned } from './types.ts';

/**
 * Memory for arrays that are needed for a part of a call only: that of a result which is written after
 * them. The first touch of fresh memory takes longer than most kernels take for what they write there.
 *
 * Each byte is lent once, so that all arrays start with zeros; where none is left, they are fresh.
 */
export class Scratch {
  private readonly owner: Owned<Int32Array>;
  /** Elements of the owner that have been lent. */
  private lent = 0;

  /** Over a result of zeros that has its buffer to itself. */
  constructor(owner: Owned<Int32Array>) {
    this.owner = owner;
  }

  uint8(length: number): Owned<Uint8Array> {
    const at = this.lend(length);
    return at < 0 ? new Uint8Array(length) : new Uint8Array(this.owner.buffer, at, length);
  }

  uint16(length: number): Owned<Uint16Array> {
    const at = this.lend(2 * length);
    return at < 0 ? new Uint16Array(length) : new Uint16Array(this.owner.buffer, at, length);
  }

  int32(length: number): Owned<Int32Array> {
    const at = this.lend(4 * length);
    return at < 0 ? new Int32Array(length) : new Int32Array(this.owner.buffer, at, length);
  }

  /** Gives the result back as zeros; no array that was lent is looked at any more. */
  clear(tick?: Tick): void {
    const { owner, lent } = this;
    for (let from = 0; from < lent; from += TICK_PIXELS) {
      tick?.(from / lent);
      owner.fill(0, from, Math.min(lent, from + TICK_PIXELS));
    }
    this.lent = 0;
  }

  /** Where so many bytes are lent from; -1 where there are not as many left. */
  private lend(bytes: number): number {
    const at = this.lent;
    const end = at + Math.ceil(bytes / 4);
    if (end > this.owner.length) return -1;
    this.lent = end;
    return this.owner.byteOffset + 4 * at;
  }
}
