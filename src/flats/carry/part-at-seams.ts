import { pixelCenter } from '../../raster/pixel-center.ts';
import { partOf, type Tick } from '../../raster/progress.ts';
import type { Bounds } from '../../raster/types.ts';
import { measureSpans } from '../../regions/measure.ts';
import type { Compared, Comparison } from './compare-regions.ts';
import { keepSeams, type Opening } from './keep-seams.ts';
import { paperSeams } from './match-regions.ts';
import type { Overlap } from './overlaps.ts';
import { inverse, movePoint, scaleOf } from './similarity.ts';

/** Squares of the stroke width below which a part of a region counts for nothing; chosen: nobody sees it. */
export const SMALL = 1;
/** A piece that is so much of its region counts all the same: where ink is solid, strokes seem wide. */
const PIECE = 0.02;
/** A seam may be so much longer than it was, and so many strokes more, as where a line is broken. */
const LONGER = 1.5;
const BROKEN = 4;

/**
 * Parts off old regions, or pieces of them, that share a new region with the one that keeps it, where
 * they are open to each other only where they were so before, as across a closed gap or along a polygon
 * of a person; or nowhere by more than four strokes, as where a line is broken too far to be closed or
 * has become one of dashes; or beyond what the old picture showed. Of a region that lives on elsewhere,
 * as when a line was drawn across it, a piece is parted only if it has more paper than the square on
 * its opening: one beside a line that has moved is open all along.
 *
 * Changes `labels`; gives one past the highest id afterwards. O(pixels of the bounds of what is shared).
 */
export function partAtSeams(
  { labels, count, seen, old, transform, ink }: Comparison,
  { overlaps, matches }: Compared,
  stroke: number,
  mayPart: (a: number, b: number) => boolean,
  tick: Tick | undefined,
): number {
  const { width, height } = ink;
  const shared = new Map<number, readonly Overlap[]>();
  overlaps.shows.forEach((list, id) => {
    const keeps = matches.old[id]!;
    const others = list.filter(({ id: other, pixels }) => {
      if (other === keeps || !mayPart(keeps, other)) return false;
      const least = Math.min(SMALL * stroke * stroke, PIECE * overlaps.oldArea[other]!);
      return matches.partOf[other] === id || pixels >= least;
    });
    if (keeps !== 0 && others.length > 0) shared.set(id, others);
  });
  if (shared.size === 0) return count;
  const seam = paperSeams(old.ids, old.width, old.height, partOf(tick, 0, 0.3));
  const length = overlaps.area.length;
  const { bounds } = measureSpans(labels, width, height, length, partOf(tick, 0.3, 0.4));
  const scale = scaleOf(transform);
  const back = inverse(transform);
  const isShown = (p: number): boolean => {
    const [u, v] = movePoint(back, pixelCenter(p, width));
    return ink.data[p] === 0 && u >= 0 && v >= 0 && u < old.width && v < old.height;
  };
  let next = count;
  let done = 0;
  for (const [id, list] of shared) {
    const own = 0.6 / shared.size;
    const step = partOf(tick, 0.4 + done * own, 0.4 + ++done * own);
    const keeps = matches.old[id]!;
    const others = new Map<number, Opening>();
    for (const { id: one, pixels } of list) {
      let before = seam(keeps, one);
      for (const other of list) if (other.id !== one) before += seam(other.id, one);
      const all = LONGER * before * scale + BROKEN * stroke;
      const isWhole = matches.partOf[one] === id;
      const most = isWhole ? Number.POSITIVE_INFINITY : Math.sqrt(pixels);
      others.set(one, { all: Math.min(all, most), each: isWhole ? BROKEN * stroke : 0 });
    }
    const box = [...bounds.subarray(4 * id, 4 * id + 4)] as Bounds;
    next += keepSeams({ labels, width, id, bounds: box, seen, keeps, others, isShown }, next, step);
  }
  return next;
}
