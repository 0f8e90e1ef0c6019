/** Numbers colors 0, 1, 2, … in the order they come and counts their pixels; open addressing. */
export class ColorTable {
  words: Uint32Array = new Uint32Array(256);
  pixels: Int32Array = new Int32Array(256);
  size = 0;
  /** Number of the color plus one; 0 for a free slot. Twice as many slots as colors or more. */
  private slots = new Int32Array(512);
  private shift = 32 - 9;

  /** Adds n pixels to a color and gives its number. */
  add(word: number, n: number): number {
    const slot = this.slotOf(word);
    const known = this.slots[slot]!;
    if (known !== 0) {
      this.pixels[known - 1]! += n;
      return known - 1;
    }
    const number = this.size++;
    if (number === this.words.length) this.extend();
    this.words[number] = word;
    this.pixels[number] = n;
    if (2 * this.size > this.slots.length) this.rehash();
    else this.slots[slot] = number + 1;
    return number;
  }

  private slotOf(word: number): number {
    const { slots, words } = this;
    const mask = slots.length - 1;
    let slot = Math.imul(word, 0x9e3779b1) >>> this.shift;
    for (;;) {
      const known = slots[slot]!;
      if (known === 0 || words[known - 1] === word) return slot;
      slot = (slot + 1) & mask;
    }
  }

  private extend(): void {
    const words = new Uint32Array(2 * this.words.length);
    words.set(this.words);
    this.words = words;
    const pixels = new Int32Array(words.length);
    pixels.set(this.pixels);
    this.pixels = pixels;
  }

  private rehash(): void {
    this.slots = new Int32Array(2 * this.slots.length);
    this.shift--;
    for (let k = 0; k < this.size; k++) this.slots[this.slotOf(this.words[k]!)] = k + 1;
  }
}
