// Free-ended strokes that separate nothing: wrinkles, hair strands, hatch marks.
import { labelRegions, raster } from 'underink';
import { sweep } from './pen.mjs';
import { between, pick } from './random.mjs';

/** Bunches of strokes of a drawing, at most; strokes of a bunch; starts tried for a bunch. */
const BUNCHES = 9;
const STRANDS = 4;
const TRIES = 60;
/** Share of the bunches that are drawn within the figure, off the ground. */
const WITHIN = 0.65;

/**
 * Draws bunches of short tapering strokes into the paper, some of them rooted on contours. Each keeps
 * clear of all other ink but its root's, by 4 pixels and by 0.8 pens, and parts no region. Gives the
 * strokes as lines of `[x, y, radius]`.
 */
export function addDetails(drawing, pen, random) {
  const { ink, width, height } = drawing;
  const wanted = Math.floor(between(random, 2, BUNCHES + 1));
  const clear = Math.max(4, 0.8 * pen);
  const { labels, count: regions } = labelRegions(raster(ink, [width, height]), { of: 0 });
  const isGround = ([x, y]) => labels.get(Math.floor(x), Math.floor(y)) === labels.get(0, 0);
  const strokes = [];
  for (let bunch = 0; bunch < wanted; bunch++) {
    const within = random() < WITHIN;
    let drawn = 0;
    for (let tries = 0; tries < TRIES && drawn === 0; tries++) {
      const start = [between(random, 0, width), between(random, 0, height)];
      if (within === isGround(start)) continue;
      const lines = planBunch(drawing, start, pen, random);
      for (const line of lines.filter((one) => isClear(drawing, one, clear))) {
        const before = ink.slice();
        sweep(drawing, line.points);
        const after = labelRegions(raster(ink, [width, height]), { of: 0 }).count;
        if (after !== regions) {
          ink.set(before);
          continue;
        }
        strokes.push(line.points);
        drawn++;
      }
    }
  }
  return strokes;
}

/** Strokes `{ points, rooted }` from a point on, or from the contour near it. */
function planBunch(drawing, start, pen, random) {
  const rooted = random() < 0.5;
  const free = { at: start, towards: between(random, 0, 2 * Math.PI) };
  const root = rooted ? findRoot(drawing, start, random) : free;
  if (root === undefined || (!rooted && !isInside(drawing, start, 2 * pen))) return [];
  return bunchOf(root, rooted, pen, random).map((points) => ({ points, rooted }));
}

/** Strokes side by side that bend alike. */
function bunchOf({ at, towards }, rooted, pen, random) {
  const count = Math.floor(between(random, 1, STRANDS + 1));
  const gap = between(random, 2.5, 4.5) * pen;
  const length = between(random, 3, 12) * pen;
  const bend = between(random, -0.12, 0.12) / pen;
  const radius = (pen / 2) * between(random, 0.4, 0.95);
  const blunt = random() < 0.25;
  return Array.from({ length: count }, (_, k) => {
    const side = (k - (count - 1) / 2) * gap;
    const x = at[0] - side * Math.sin(towards);
    const y = at[1] + side * Math.cos(towards);
    return strand([x, y], towards + between(random, -0.15, 0.15), {
      length: length * between(random, 0.7, 1.1),
      bend,
      radius,
      tips: blunt ? [1, 1] : [rooted ? 1 : 0.3, 0.3],
    });
  });
}

function strand([x0, y0], towards, { length, bend, radius, tips }) {
  const line = [];
  let [x, y] = [x0, y0];
  const steps = Math.ceil(length);
  for (let k = 0; k <= steps; k++) {
    const t = k / steps;
    const swell = Math.min(
      1,
      tips[0] + 3 * t * (1 - tips[0]),
      tips[1] + 2 * (1 - t) * (1 - tips[1]),
    );
    line.push([x, y, Math.max(0.8, radius * swell)]);
    const angle = towards + bend * k;
    x += (Math.cos(angle) * length) / steps;
    y += (Math.sin(angle) * length) / steps;
  }
  return line;
}

/** A place on a contour near a point, with a direction into the paper. */
function findRoot({ ink, width, height }, [x, y], random) {
  const isInk = (u, v) =>
    u >= 0 && v >= 0 && u < width && v < height && ink[Math.floor(v) * width + Math.floor(u)] === 1;
  if (isInk(x, y)) return undefined;
  const angle = pick(random, [0, 1, 2, 3, 4, 5, 6, 7]) * (Math.PI / 4);
  for (let d = 1; d < width / 4; d++) {
    const [u, v] = [x + d * Math.cos(angle), y + d * Math.sin(angle)];
    if (isInk(u, v)) {
      return { at: [u, v], towards: angle + Math.PI + between(random, -0.5, 0.5) };
    }
  }
  return undefined;
}

function isInside({ ink, width, height }, [x, y], reach) {
  return countInk({ ink, width, height }, x, y, reach) === 0;
}

/** Whether a stroke stays within the picture and off other ink, its root left out. */
function isClear({ ink, width, height }, { points: line, rooted }, clear) {
  const [x0, y0, r0] = line[0];
  if (rooted && countInk({ ink, width, height }, x0, y0, 1) === 0) return false;
  const free = rooted ? 2 * clear + 2 * r0 : 0;
  let isOff = false;
  for (const [x, y, r] of line) {
    const margin = r + clear;
    if (x < margin || y < margin || x > width - margin || y > height - margin) return false;
    if (Math.hypot(x - x0, y - y0) < free) continue;
    isOff = true;
    if (countInk({ ink, width, height }, x, y, margin) > 0) return false;
  }
  return isOff;
}

function countInk({ ink, width, height }, x, y, reach) {
  let count = 0;
  for (let v = Math.max(0, Math.floor(y - reach)); v <= Math.min(height - 1, y + reach); v++) {
    for (let u = Math.max(0, Math.floor(x - reach)); u <= Math.min(width - 1, x + reach); u++) {
      if ((u + 0.5 - x) ** 2 + (v + 0.5 - y) ** 2 <= reach * reach) count += ink[v * width + u];
    }
  }
  return count;
}
