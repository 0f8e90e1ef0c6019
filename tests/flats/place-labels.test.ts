import { describe, expect, it } from 'vitest';
import { type Label, placeLabels } from '../../src/flats/place-labels.ts';
import { seeded } from '../support/random.ts';

const space = {
  room: [-20, -20, 220, 220],
  cell: 1,
  coverAt: () => 0,
  sizes: [5, 12],
} as const;

function some(count: number, seed: number): Label[] {
  const random = seeded(seed);
  return Array.from({ length: count }, () => {
    const radius = random() < 0.3 ? 10 + 10 * random() : 3 * random();
    return { x: 200 * random(), y: 200 * random(), radius, width: 1.2, height: 0.7 };
  });
}

describe('placeLabels', () => {
  it('puts a text in its disc as large as it fits, up to the largest size', () => {
    const label = (radius: number): Label => ({ x: 50, y: 50, radius, width: 1.2, height: 0.7 });
    for (const radius of [4, 5, 8, 9, 30]) {
      const [placed] = placeLabels([label(radius)], space);
      expect([placed!.x, placed!.y]).toEqual(
        placed!.leader === undefined ? [50, 50] : expect.anything(),
      );
      const half = Math.sqrt((1.2 * placed!.size) ** 2 + (0.7 * placed!.size) ** 2) / 2;
      if (placed!.leader === undefined) expect(half).toBeLessThan(radius);
      else expect(Math.sqrt(1.2 ** 2 + 0.7 ** 2) * 5).toBeGreaterThan(2 * radius - 1.2);
      expect(placed!.size).toBeLessThanOrEqual(12);
    }
    expect(placeLabels([label(30)], space)[0]!.size).toBe(12);
    expect(placeLabels([label(3)], space)[0]!.size).toBe(5);
  });

  it('lets texts with a leader cover no other text and no center of a disc', () => {
    for (const count of [10, 60, 150]) {
      const labels = some(count, count);
      const placed = placeLabels(labels, space);
      const boxes = placed.map((p, i) => {
        if (p === undefined) return undefined;
        const [w, h] = [p.size * labels[i]!.width, p.size * labels[i]!.height];
        return [p.x - w / 2, p.y - h / 2, p.x + w / 2, p.y + h / 2] as const;
      });
      boxes.forEach((box, i) => {
        const own = placed[i];
        if (box === undefined || own?.leader === undefined) return;
        expect(box[0]).toBeGreaterThanOrEqual(-20);
        expect(box[3]).toBeLessThanOrEqual(220);
        boxes.forEach((other, j) => {
          if (other === undefined || i === j) return;
          const apart =
            box[2] < other[0] || other[2] < box[0] || box[3] < other[1] || other[3] < box[1];
          expect(apart).toBe(true);
        });
        labels.forEach(({ x, y }, j) => {
          if (placed[j]?.leader === undefined && placed[j] !== undefined) return;
          expect(x > box[0] && x < box[2] && y > box[1] && y < box[3]).toBe(false);
        });
      });
      if (count <= 60) expect(placed).not.toContain(undefined);
    }
  });

  it('keeps off what it would be a pity to cover', () => {
    const labels = [{ x: 100, y: 100, radius: 1, width: 1.2, height: 0.7 }];
    const coverAt = (x: number) => (x < 115 ? 1 : 0);
    const [placed] = placeLabels(labels, { ...space, coverAt });
    expect(placed!.x).toBeGreaterThan(115);
  });

  it('tells which found no room', () => {
    const crowd = Array.from({ length: 40 }, (_, i): Label => {
      return { x: 1 + (i % 8), y: 1 + Math.floor(i / 8), radius: 0.5, width: 1.2, height: 0.7 };
    });
    const placed = placeLabels(crowd, { ...space, room: [0, 0, 30, 30] });
    expect(placed).toContain(undefined);
    expect(placed.filter((p) => p !== undefined).length).toBeGreaterThan(3);
    expect(placeLabels([], space)).toEqual([]);
  });
});
