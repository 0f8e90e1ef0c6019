import { ColorTable } from './color-table.ts';

/** Horizontal runs of equal words, row by row, and the colors that they have. */
export interface ColorRuns {
  /** First pixel of each run; one more, the number of pixels, ends the last. */
  readonly start: Int32Array;
  /** Number of each run's color. */
  readonly color: Int32Array;
  readonly count: number;
  /** Word of each color, in the order of first pixels; 0 for all that is transparent. */
  readonly words: Uint32Array;
  /** Pixels of each color. */
  readonly pixels: Int32Array;
  /** 1 for each color that fills a square of 3 × 3 somewhere, or what of it the picture can hold. */
  readonly area: Uint8Array;
  readonly colors: number;
}

/**
 * Runs of equal words. Colors are looked up once a run, and a square is looked for until a color
 * has one. O(pixels); 8 bytes a run.
 */
export function colorRuns(words: Uint32Array, width: number, height: number): ColorRuns {
  let start: Int32Array = new Int32Array(2 * width + (words.length >> 5) + 1);
  let color: Int32Array = new Int32Array(start.length);
  let area = new Uint8Array(256);
  const table = new ColorTable();
  const side = Math.min(3, width);
  const up = height > 2 ? width : 0;
  const down = height > 1 ? width : 0;
  const first = up === 0 ? 0 : 1;
  const last = height > 2 ? height - 2 : 0;
  let count = 0;
  for (let y = 0; y < height; y++) {
    if (count + width >= start.length) {
      start = longer(start, count + width + 1);
      color = longer(color, start.length);
    }
    const inner = y >= first && y <= last;
    const end = (y + 1) * width;
    for (let i = y * width; i < end; ) {
      const from = i;
      const word = words[i]!;
      do i++;
      while (i < end && words[i] === word);
      const number = table.add(word >>> 24 === 0 ? 0 : word, i - from);
      start[count] = from;
      color[count++] = number;
      if (number >= area.length) {
        const more = new Uint8Array(2 * area.length);
        more.set(area);
        area = more;
      }
      if (i - from < side || !inner || area[number] === 1) continue;
      for (let p = from, streak = 0; p < i; p++) {
        streak = words[p - up] === word && words[p + down] === word ? streak + 1 : 0;
        if (streak < side) continue;
        area[number] = 1;
        break;
      }
    }
  }
  start[count] = words.length;
  return {
    start,
    color,
    count,
    words: table.words,
    pixels: table.pixels,
    area,
    colors: table.size,
  };
}

/** The same numbers in storage half as long again, or as long as is asked for. */
function longer(list: Int32Array, least: number): Int32Array {
  const copy = new Int32Array(Math.max(least, list.length + (list.length >> 1)));
  copy.set(list);
  return copy;
}
