import { pixelCenter } from '../../raster/pixel-center.ts';
import type { Point } from '../../raster/types.ts';
import type { InscribedDiscs } from '../../regions/inscribed.ts';
import type { ComparedRegions } from './compare-regions.ts';
import { SMALL } from './part-at-seams.ts';
import type { Sides } from './sides.ts';
import { movePoint, type Similarity } from './similarity.ts';

/** What became of a region. */
export type ChangeKind = 'kept' | 'moved' | 'split' | 'merged' | 'new' | 'gone';

/** A region of the new picture, or one of the old that is gone. */
export interface CarriedRegion {
  /**
   * `kept`; `moved`, in place or outline; `split`, one of the parts of a region; `merged` of several;
   * `new`; or `gone`.
   */
  readonly kind: ChangeKind;
  /** Center of its widest disc in the new picture; left out where it is gone. */
  readonly at?: Point;
  /** The same in the old picture; left out where it is new. Of merged ones, that of the one that stays. */
  readonly was?: Point;
  /** Pixels of its paper, in the picture that it is in. */
  readonly area: number;
  /** Its swatch; left out where nothing says what it is. */
  readonly swatch?: string;
  /** Swatches of the regions that have become a part of it, the largest first. */
  readonly lost: readonly string[];
  /** Where each of these was, in the new picture: the place to look at, far from `at` in a large region. */
  readonly lostAt: readonly Point[];
  /** How sure it is that the swatch is right, 0 to 1. */
  readonly confidence: number;
  /** Whether somebody should look at it. */
  readonly look: boolean;
}

/** What is known of the regions of both pictures. */
export interface Compared extends ComparedRegions {
  readonly size: Sides;
  /** Of the paper of the old regions. */
  readonly oldDiscs: InscribedDiscs;
  readonly oldSize: Sides;
  /** Name of the swatch of an old region. */
  readonly swatchOf: (old: number) => string | undefined;
  readonly transform: Similarity;
  /** New regions that touch the picture's border. */
  readonly border: ReadonlySet<number>;
}

/** From that share of their common paper on, of both together, an outline counts as the same. */
const SAME = 0.75;
/** Below that confidence a region is to be looked at. */
const LOOK = 0.9;

/** All regions of the new picture and those that are gone, least certain first, ties by place. */
export function listChanges(compared: Compared): CarriedRegion[] {
  const { overlaps, matches, oldDiscs, oldSize, swatchOf } = compared;
  const { area, oldArea } = overlaps;
  const parts = new Int32Array(oldArea.length);
  const large = SMALL * compared.stroke * compared.stroke;
  matches.old.forEach((old, id) => {
    if (area[id]! > 0) parts[old]! += 1;
  });
  const absorbed = new Map<number, number[]>();
  matches.partOf.forEach((id, old) => {
    if (id !== 0) absorbed.set(id, [...(absorbed.get(id) ?? []), old]);
  });
  const changes: CarriedRegion[] = [];
  for (let id = 1; id < area.length; id++) {
    if (area[id] === 0) continue;
    changes.push(changeOf(compared, id, parts[matches.old[id]!]!, absorbed.get(id) ?? [], large));
  }
  for (let old = 1; old < oldArea.length; old++) {
    if (oldArea[old] === 0 || parts[old]! > 0 || matches.partOf[old] !== 0) continue;
    const swatch = swatchOf(old);
    changes.push({
      kind: 'gone',
      was: placeOf(oldDiscs, oldSize, old),
      area: Math.round(oldArea[old]!),
      ...(swatch === undefined ? {} : { swatch }),
      lost: [],
      lostAt: [],
      confidence: 0,
      look: oldArea[old]! >= large && isInside(compared, placeOf(oldDiscs, oldSize, old)),
    });
  }
  const yx = ({ at, was }: CarriedRegion): Point => at ?? was!;
  return changes.sort((p, q) => {
    return p.confidence - q.confidence || yx(p)[1] - yx(q)[1] || yx(p)[0] - yx(q)[0];
  });
}

function changeOf(
  {
    overlaps,
    matches,
    discs,
    size,
    cuts,
    stroke,
    oldDiscs,
    oldSize,
    swatchOf,
    transform,
    border,
    cropped,
  }: Compared,
  id: number,
  parts: number,
  absorbed: readonly number[],
  large: number,
): CarriedRegion {
  const { area, oldArea, shows } = overlaps;
  const old = matches.old[id]!;
  const at = placeOf(discs, size, id);
  if (old === 0) {
    const look = area[id]! >= large;
    return { kind: 'new', at, area: area[id]!, lost: [], lostAt: [], confidence: 0, look };
  }
  const lost = [...absorbed].sort((p, q) => oldArea[q]! - oldArea[p]! || p - q);
  const swatch = swatchOf(old);
  const named = lost.filter((one) => swatchOf(one) !== undefined);
  const names = named.map((one) => swatchOf(one)!);
  const common = shows[id]!.find((one) => one.id === old)?.pixels ?? 0;
  const blank = overlaps.blank[id]!;
  const alike = common / (area[id]! - blank + Math.max(0, oldArea[old]! - blank) - common);
  const kind = kindOf(matches.strayed[id] === 1 || alike < SAME, parts, lost.length);
  const confidence = Math.min(1, matches.sure[id]!);
  const isDoubtful =
    confidence < LOOK ||
    (kind === 'merged' && names.some((name) => name !== swatch)) ||
    (kind === 'split' && cuts[id]! > stroke && !(border.has(id) && cropped.has(old)));
  const look = isDoubtful && area[id]! >= large;
  return {
    kind,
    at,
    was: placeOf(oldDiscs, oldSize, old),
    area: area[id]!,
    ...(swatch === undefined ? {} : { swatch }),
    lost: names,
    lostAt: named.map((one) => movePoint(transform, placeOf(oldDiscs, oldSize, one))),
    confidence,
    look,
  };
}

/** Whether the new picture holds a place of the old one. */
function isInside({ size, transform }: Compared, place: Point): boolean {
  const [x, y] = movePoint(transform, place);
  return x >= 0 && y >= 0 && x < size.width && y < size.height;
}

function kindOf(isMoved: boolean, parts: number, absorbed: number): ChangeKind {
  if (absorbed > 0) return 'merged';
  if (parts > 1) return 'split';
  return isMoved ? 'moved' : 'kept';
}

function placeOf({ center }: InscribedDiscs, { width }: Sides, id: number): Point {
  return pixelCenter(center[id]!, width);
}
