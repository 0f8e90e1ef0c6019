/** Side of a block in pixels: wider than strokes, narrower than a change of light. */
const BLOCK = 64;

/** The tone of the paper, 0 black to 255 white, in blocks of 64 × 64 pixels row by row. */
export interface PaperGrid {
  readonly tones: Uint8Array;
  readonly columns: number;
  readonly rows: number;
}

/**
 * The tone of the paper in each block: its 80th percentile from the dark end. Blocks that are less
 * than half as light as the lightest tenth of all are solid ink; they take the tone of the nearest
 * block that is not, along the row or the column first. O(pixels), 1 byte per block.
 */
export function lightTones(data: Uint8Array, width: number, height: number): PaperGrid {
  const columns = Math.ceil(width / BLOCK);
  const rows = Math.ceil(height / BLOCK);
  const tones = new Uint8Array(columns * rows);
  const counts = new Uint32Array(256);
  for (let b = 0; b < tones.length; b++) {
    const x0 = (b % columns) * BLOCK;
    const y0 = Math.floor(b / columns) * BLOCK;
    const x1 = Math.min(width, x0 + BLOCK);
    const y1 = Math.min(height, y0 + BLOCK);
    counts.fill(0);
    for (let y = y0; y < y1; y++) {
      for (let x = x0; x < x1; x++) counts[data[y * width + x]!]! += 1;
    }
    let left = Math.ceil(0.2 * (x1 - x0) * (y1 - y0));
    let v = 0;
    while ((left -= counts[v]!) > 0) v++;
    tones[b] = 255 - v;
  }
  fillSolid(tones, columns);
  return { tones, columns, rows };
}

/** Tone of the paper in the block that holds a pixel. */
export function paperAt({ tones, columns }: PaperGrid, x: number, y: number): number {
  return tones[(y >> 6) * columns + (x >> 6)]!;
}

/** The tone that a share of the blocks does not pass. */
function toneRank(tones: Uint8Array, share: number): number {
  const sorted = tones.slice().sort();
  return sorted[Math.min(sorted.length - 1, Math.floor(share * sorted.length))]!;
}

/** Gives blocks of solid ink, which become 0 first, the tone of a neighbour, sweeping to and fro. */
function fillSolid(tones: Uint8Array, columns: number): void {
  const least = toneRank(tones, 0.9) / 2;
  const n = tones.length;
  for (let b = 0; b < n; b++) if (tones[b]! < least) tones[b] = 0;
  for (let b = 0; b < n; b++) {
    if (tones[b] !== 0) continue;
    const beside = b % columns === 0 ? 0 : tones[b - 1]!;
    tones[b] = beside || (b < columns ? 0 : tones[b - columns]!);
  }
  for (let b = n - 1; b >= 0; b--) {
    if (tones[b] !== 0) continue;
    const beside = b % columns === columns - 1 ? 0 : tones[b + 1]!;
    tones[b] = beside || (b + columns >= n ? 0 : tones[b + columns]!);
  }
}
