/** Int32 numbers of which nobody knows beforehand how many there will be; a stack, too. */
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
    if (this.length === this.data.length) this.reserve(1);
    this.data[this.length++] = value;
  }

  /** Makes room for so many more numbers; what writes them to `data` raises `length` itself. */
  reserve(count: number): void {
    let room = Math.max(64, this.data.length);
    while (this.length + count > room) room *= 2;
    if (room <= this.data.length) return;
    const larger = new Int32Array(room);
    larger.set(this.data);
    this.data = larger;
  }

  /** The numbers alone, without the room behind them. */
  trimmed(): Int32Array {
    return this.data.slice(0, this.length);
  }
}
