import type { Bounds } from '../../raster/types.ts';

/** Changes in the same or a neighboring tile of so many pixels a side are looked at together. */
const TILE = 32;
/** Least pixels from a change to the rim of its box. */
const MARGIN = 12;

/** Boxes round changed pixels, none of which overlap. */
export class ChangeBoxes {
  private readonly width: number;
  private readonly height: number;
  private readonly columns: number;
  /** Bounds of the changes in each tile; empty where there are none. */
  private readonly tiles: (Bounds | undefined)[];
  private readonly open: Bounds[] = [];
  /** Boxes that were taken and are large enough. */
  readonly settled: Bounds[] = [];

  constructor(width: number, height: number) {
    this.width = width;
    this.height = height;
    this.columns = Math.ceil(width / TILE);
    this.tiles = new Array(this.columns * Math.ceil(height / TILE)).fill(undefined);
  }

  /** Adds a changed span. */
  add(y: number, start: number, end: number): void {
    const row = Math.floor(y / TILE) * this.columns;
    for (let tile = Math.floor(start / TILE); tile * TILE < end; tile++) {
      const own: Bounds = [
        Math.max(start, tile * TILE),
        y,
        Math.min(end, (tile + 1) * TILE),
        y + 1,
      ];
      const known = this.tiles[row + tile];
      this.tiles[row + tile] = known === undefined ? own : hull(known, own);
    }
  }

  /** Makes boxes of all that was added. O(tiles). */
  finish(): void {
    const { tiles, columns } = this;
    for (let first = 0; first < tiles.length; first++) {
      if (tiles[first] === undefined) continue;
      let box = tiles[first]!;
      const stack = [first];
      tiles[first] = undefined;
      for (let tile = stack.pop(); tile !== undefined; tile = stack.pop()) {
        const x = tile % columns;
        for (let next = tile - columns; next <= tile + columns; next += columns) {
          for (
            let other = next - (x > 0 ? 1 : 0);
            other <= next + (x < columns - 1 ? 1 : 0);
            other++
          ) {
            const own = tiles[other];
            if (own === undefined) continue;
            box = hull(box, own);
            tiles[other] = undefined;
            stack.push(other);
          }
        }
      }
      this.put(this.padded(box, MARGIN));
    }
  }

  /** Takes one box that is not settled. */
  take(): Bounds | undefined {
    return this.open.pop();
  }

  settle(box: Bounds): void {
    this.settled.push(box);
  }

  /** Puts a box back about twice as wide and high. */
  widen(box: Readonly<Bounds>): void {
    this.put(this.padded(box, (box[2] - box[0] + box[3] - box[1]) >> 2));
  }

  private padded([x0, y0, x1, y1]: Readonly<Bounds>, by: number): Bounds {
    return [
      Math.max(0, x0 - by),
      Math.max(0, y0 - by),
      Math.min(this.width, x1 + by),
      Math.min(this.height, y1 + by),
    ];
  }

  /** Adds a box, made one with all that it overlaps. */
  private put(box: Bounds): void {
    let own = box;
    for (let joined = true; joined; ) {
      joined = false;
      for (const list of [this.open, this.settled]) {
        for (let k = list.length - 1; k >= 0; k--) {
          if (!overlap(own, list[k]!)) continue;
          own = hull(own, list[k]!);
          list.splice(k, 1);
          joined = true;
        }
      }
    }
    this.open.push(own);
  }
}

function overlap(a: Readonly<Bounds>, b: Readonly<Bounds>): boolean {
  return a[0] < b[2] && b[0] < a[2] && a[1] < b[3] && b[1] < a[3];
}

function hull(a: Readonly<Bounds>, b: Readonly<Bounds>): Bounds {
  return [Math.min(a[0], b[0]), Math.min(a[1], b[1]), Math.max(a[2], b[2]), Math.max(a[3], b[3])];
}
