/** A text of a known size that belongs to a disc. All lengths are in one unit. */
export interface Label {
  /** Center of the disc. */
  readonly x: number;
  readonly y: number;
  readonly radius: number;
  /** Sides of the text at a size of 1. */
  readonly width: number;
  readonly height: number;
}

/** Where a label stands. */
export interface PlacedLabel {
  /** Center of the text. */
  readonly x: number;
  readonly y: number;
  readonly size: number;
  /** End of the leader at the text; undefined where the text stands in its disc. */
  readonly leader?: readonly [x: number, y: number];
}

export interface LabelRoom {
  /** `[x0, y0, x1, y1]` that labels keep to. */
  readonly room: readonly [number, number, number, number];
  /** Side of the cells that places are looked for in. */
  readonly cell: number;
  /** Share of a cell's area, given by its center, that it would be a pity to cover. */
  readonly coverAt: (x: number, y: number) => number;
  /** Least and largest size of text. */
  readonly sizes: readonly [least: number, most: number];
}

const DIRECTIONS = 32;
/** What a box that covers nothing but ink costs, as length of leader in sizes of text. */
const COVER_COST = 6;
/** What a cell of another label or leader under a leader costs, likewise. */
const CROSSING_COST = 2;
/** Between a text and what is beside it, in sizes of text. */
const PADDING = 0.22;

/**
 * Places numbers for reading: in their discs as large as they fit, the others beside, each with a
 * leader, where they cover no other label and no center of a disc, on as little ink as can be, near.
 *
 * Labels without a disc wide enough come by the width of their discs, the widest first, ties to the
 * earlier; each looks at 32 directions in circles round its center, up to that which cannot be better
 * than the best place found. Gives undefined for a label that finds no room. O(labels · circles).
 */
export function placeLabels(
  labels: readonly Label[],
  space: LabelRoom,
): (PlacedLabel | undefined)[] {
  const [least, most] = space.sizes;
  const grid = new Grid(space);
  const placed = labels.map((label): PlacedLabel | undefined => {
    const { x, y, radius, width, height } = label;
    const reach = Math.sqrt(width * width + height * height) / 2 + PADDING / 2;
    const size = Math.min(most, radius / reach);
    if (size < least) return undefined;
    grid.take(boxAt(x, y, size * width, size * height));
    return { x, y, size };
  });
  const open = [...labels.keys()].filter((i) => placed[i] === undefined);
  for (const i of open) grid.takeCell(labels[i]!.x, labels[i]!.y);
  open.sort((i, j) => labels[j]!.radius - labels[i]!.radius || i - j);
  for (const i of open) placed[i] = placeBeside(labels[i]!, least, grid);
  return placed;
}

type Box = readonly [x0: number, y0: number, x1: number, y1: number];

function boxAt(x: number, y: number, width: number, height: number): Box {
  return [x - width / 2, y - height / 2, x + width / 2, y + height / 2];
}

function placeBeside(label: Label, size: number, grid: Grid): PlacedLabel | undefined {
  const { x, y } = label;
  const width = size * (label.width + 2 * PADDING);
  const height = size * (label.height + 2 * PADDING);
  let best: PlacedLabel | undefined;
  let least = Number.POSITIVE_INFINITY;
  for (let r = 1; r < grid.reach / size && r < least; r += 0.5) {
    for (let k = 0; k < DIRECTIONS; k++) {
      const [ux, uy] = direction(k);
      const cx = x + ux * (r * size + width / 2);
      const cy = y + uy * (r * size + height / 2);
      const box = boxAt(cx, cy, width, height);
      if (!grid.isFree(box)) continue;
      const leader = nearestOf(box, x, y);
      const inked = r + COVER_COST * grid.cover(box);
      if (inked >= least) continue;
      const cost = inked + CROSSING_COST * grid.crossings(x, y, leader);
      if (cost >= least) continue;
      least = cost;
      best = { x: cx, y: cy, size, leader };
    }
  }
  if (best === undefined) return undefined;
  grid.take(boxAt(best.x, best.y, width, height));
  grid.takeLine(x, y, best.leader!);
  return best;
}

/** A point of the square |x| + |y| = 1 brought to the circle: evenly enough, without an angle. */
function direction(k: number): [number, number] {
  const quarter = DIRECTIONS / 4;
  const t = (k % quarter) / quarter;
  const length = Math.sqrt((1 - t) * (1 - t) + t * t);
  const [c, s] = [(1 - t) / length, t / length];
  const turns: [number, number][] = [
    [c, s],
    [-s, c],
    [-c, -s],
    [s, -c],
  ];
  return turns[Math.floor(k / quarter)]!;
}

