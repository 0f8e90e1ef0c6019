import { IntList } from '../raster/int-list.ts';
import { partOf, type Tick } from '../raster/progress.ts';
import { findRoot, singleSets, unite } from '../runs/union.ts';
import type { BridgePixels } from './bridge-pixels.ts';

/** Where a bridge lies between two faces, a < b. */
export interface Border {
  readonly bridge: number;
  readonly a: number;
  readonly b: number;
  /** Length in pixels. */
  readonly pixels: number;
}

/** Faces that may be equally near to one pixel; of more, those of least paper are passed over. */
const OWNERS = 8;

/**
 * The borders of the faces that bridges part, bridge by bridge.
 *
 * Each pixel of a bridge belongs to the faces that are nearest to it by steps over pixels of bridges,
 * to several where they are equally near; two faces border on one another where one pixel, or two
 * neighbors, belong to both. So faces that rival bridges part, side by side and several pixels
 * thick, are neighbors too. Where three faces or more meet, that counts only for faces that nothing
 * else connects. O(bridge pixels).
 */
export function findBorders(
  net: BridgePixels,
  bridges: readonly Int32Array[],
  areas: ArrayLike<number>,
  tick?: Tick,
): Border[] {
  const owners = ownersOf(net, areas);
  tick?.(0.2);
  const parent = singleSets(areas.length);
  const isCrossing = new Uint8Array(net.count);
  const plain = pairsOf(net, owners, isCrossing, undefined, partOf(tick, 0.2, 0.7));
  for (let k = 0; k < plain.a.length; k++) unite(parent, plain.a.data[k]!, plain.b.data[k]!);
  const areApart = (a: number, b: number): boolean => findRoot(parent, a) !== findRoot(parent, b);
  const crossed = pairsOf(net, owners, isCrossing, areApart, partOf(tick, 0.7, 0.8));
  const borders: { bridge: number; a: number; b: number; pixels: number }[] = [];
  bridges.forEach((pixels, bridge) => {
    if (bridge % 256 === 0) tick?.(0.8 + (0.2 * bridge) / bridges.length);
    const first = borders.length;
    for (const p of pixels) {
      const i = net.numberOf(p);
      for (const { start, a, b } of [plain, crossed]) {
        for (let k = start[i]!; k < start[i + 1]!; k++) {
          let n = first;
          while (
            n < borders.length &&
            !(borders[n]!.a === a.data[k] && borders[n]!.b === b.data[k])
          )
            n++;
          if (n < borders.length) borders[n]!.pixels++;
          else borders.push({ bridge, a: a.data[k]!, b: b.data[k]!, pixels: 1 });
        }
      }
    }
  });
  return borders;
}

/** The nearest faces of every pixel, ring by ring: of pixel i at `OWNERS` · i and on, 0 behind the last. */
function ownersOf({ count, sides }: BridgePixels, areas: ArrayLike<number>): Int32Array {
  const faces = new Int32Array(OWNERS * count);
  const ring = new Int32Array(count).fill(-1);
  let near: number[] = [];
  for (let i = 0; i < count; i++) {
    for (let k = 0; k < 4; k++) {
      const side = sides[4 * i + k]!;
      if (side <= 0) continue;
      addOwner(faces, i, side, areas);
      ring[i] = 0;
    }
    if (ring[i] === 0) near.push(i);
  }
  for (let distance = 1; near.length > 0; distance++) {
    const next: number[] = [];
    for (const i of near) {
      for (let k = 0; k < 4; k++) {
        const other = -1 - sides[4 * i + k]!;
        if (other < 0 || (ring[other] !== -1 && ring[other] !== distance)) continue;
        if (ring[other] === -1) next.push(other);
        ring[other] = distance;
        for (let n = OWNERS * i; n < OWNERS * (i + 1) && faces[n] !== 0; n++) {
          addOwner(faces, other, faces[n]!, areas);
        }
      }
    }
    near = next;
  }
  return faces;
}

function addOwner(faces: Int32Array, pixel: number, face: number, areas: ArrayLike<number>): void {
  let least = -1;
  for (let n = OWNERS * pixel; n < OWNERS * (pixel + 1); n++) {
    if (faces[n] === face) return;
    if (faces[n] === 0) {
      faces[n] = face;
      return;
    }
    if (least < 0 || areas[faces[n]!]! < areas[faces[least]!]!) least = n;
  }
  if (areas[face]! > areas[faces[least]!]!) faces[least] = face;
}

/** Pairs of faces, a < b, by pixel: those of pixel i from `start[i]` to `start[i + 1]`. */
interface PixelPairs {
  readonly start: Int32Array;
  readonly a: IntList;
  readonly b: IntList;
}

/**
 * Pairs of faces, of two that meet at a pixel alone; notes the pixels where more do. With `isWanted`,
 * the wanted pairs of these.
 */
function pairsOf(
  { count, sides }: BridgePixels,
  faces: Int32Array,
  isCrossing: Uint8Array,
  isWanted: ((a: number, b: number) => boolean) | undefined,
  tick: Tick | undefined,
): PixelPairs {
  const start = new Int32Array(count + 1);
  const [first, second] = [new IntList(), new IntList()];
  const put = (from: number, one: number, other: number): void => {
    const [a, b] = one < other ? [one, other] : [other, one];
    for (let k = from; k < first.length; k++) {
      if (first.data[k] === a && second.data[k] === b) return;
    }
    if (isWanted?.(a, b) === false) return;
    first.push(a);
    second.push(b);
  };
  const both = new Int32Array(2 * OWNERS);
  /** Adds the owners of a pixel to so many; gives how many there are then. */
  const collect = (i: number, known: number): number => {
    let size = known;
    for (let n = OWNERS * i; n < OWNERS * (i + 1) && faces[n] !== 0; n++) {
      let m = 0;
      while (m < known && both[m] !== faces[n]) m++;
      if (m === known) both[size++] = faces[n]!;
    }
    return size;
  };
  for (let i = 0; i < count; i++) {
    if (i % 4096 === 0) tick?.(i / count);
    start[i] = first.length;
    if (isWanted !== undefined && isCrossing[i] === 0) continue;
    for (let k = -1; k < 4; k++) {
      const other = k < 0 ? i : -1 - sides[4 * i + k]!;
      if (other < 0 || (k >= 0 && haveSameOwners(faces, i, other))) continue;
      let size = collect(i, 0);
      if (other !== i) size = collect(other, size);
      if (size > 2) isCrossing[i] = 1;
      if (size < 2 || size > 2 !== (isWanted !== undefined)) continue;
      for (let n = 1; n < size; n++) {
        for (let m = 0; m < n; m++) put(start[i]!, both[n]!, both[m]!);
      }
    }
  }
  start[count] = first.length;
  return { start, a: first, b: second };
}

/** Whether two pixels belong to the same faces, put down in the same order. */
function haveSameOwners(faces: Int32Array, i: number, other: number): boolean {
  for (let n = 0; n < OWNERS; n++) {
    const face = faces[OWNERS * i + n]!;
    if (face !== faces[OWNERS * other + n]) return false;
    if (face === 0) return true;
  }
  return true;
}
