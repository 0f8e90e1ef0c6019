/** Int32 numbers of which nobody knows beforehand how many there will be. */
export class IntList {
  data: Int32Array = new Int32Array(64);
  length = 0;

  push(value: number): void {
    if (this.length === this.data.length) {
      const larger = new Int32Array(2 * this.length);
      larger.set(this.data);
      this.data = larger;
    }
    this.data[this.length++] = value;
  }

  /** The numbers alone, without the room behind them. */
  trimmed(): Int32Array {
    return this.data.slice(0, this.length);
  }
}
