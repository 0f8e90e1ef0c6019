/** Entries of a chunk: a power of two. */
const SHIFT = 8;
const LAST = (1 << SHIFT) - 1;

/**
 * Whole numbers by a level of 0 to 255, those of one level first in, first out. Levels are chains of
 * chunks, which others take over once they are empty: 4 bytes per number that waits, and a chunk
 * a level. O(1) a put or take.
 */
export class LevelQueue {
  private entries = new Int32Array(64 << SHIFT);
  /** The chunk after each one, in its chain or among those that are free. */
  private link = new Int32Array(64);
  private free = -1;
  private used = 0;
  /** Where the first entry of a level is, where there is one, and the last; -1 where there is none. */
  private readonly head = new Int32Array(256);
  private readonly tail = new Int32Array(256).fill(-1);

  put(level: number, value: number): void {
    const last = this.tail[level]!;
    let at = last + 1;
    if ((at & LAST) === 0) {
      const chunk = this.takeChunk();
      if (last < 0) this.head[level] = chunk << SHIFT;
      else this.link[last >> SHIFT] = chunk;
      at = chunk << SHIFT;
    }
    this.entries[at] = value;
    this.tail[level] = at;
  }

  /** The first number of a level; -1 where there is none. */
  take(level: number): number {
    const last = this.tail[level]!;
    if (last < 0) return -1;
    const at = this.head[level]!;
    const value = this.entries[at]!;
    if (at === last) {
      this.freeChunk(at >> SHIFT);
      this.tail[level] = -1;
    } else if ((at & LAST) === LAST) {
      const chunk = at >> SHIFT;
      this.head[level] = this.link[chunk]! << SHIFT;
      this.freeChunk(chunk);
    } else this.head[level] = at + 1;
    return value;
  }

  private takeChunk(): number {
    if (this.free >= 0) {
      const chunk = this.free;
      this.free = this.link[chunk]!;
      return chunk;
    }
    if (this.used === this.link.length) this.enlarge();
    return this.used++;
  }

  private freeChunk(chunk: number): void {
    this.link[chunk] = this.free;
    this.free = chunk;
  }

  private enlarge(): void {
    const entries = new Int32Array(2 * this.entries.length);
    const link = new Int32Array(2 * this.link.length);
    entries.set(this.entries);
    link.set(this.link);
    this.entries = entries;
    this.link = link;
  }
}
