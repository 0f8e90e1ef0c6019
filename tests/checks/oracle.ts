import type { Connectivity } from '../../src/raster/types.ts';

type Grid = readonly (readonly number[])[];

/** Connected places of the pixels that `joins` lets belong together, by flooding each in turn. */
export function places(
  grid: Grid,
  isIn: (value: number) => boolean,
  connectivity: Connectivity,
): string[][] {
  const [w, h] = [grid[0]!.length, grid.length];
  const seen = new Set<string>();
  const found: string[][] = [];
  for (let y = 0; y < h; y++) {
    for (let x = 0; x < w; x++) {
      if (!isIn(grid[y]![x]!) || seen.has(`${x},${y}`)) continue;
      const place = [`${x},${y}`];
      seen.add(`${x},${y}`);
      for (const at of place) {
        const [px, py] = at.split(',').map(Number) as [number, number];
        for (let dy = -1; dy <= 1; dy++) {
          for (let dx = -1; dx <= 1; dx++) {
            if (connectivity === 4 && dx !== 0 && dy !== 0) continue;
            const next = `${px + dx},${py + dy}`;
            const value = grid[py + dy]?.[px + dx];
            if (value !== grid[y]![x] || seen.has(next)) continue;
            seen.add(next);
            place.push(next);
          }
        }
      }
      found.push(place);
    }
  }
  return found;
}

/** Pixels of a finding. */
export function pixelsOf(spans: readonly number[]): string[] {
  const pixels: string[] = [];
  for (let k = 0; k < spans.length; k += 3) {
    for (let x = spans[k + 1]!; x < spans[k + 2]!; x++) pixels.push(`${x},${spans[k]}`);
  }
  return pixels;
}

/** Open seams by comparing every two edges: `{ pair, length, pixels }` in no order. */
export function openSeams(
  grid: Grid,
  ink: Grid,
): { pair: string; length: number; pixels: string[] }[] {
  const [w, h] = [grid[0]!.length, grid.length];
  const edges: { pair: string; ends: string[]; pixels: string[]; group: number }[] = [];
  const touch = (x: number, y: number, x2: number, y2: number, ends: string[]) => {
    if (x2 >= w || y2 >= h || ink[y]![x] === 1 || ink[y2]![x2] === 1) return;
    const [a, b] = [grid[y]![x]!, grid[y2]![x2]!];
    if (a === b || a === 0 || b === 0) return;
    const pair = a < b ? `${a} ${b}` : `${b} ${a}`;
    edges.push({ pair, ends, pixels: [`${x},${y}`, `${x2},${y2}`], group: edges.length });
  };
  for (let y = 0; y < h; y++) {
    for (let x = 0; x < w; x++) {
      touch(x, y, x + 1, y, [`${x + 1},${y}`, `${x + 1},${y + 1}`]);
      touch(x, y, x, y + 1, [`${x},${y + 1}`, `${x + 1},${y + 1}`]);
    }
  }
  for (let changed = true; changed; ) {
    changed = false;
    for (const p of edges) {
      for (const q of edges) {
        if (p.pair !== q.pair || p.group <= q.group) continue;
        if (!p.ends.some((end) => q.ends.includes(end))) continue;
        p.group = q.group;
        changed = true;
      }
    }
  }
  return [...new Set(edges.map(({ group }) => group))].map((group) => {
    const own = edges.filter((edge) => edge.group === group);
    const pixels = [...new Set(own.flatMap((edge) => edge.pixels))];
    return { pair: own[0]!.pair, length: own.length, pixels };
  });
}