function nearestOf([x0, y0, x1, y1]: Box, x: number, y: number): [number, number] {
  return [Math.min(Math.max(x, x0), x1), Math.min(Math.max(y, y0), y1)];
}

/** What is taken, by cell: 1 a label or a center, 2 a leader. */
class Grid {
  /** The longest way across. */
  readonly reach: number;
  private readonly space: LabelRoom;
  private readonly columns: number;
  private readonly rows: number;
  private readonly taken: Uint8Array;
  /** Share of each cell that it would be a pity to cover. */
  private readonly shares: Float32Array;

  constructor(space: LabelRoom) {
    const [x0, y0, x1, y1] = space.room;
    this.space = space;
    this.columns = Math.max(1, Math.ceil((x1 - x0) / space.cell));
    this.rows = Math.max(1, Math.ceil((y1 - y0) / space.cell));
    this.taken = new Uint8Array(this.columns * this.rows);
    this.shares = new Float32Array(this.taken.length);
    for (let k = 0; k < this.shares.length; k++) {
      const [column, row] = [k % this.columns, Math.floor(k / this.columns)];
      this.shares[k] = space.coverAt(
        x0 + (column + 0.5) * space.cell,
        y0 + (row + 0.5) * space.cell,
      );
    }
    this.reach = x1 - x0 + (y1 - y0);
  }

  take(box: Box): void {
    this.eachCell(box, (k) => {
      this.taken[k] = 1;
      return true;
    });
  }

  takeCell(x: number, y: number): void {
    this.take([x, y, x, y]);
  }

  takeLine(x: number, y: number, to: readonly [number, number]): void {
    this.eachOnLine(x, y, to, (k) => {
      if (this.taken[k] === 0) this.taken[k] = 2;
    });
  }

  isFree(box: Box): boolean {
    const [x0, y0, x1, y1] = this.space.room;
    if (box[0] < x0 || box[1] < y0 || box[2] > x1 || box[3] > y1) return false;
    return this.eachCell(box, (k) => this.taken[k] === 0);
  }

  /** Mean share that a box covers. */
  cover(box: Box): number {
    let sum = 0;
    let cells = 0;
    this.eachCell(box, (k) => {
      sum += this.shares[k]!;
      cells++;
      return true;
    });
    return sum / cells;
  }

  /** Cells of labels and leaders under a line, but for where it starts. */
  crossings(x: number, y: number, to: readonly [number, number]): number {
    const own = this.cellOf(x, y);
    let count = 0;
    this.eachOnLine(x, y, to, (k) => {
      if (k !== own && this.taken[k] !== 0) count++;
    });
    return count;
  }

  private cellOf(x: number, y: number): number {
    const { room, cell } = this.space;
    const column = Math.floor((x - room[0]) / cell);
    const row = Math.floor((y - room[1]) / cell);
    const isInside = column >= 0 && row >= 0 && column < this.columns && row < this.rows;
    return isInside ? row * this.columns + column : -1;
  }

  /** Visits cells until one says false; whether none did. */
  private eachCell(box: Box, visit: (k: number) => boolean): boolean {
    const { room, cell } = this.space;
    const c0 = Math.max(0, Math.floor((box[0] - room[0]) / cell));
    const r0 = Math.max(0, Math.floor((box[1] - room[1]) / cell));
    const c1 = Math.min(this.columns - 1, Math.floor((box[2] - room[0]) / cell));
    const r1 = Math.min(this.rows - 1, Math.floor((box[3] - room[1]) / cell));
    for (let r = r0; r <= r1; r++) {
      for (let c = c0; c <= c1; c++) {
        if (!visit(r * this.columns + c)) return false;
      }
    }
    return true;
  }

  private eachOnLine(
    x: number,
    y: number,
    [u, v]: readonly [number, number],
    visit: (k: number) => void,
  ): void {
    const length = Math.max(Math.abs(u - x), Math.abs(v - y));
    const steps = Math.ceil(length / this.space.cell);
    for (let k = 0; k <= steps; k++) {
      const t = steps === 0 ? 0 : k / steps;
      const cell = this.cellOf(x + t * (u - x), y + t * (v - y));
      if (cell >= 0) visit(cell);
    }
  }
}
