/** Int32 numbers of which nobody knows beforehand how many there will be. */
export class IntList {
  data: Int32Array = new Int32Array(64);
  length = 0;

  /** A list that holds some numbers, whose storage it takes over. */
  static from(numbers: Int32Array): IntList {
    const list = new IntList();
    list.data = numbers;
    list.length = numbers.length;
    return list;
  }

  push(value: number): void {
    if (this.length === this.data.length) {
      const larger = new Int32Array(Math.max(64, 2 * this.length));
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
