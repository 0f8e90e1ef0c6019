import type { Tick } from '../raster/progress.ts';
import type { Packed } from '../runs/pack.ts';
import { findRuns, type Runs, runAt } from '../runs/runs.ts';
import { connectRuns } from '../runs/union.ts';

/** The faces that ink and bridges, all drawn at once, cut the paper into. */
export interface FaceMap {
  /** Faces are 1..count. */
  readonly count: number;
  readonly area: Float64Array;
  /** Sides of pixels where a face meets ink, a bridge or the picture's border. */
  readonly perimeter: Float64Array;
  /** 1 where a face touches the border of the picture. */
  readonly outer: Uint8Array;
  readonly runs: Runs;
  /** Face of every run. */
  readonly ids: Int32Array;
  readonly width: number;
  readonly height: number;
}

/** Where a bridge lies between two faces, a < b. */
export interface Border {
  readonly bridge: number;
  readonly a: number;
  readonly b: number;
  /** Length in pixels. */
  readonly pixels: number;
}

/** O(pixels / 32 + runs + bridge pixels); 12 bytes per run. */
export function mapFaces(packed: Packed, bridges: readonly Int32Array[], tick?: Tick): FaceMap {
  const { width, height, stride } = packed;
  const words = packed.words.slice();
  for (const pixels of bridges) {
    for (const p of pixels) {
      words[Math.floor(p / width) * stride + ((p % width) >>> 5)]! |= 1 << ((p % width) & 31);
    }
  }
  const runs = findRuns({ words, width, height, stride }, 0);
  tick?.(0.4);
  const { ids, count } = connectRuns(runs, 4);
  tick?.(0.8);
  return { count, runs, ids, width, height, ...measure(runs, ids, count, width, height) };
}

/**
 * Stretches of bridges with a face on either side, bridge by bridge. Where bridges cross, more than
 * two faces meet; that counts only for faces that would have no border else.
 * O(bridge pixels · log).
 */
export function findBorders(faces: FaceMap, bridges: readonly Int32Array[]): Border[] {
  const borders: Border[] = [];
  const crossings: Border[] = [];
  bridges.forEach((pixels, bridge) => {
    const { plain, crossed } = bordersOf(faces, pixels);
    for (const border of plain) borders.push({ bridge, ...border });
    for (const border of crossed) crossings.push({ bridge, ...border });
  });
  const bordered = new Uint8Array(faces.count + 1);
  for (const { a, b } of borders) bordered[a] = bordered[b] = 1;
  for (const crossing of crossings) {
    if (bordered[crossing.a] === 0 || bordered[crossing.b] === 0) borders.push(crossing);
  }
  return borders;
}

/** The face of a pixel; 0 on ink and bridges. */
export function faceAt({ runs, ids }: FaceMap, x: number, y: number): number {
  const run = runAt(runs, x, y);
  return run < 0 ? 0 : ids[run]!;
}

function measure(
  { rowStart, start, end }: Runs,
  ids: Int32Array,
  count: number,
  width: number,
  height: number,
): Pick<FaceMap, 'area' | 'perimeter' | 'outer'> {
  const area = new Float64Array(count + 1);
  const perimeter = new Float64Array(count + 1);
  const outer = new Uint8Array(count + 1);
  for (let y = 0; y < height; y++) {
    const rowEnd = rowStart[y + 1]!;
    let above = y === 0 ? 0 : rowStart[y - 1]!;
    const aboveEnd = y === 0 ? 0 : rowStart[y]!;
    for (let r = rowStart[y]!; r < rowEnd; r++) {
      const face = ids[r]!;
      const [from, to] = [start[r]!, end[r]!];
      area[face]! += to - from;
      perimeter[face]! += 2 + 2 * (to - from);
      if (from === 0 || to === width || y === 0 || y === height - 1) outer[face] = 1;
      while (above < aboveEnd && end[above]! <= from) above++;
      for (let a = above; a < aboveEnd && start[a]! < to; a++) {
        perimeter[face]! -= 2 * (Math.min(to, end[a]!) - Math.max(from, start[a]!));
      }
    }
  }
  return { area, perimeter, outer };
}

type Stretch = Omit<Border, 'bridge'>;

/** The pairs of faces that two neighboring pixels of a bridge see, alone or among others. */
function bordersOf(faces: FaceMap, pixels: Int32Array): { plain: Stretch[]; crossed: Stretch[] } {
  const { width, height } = faces;
  const at = (x: number, y: number) => faceAt(faces, x, y);
  const plain: { a: number; b: number; pixels: number }[] = [];
  const crossed: typeof plain = [];
  let before: readonly number[] = [];
  let previous = -1;
  for (const p of pixels) {
    const x = p % width;
    const y = Math.floor(p / width);
    const here: number[] = [];
    const see = (face: number) => {
      if (face !== 0 && !here.includes(face)) here.push(face);
    };
    if (x > 0) see(at(x - 1, y));
    if (x + 1 < width) see(at(x + 1, y));
    if (y > 0) see(at(x, y - 1));
    if (y + 1 < height) see(at(x, y + 1));
    const step = Math.abs(p - previous);
    const both = step === 1 || step === width ? [...before] : [];
    for (const face of here) if (!both.includes(face)) both.push(face);
    before = here;
    previous = p;
    const found = both.length === 2 ? plain : crossed;
    for (let i = 1; i < both.length; i++) {
      for (let k = 0; k < i; k++) addTo(found, both[i]!, both[k]!);
    }
  }
  return { plain, crossed };
}

function addTo(
  found: { a: number; b: number; pixels: number }[],
  one: number,
  other: number,
): void {
  const a = Math.min(one, other);
  const b = Math.max(one, other);
  const known = found.find((border) => border.a === a && border.b === b);
  if (known === undefined) found.push({ a, b, pixels: 1 });
  else known.pixels++;
}
