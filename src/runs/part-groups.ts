import type { Parts } from './parts.ts';
import { findRoot, singleSets } from './union.ts';

/**
 * What may become one part: the parts of before, by their ids, then new ones. Runs bear numbers, each of
 * one group; groups that are joined go on under the lower of the two.
 */
export class PartGroups {
  /** One past the highest group. */
  count: number;
  /** By group what `Parts` has by part; right for the roots alone. */
  readonly area: number[];
  readonly perimeter: number[];
  readonly rim: number[];
  readonly first: number[];
  /** Groups whose first pixel may be gone. */
  readonly headless: Set<number> = new Set();
  private parent: Int32Array;
  private readonly groupOf: number[];

  constructor(before: Parts) {
    const { count, idOf } = before;
    this.count = count + 1;
    this.parent = singleSets(count + 64);
    this.groupOf = Array.from(idOf);
    this.area = Array.from(before.area);
    this.perimeter = Array.from(before.perimeter);
    this.rim = Array.from(before.rim);
    this.first = Array.from(before.first);
  }

  /** The group of a number. */
  of(number: number): number {
    return findRoot(this.parent, this.groupOf[number]!);
  }

  /** The group that one has become a part of. */
  rootOf(group: number): number {
    return findRoot(this.parent, group);
  }

  /** By number its group now. */
  byNumber(): Int32Array {
    return Int32Array.from(this.groupOf, (group) => this.rootOf(group));
  }

  /** A number of a group of its own, without a pixel yet but the index of its first. */
  open(first: number): number {
    const group = this.count++;
    if (group === this.parent.length) {
      const longer = new Int32Array(2 * group);
      longer.set(this.parent);
      this.parent = longer;
    }
    this.parent[group] = group;
    this.area[group] = 0;
    this.perimeter[group] = 0;
    this.rim[group] = 0;
    this.first[group] = first;
    return this.groupOf.push(group) - 1;
  }

  add(group: number, area: number, perimeter: number, rim: number): void {
    this.area[group]! += area;
    this.perimeter[group]! += perimeter;
    this.rim[group]! += rim;
  }

  /** Makes one group of those of two numbers. */
  join(one: number, other: number): void {
    const [a, b] = [this.of(one), this.of(other)];
    if (a === b) return;
    const [keep, drop] = a < b ? [a, b] : [b, a];
    const { area, perimeter, rim, first, headless } = this;
    this.parent[drop] = keep;
    this.add(keep, area[drop]!, perimeter[drop]!, rim[drop]!);
    if (first[drop]! > first[keep]!) return;
    first[keep] = first[drop]!;
    if (headless.has(drop)) headless.add(keep);
    else headless.delete(keep);
  }
}
