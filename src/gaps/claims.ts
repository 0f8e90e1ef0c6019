import type { Point } from '../raster/types.ts';
import type { Claim } from './agglomerate.ts';
import type { FaceMap } from './face-map.ts';
import { probabilityOf } from './odds.ts';

/** Paper without a mark that a marked region, or the ground, has claimed. */
export interface ClaimedPaper {
  /** The middle of its longest run of pixels, the first row by row of several. */
  readonly at: Point;
  /** In pixels. */
  readonly area: number;
  /** How likely the border was that was passed over, 0 to 1. */
  readonly probability: number;
}

/** Claims with their places. O(runs). */
export function placeClaims(map: FaceMap, claims: readonly Claim[]): ClaimedPaper[] {
  if (claims.length === 0) return [];
  const { area, parts } = map;
  const { runs, numbers, idOf, height } = parts;
  const claimOf = new Int32Array(map.count + 1).fill(-1);
  claims.forEach(({ faces }, i) => {
    for (const face of faces) claimOf[face] = i;
  });
  const longest = new Int32Array(claims.length);
  const places = claims.map((): Point => [0, 0]);
  for (let y = 0; y < height; y++) {
    for (let r = runs.from[y]!; r < runs.to[y]!; r++) {
      const claim = claimOf[idOf[numbers[r]!]!]!;
      const length = runs.end[r]! - runs.start[r]!;
      if (claim < 0 || length <= longest[claim]!) continue;
      longest[claim] = length;
      places[claim] = [((runs.start[r]! + runs.end[r]! - 1) >> 1) + 0.5, y + 0.5];
    }
  }
  return claims.map(({ faces, odds }, i) => ({
    at: places[i]!,
    area: faces.reduce((sum, face) => sum + area[face]!, 0),
    probability: probabilityOf(odds),
  }));
}
