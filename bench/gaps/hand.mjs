// Set `hand`: the geometry of the set `vector` as a hand would ink it, with details that separate nothing.
import { labelRegions, raster, rasterizePolygon } from 'underink';
import { addDetails } from './details.mjs';
import { arcLengths, sweep } from './pen.mjs';
import { between, seeded, smoothNoise } from './random.mjs';
import { flattenShapes } from './shapes.mjs';
import { UNITS } from './vector.mjs';

/** Shifts of the plane under a hand, as `wobbleOf` takes them. */
const HAND = { far: [0.006, 0.018], near: [0.1, 0.45] };

/**
 * Ink of a drawing, `size` pixels on each side, with strokes of about `pen` pixels; undefined where a
 * hand would have opened or closed regions that the drawing does not.
 *
 * The whole plane wobbles, so that strokes that meet still do; each stroke has its own width, which
 * varies along it, and ends that meet no other stroke taper off.
 */
export function drawHand(drawing, size, pen) {
  const random = seeded(`hand ${drawing.group}`);
  const drawn = drawContours(drawing, size, pen, random);
  if (regionCount(drawn) !== regionCount(inkOf(flattenShapes(drawing.markup), size, pen)))
    return undefined;
  return { ...drawn, details: addDetails(drawn, pen, random) };
}

/** The same drawing `scale` times as large, with the same details. */
export function drawHandAgain(drawing, size, pen, scale) {
  const small = drawHand(drawing, size, pen);
  if (small === undefined) return undefined;
  const random = seeded(`hand ${drawing.group}`);
  const drawn = drawContours(drawing, scale * size, scale * pen, random);
  for (const line of small.details) {
    sweep(
      drawn,
      line.map(([x, y, radius]) => [scale * x, scale * y, scale * radius]),
    );
  }
  return drawn;
}

function drawContours({ markup }, size, pen, random) {
  const wobble = wobbleOf(random, size, pen);
  const shapes = flattenShapes(markup);
  const lines = shapes.flatMap(({ lines, stroke }) =>
    stroke === 0
      ? []
      : lines.map((line) => ({
          closed: line.closed,
          points: line.points.map((point) => wobble(toPixel(point, size))),
          radius: ((stroke / 2) * pen) / 2,
        })),
  );
  const drawn = { width: size, height: size, ink: new Uint8Array(size * size) };
  for (const line of lines) sweep(drawn, inked(line, lines, random, pen));
  fillShapes(drawn, shapes, (point) => wobble(toPixel(point, size)));
  return drawn;
}

/** The same drawing with even strokes, as it stands. */
function inkOf(shapes, size, pen) {
  const drawing = { width: size, height: size, ink: new Uint8Array(size * size) };
  for (const { lines, stroke } of shapes) {
    const radius = (stroke * pen) / 4;
    for (const { points } of lines) {
      if (stroke > 0)
        sweep(
          drawing,
          points.map((point) => [...toPixel(point, size), radius]),
        );
    }
  }
  fillShapes(drawing, shapes, (point) => toPixel(point, size));
  return drawing;
}

/** Inks the shapes that are filled; `place` takes their points to pixels. */
export function fillShapes({ ink, width, height }, shapes, place) {
  for (const { lines, filled } of shapes) {
    if (!filled) continue;
    const rings = lines.map(({ points }) => points.map(place));
    const mask = rasterizePolygon(
      rings.filter((ring) => ring.length > 2),
      [width, height],
      { rule: 'nonzero' },
    );
    for (let i = 0; i < ink.length; i++) ink[i] |= mask.data[i];
  }
}

function toPixel([x, y], size) {
  return [(x * size) / UNITS, (y * size) / UNITS];
}

/**
 * A shift of the plane: slow over the drawing, by a share of its size in the range `far`, and a
 * tremble by a share of the pen in the range `near`.
 */
export function wobbleOf(random, size, pen, { far: slowest, near: fastest } = HAND) {
  const [slowX, slowY, fastX, fastY] = [0, 1, 2, 3].map(() => smoothNoise(random));
  const slow = size / 6;
  const fast = 4 * pen;
  const far = between(random, ...slowest) * size;
  const near = between(random, ...fastest) * pen;
  return ([x, y]) => [
    x + far * slowX(x / slow, y / slow) + near * fastX(x / fast, y / fast),
    y + far * slowY(x / slow, y / slow) + near * fastY(x / fast, y / fast),
  ];
}

/** A line with the radius of the pen at each point. */
function inked({ points, closed, radius }, lines, random, pen) {
  const pressure = smoothNoise(random);
  const base = radius * between(random, 0.8, 1.25);
  const swing = between(random, 0.1, 0.4);
  const s = arcLengths(points);
  const length = s.at(-1);
  const isLoop =
    closed ||
    Math.hypot(points[0][0] - points.at(-1)[0], points[0][1] - points.at(-1)[1]) < 0.25 * pen;
  const taper = [points[0], points.at(-1)].map((end) => {
    const reach = between(random, 2, 7) * pen;
    return !isLoop && random() < 0.8 && isFree(end, points, lines, 1.5 * pen)
      ? Math.min(reach, length / 2)
      : 0;
  });
  const tip = between(random, 0.2, 0.6);
  return points.map(([x, y], i) => {
    const wave = 1 + swing * pressure(s[i] / (6 * pen), 0.5);
    const ends = [s[i], length - s[i]].map((d, k) =>
      d < taper[k] ? tip + ((1 - tip) * d) / taper[k] : 1,
    );
    return [x, y, Math.max(0.8, base * wave * Math.min(...ends))];
  });
}

/** Whether no other line comes near an end. */
export function isFree([x, y], own, lines, reach) {
  return lines.every(
    ({ points }) =>
      points === own || points.every(([px, py]) => Math.hypot(px - x, py - y) > reach),
  );
}

/** Paper regions of 12 pixels and more. */
function regionCount({ ink, width, height }) {
  const { labels, count } = labelRegions(raster(ink, [width, height]), { of: 0 });
  const areas = new Int32Array(count + 1);
  for (const label of labels.data) areas[label]++;
  return areas.subarray(1).filter((area) => area >= 12).length;
}
