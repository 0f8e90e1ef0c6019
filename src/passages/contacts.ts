import type { Dense } from '../raster/types.ts';
import { linePixels } from '../runs/line.ts';

/** How much farther from a meeting than the near contact the far one may lie, in pixels. */
const SLACK = 2;
/** Steps up, right, down, left. */
const STEP_X = [0, 1, 0, -1];
const STEP_Y = [-1, 0, 1, 0];

/**
 * Finds the two pixels of ink between which a passage lies.
 *
 * At the narrowest place of a passage the paper's distance to ink has a saddle, and there the
 * nearest ink lies on two opposite sides. On the grid the saddle falls on the pixel beside it, so
 * one contact is nearest and the other lies up to two pixels farther away, at least 120° round, or
 * at the tip of a slanted stroke a little less. Pairs of 120° come first, of those the ones with an
 * arm of the passage on either side, then the pair that is closest together; ties to the pair found
 * first, row by row. No pair is closer than 90°.
 *
 * O(distance) per search: only the ring in which contacts can lie is looked at.
 */
export class ContactFinder {
  /** Index of the near and of the far contact in the ink; -1 for none. */
  from = -1;
  to = -1;
  private readonly ink: Dense<Uint8Array>;
  /** Ink of the ring, as steps from the middle. */
  private readonly dx: number[] = [];
  private readonly dy: number[] = [];
  /** On which side of the arms that ink lies. */
  private readonly side: boolean[] = [];

  constructor(ink: Dense<Uint8Array>) {
    this.ink = ink;
  }

  /**
   * Looks round pixel (x, y), whose distance to ink is `radius`, or up to a pixel more. `arms` says
   * to which sides the passage leads, as the flood writes it down.
   */
  find(x: number, y: number, radius: number, arms: number): void {
    this.collectRing(x, y, radius);
    this.splitRing(arms);
    const { dx, dy, side } = this;
    let nearest = Number.POSITIVE_INFINITY;
    for (let i = 0; i < dx.length; i++) {
      nearest = Math.min(nearest, dx[i]! * dx[i]! + dy[i]! * dy[i]!);
    }
    let closest = Number.POSITIVE_INFINITY;
    let best = -1;
    let near = -1;
    let far = -1;
    for (let i = 0; i < dx.length; i++) {
      if (dx[i]! * dx[i]! + dy[i]! * dy[i]! !== nearest) continue;
      if (near < 0) near = i;
      for (let k = 0; k < dx.length; k++) {
        const along = dx[i]! * dx[k]! + dy[i]! * dy[k]!;
        const square = dx[k]! * dx[k]! + dy[k]! * dy[k]!;
        if (along >= 0) continue;
        const opposite = 4 * along * along >= nearest * square;
        const apart = nearest + square - 2 * along;
        const rank = opposite ? (side[i] !== side[k] ? 2 : 1) : 0;
        if (rank === best ? apart >= closest : rank < best) continue;
        best = rank;
        closest = apart;
        near = i;
        far = k;
      }
    }
    this.from = near < 0 ? -1 : this.indexOf(x, y, near);
    this.to = far < 0 ? -1 : this.indexOf(x, y, far);
    if (far >= 0) this.drawIn();
  }

  /** Moves contacts with ink before them to where the paper in the middle of the line begins. */
  private drawIn(): void {
    const { data, width } = this.ink;
    const [fromX, fromY] = [this.from % width, Math.floor(this.from / width)];
    const [toX, toY] = [this.to % width, Math.floor(this.to / width)];
    const line = linePixels(fromX, fromY, toX, toY, width);
    let first = line.length >> 1;
    let last = first;
    if (data[line[first]!] === 1) return;
    while (data[line[first]!] === 0) first--;
    while (data[line[last]!] === 0) last++;
    this.from = line[first]!;
    this.to = line[last]!;
  }

  private indexOf(x: number, y: number, i: number): number {
    return (y + this.dy[i]!) * this.ink.width + x + this.dx[i]!;
  }

  /** Between arms round a corner, or to the right of arms in a line. */
  private splitRing(arms: number): void {
    const { dx, dy, side } = this;
    const a = arms >> 2;
    const b = arms & 3;
    const straight = (a ^ b) === 2;
    side.length = dx.length;
    for (let i = 0; i < dx.length; i++) {
      const x = dx[i]!;
      const y = dy[i]!;
      side[i] = straight
        ? STEP_X[a]! * y - STEP_Y[a]! * x > 0
        : STEP_X[a]! * x + STEP_Y[a]! * y > 0 && STEP_X[b]! * x + STEP_Y[b]! * y > 0;
    }
  }

  private collectRing(x: number, y: number, radius: number): void {
    const { dx, dy } = this;
    const { data, width, height } = this.ink;
    dx.length = 0;
    dy.length = 0;
    const inner = radius * radius;
    const outer = (radius + SLACK) * (radius + SLACK);
    const last = Math.min(height - 1, y + Math.floor(radius + SLACK));
    for (let v = Math.max(0, y - Math.floor(radius + SLACK)); v <= last; v++) {
      const rise = (v - y) * (v - y);
      const reach = Math.floor(Math.sqrt(outer - rise));
      const start = rise < inner ? Math.floor(Math.sqrt(inner - rise)) : 0;
      const row = v * width;
      for (let u = Math.max(0, x - reach); u <= Math.min(width - 1, x + reach); u++) {
        if (u > x - start && u < x + start) u = x + start;
        if (u >= width || data[row + u] === 0) continue;
        dx.push(u - x);
        dy.push(v - y);
      }
    }
  }
}
