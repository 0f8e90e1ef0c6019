// An opening of a wanted width in the ink between two regions.
import { raster } from 'underink';
import { anyPixel, between, nearest } from './places.mjs';

/** How far the way through the opening is looked along for a place that is wide. */
const AHEAD = 60;

/**
 * Erases the line between two regions at a random place, so that the opening is at most n pixels wide
 * and at least four fifths of that, and 4-connected. Both regions are three times as wide, in front
 * of it: as `opens` of the check asks. `{ ink, erased, ids }`, or undefined.
 */
export function seamOpened(sheet, n) {
  const { ink, labels, distance, width, height } = sheet;
  const ids = labels.data;
  for (let attempt = 0; attempt < 200; attempt++) {
    const at = anyPixel(sheet, (i) => ids[i] !== ids[i + 1] || ids[i] !== ids[i + width]);
    if (at === undefined) return undefined;
    const a = ids[at];
    const b = ids[at + 1] !== a ? ids[at + 1] : ids[at + width];
    const ends = [a, b].map((id) =>
      first(nearest(sheet, at), (i) => ids[i] === id && ink.data[i] === 0),
    );
    if (ends.includes(undefined)) continue;
    const [dx, dy] = between(width, ...ends);
    const thick = Math.hypot(dx, dy);
    const way = [dx / thick, dy / thick];
    if (!isWide(sheet, ends[0], [-way[0], -way[1]], n) || !isWide(sheet, ends[1], way, n)) continue;
    for (let half = n / 2; half > 0; half -= 0.125) {
      const erased = band(sheet, ends, way, thick, half);
      const clear = clearWidth(sheet, ends, way, thick, erased);
      if (clear > n) continue;
      if (clear < 0.8 * n || !connects(sheet, ends, erased)) break;
      const data = ink.data.slice();
      for (const i of erased) data[i] = 0;
      return { ink: raster(data, [width, height]), erased, ids: [a, b], distance };
    }
  }
  return undefined;
}

/** Pixels of ink between two ends, at most `half` aside from the way between them. */
function band({ ink, width, ...sheet }, [from], [wx, wy], thick, half) {
  const erased = new Set();
  for (const i of nearest({ width, ...sheet }, from)) {
    const [u, v] = between(width, from, i);
    const along = u * wx + v * wy;
    if (along < -1.5 || along > thick + 1.5 || Math.abs(u * wy - v * wx) > half) continue;
    if (ink.data[i] === 1) erased.add(i);
  }
  return erased;
}

/** Clear paper between the ink left on the two sides of the way. */
function clearWidth({ ink, width }, [from], [wx, wy], thick, erased) {
  const sides = [[], []];
  for (const i of nearest({ width }, from)) {
    const [u, v] = between(width, from, i);
    const along = u * wx + v * wy;
    if (ink.data[i] === 0 || erased.has(i) || along < -3 || along > thick + 3) continue;
    sides[u * wy - v * wx > 0 ? 1 : 0].push([u, v]);
  }
  let least = Number.POSITIVE_INFINITY;
  for (const [u, v] of sides[0]) {
    for (const [x, y] of sides[1]) least = Math.min(least, Math.hypot(u - x, v - y));
  }
  return least - 1;
}

/** Whether steps along edges lead through what was erased from one end to the other. */
function connects({ width }, [from, to], erased) {
  const todo = [from];
  const seen = new Set(todo);
  while (todo.length > 0) {
    const i = todo.pop();
    for (const j of [i - 1, i + 1, i - width, i + width]) {
      if (j === to) return true;
      if (seen.has(j) || !erased.has(j)) continue;
      seen.add(j);
      todo.push(j);
    }
  }
  return false;
}

/** Whether the way reaches a place wide enough, and none narrower than the opening on it. */
function isWide({ distance, width, height }, from, [wx, wy], n) {
  let widest = 0;
  for (let step = 0; step < AHEAD; step++) {
    const x = Math.round((from % width) + step * wx);
    const y = Math.round(Math.floor(from / width) + step * wy);
    if (x < 0 || y < 0 || x >= width || y >= height) return false;
    const reach = distance[y * width + x];
    if (reach < Math.min(widest, n)) return false;
    widest = Math.max(widest, reach);
    if (2 * widest - 1 >= 3 * n + 1) return true;
  }
  return false;
}

function first(list, isWanted) {
  for (const i of list) if (isWanted(i)) return i;
  return undefined;
}
