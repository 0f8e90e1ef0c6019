/**
 * Up to three colors and how much of each a pixel has. The colors are codes, 0 where there is none;
 * the first two stand in the order of their ranks.
 */
export class Mix {
  a = 0;
  b = 0;
  c = 0;
  shareA = 0;
  shareB = 0;
  shareC = 0;
  /** Place of each code in the order of colors, which settles ties. */
  private readonly rank: Uint16Array;

  constructor(rank: Uint16Array) {
    this.rank = rank;
  }

  set(a: number, b: number, c: number, shareB: number, shareC: number): void {
    const shareA = 1 - shareB - shareC;
    const turned = b !== 0 && this.compare(a, b) > 0;
    this.a = turned ? b : a;
    this.b = turned ? a : b;
    this.c = c;
    this.shareA = turned ? shareB : shareA;
    this.shareB = turned ? shareA : shareB;
    this.shareC = shareC;
  }

  /** Leaves the two largest shares, in the order of colors, and makes them add up to 1. */
  leadingPair(): void {
    if (this.c === 0) return;
    const codes = [this.a, this.b, this.c];
    const shares = [this.shareA, this.shareB, this.shareC];
    const order = [0, 1, 2].sort(
      (j, k) => shares[k]! - shares[j]! || this.compare(codes[j]!, codes[k]!),
    );
    const [j, k] = order.slice(0, 2).sort((p, q) => this.compare(codes[p]!, codes[q]!));
    this.set(codes[j!]!, codes[k!]!, 0, shares[k!]! / (shares[j!]! + shares[k!]!), 0);
  }

  /** Code of the largest share; of equal ones the first color. */
  leader(): number {
    let best = this.a;
    let share = this.shareA;
    if (this.b === 0) return best;
    if (this.shareB > share || (this.shareB === share && this.compare(this.b, best) < 0)) {
      best = this.b;
      share = this.shareB;
    }
    if (this.c === 0) return best;
    if (this.shareC > share || (this.shareC === share && this.compare(this.c, best) < 0))
      return this.c;
    return best;
  }

  private compare(a: number, b: number): number {
    return this.rank[a]! - this.rank[b]!;
  }
}
