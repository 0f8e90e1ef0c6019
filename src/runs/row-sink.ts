/** Takes rows of chosen pixels, as bits. */
export interface RowSink {
  /**
   * `words[from + k]`, k < count, holds columns 32 · (firstWord + k) on, the lowest bit first; bits
   * past the width are 0.
   */
  row(y: number, words: Int32Array, from: number, firstWord: number, count: number): void;
}
