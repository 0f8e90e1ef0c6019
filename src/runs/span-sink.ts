/** Takes the chosen pixels of a raster, some spans of a row at a time, rows in any order. */
export interface SpanSink {
  /**
   * Spans `[spans[i], spans[i + 1])` of columns, for even i < count: not empty, apart, from the left.
   */
  row(y: number, spans: Int32Array, count: number): void;
}
