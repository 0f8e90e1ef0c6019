// What an inker adds to contours: shadows, feathering, hatching, folds, hair, dots and small signs.
import { growLine, inkField, walkContour } from './field.mjs';
import { sweep } from './pen.mjs';
import { between, pick } from './random.mjs';
import { markOf } from './thick-thin.mjs';

/** Kinds of marks with how often each is drawn. */
const KINDS = [
  [feather, 3],
  [hatch, 3],
  [strands, 4],
  [folds, 3],
  [shade, 3],
  [band, 1.5],
  [dashes, 1],
  [dots, 1],
  [signs, 0.7],
];

/** Places tried for a cluster. */
const TRIES = 3;

/**
 * Draws `count` clusters of marks, of a few kinds by lot, most of them on the figures. Many strokes
 * end shortly before another contour.
 */
export function addMarks(drawing, { count, pen, isGround }, random) {
  const kinds = Array.from({ length: 3 }, () => weighted(random));
  for (let k = 0; k < count; k++) {
    const field = inkField(drawing);
    const on = random() < 0.9;
    const draw = pick(random, kinds);
    for (let tries = 0; tries < TRIES; tries++) {
      const start = findPaper(drawing, (x, y) => isGround(x, y) !== on, random);
      const lines = start === undefined ? [] : draw(field, start, pen, random);
      for (const line of lines) sweep(drawing, line);
      if (lines.length > 0) break;
    }
  }
}

function weighted(random) {
  let left = random() * KINDS.reduce((sum, [, weight]) => sum + weight, 0);
  return KINDS.find(([, weight]) => (left -= weight) < 0)[0];
}

function findPaper({ ink, width, height }, fits, random) {
  for (let tries = 0; tries < 60; tries++) {
    const [x, y] = [between(random, 2, width - 2), between(random, 2, height - 2)];
    if (ink[Math.floor(y) * width + Math.floor(x)] === 0 && fits(x, y)) return [x, y];
  }
  return undefined;
}

/** How far before ink a stroke ends, in pixels. */
function stopBefore(random, pen) {
  return Math.max(1.5, between(random, 0.5, 3) * Math.min(pen, 8));
}

/** Strokes side by side off a contour, so dense at their roots that they join to black. */
function feather(field, start, pen, random) {
  const root = pen * between(random, 0.35, 0.9);
  const step = Math.max(1, root * between(random, 0.7, 1.4));
  const walk = walkContour(field, start, {
    step,
    count: Math.floor(between(random, 4, 22)),
    level: 0.5,
  });
  return rooted(field, walk, {
    random,
    reach: pen * between(random, 2, 7),
    radius: root,
    margin: stopBefore(random, pen),
    skew: between(random, -0.9, 0.9),
    ragged: between(random, 0.2, 0.6),
  });
}

/** Parallel strokes, off a contour or floating, now and then crossed. */
function hatch(field, start, pen, random) {
  const radius = Math.max(0.7, (pen / 2) * between(random, 0.25, 0.8));
  const step = 2 * radius + Math.max(2, pen * between(random, 0.5, 2.5));
  const count = Math.floor(between(random, 3, 14));
  const margin = stopBefore(random, pen);
  const reach = pen * between(random, 4, 20);
  const ragged = between(random, 0.1, 0.5);
  if (random() < 0.5) {
    const walk = walkContour(field, start, { step, count, level: 0.5 });
    const skew = between(random, -1, 1);
    return rooted(field, walk, { random, reach, radius, margin, skew, ragged });
  }
  const angles = [random() * 2 * Math.PI];
  if (random() < 0.25) angles.push(angles[0] + between(random, 0.9, 1.6));
  return angles
    .flatMap((angle) =>
      Array.from({ length: count }, (_, k) => {
        const side = (k - count / 2) * step;
        const back = -reach * between(random, 0.4, 0.6);
        const at = [
          start[0] - side * Math.sin(angle) + back * Math.cos(angle),
          start[1] + side * Math.cos(angle) + back * Math.sin(angle),
        ];
        const length = reach * between(random, 1 - ragged, 1);
        const points = growLine(field, at, { angle, bend: 0, length, margin, rooted: false });
        return [points, { radius, heel: random(), tip: between(random, 0, 0.4) }];
      }),
    )
    .flatMap(([points, shape]) => (points.length > 3 ? [markOf(points, shape)] : []));
}

/** Tapering strokes from each point of a walk along a contour; the longest are in its middle. */
function rooted(field, walk, { random, reach, radius, margin, skew, ragged }) {
  return walk.flatMap(({ x, y, normal }, k) => {
    const hill = Math.sin((Math.PI * (k + 0.7)) / (walk.length + 0.4));
    const length = reach * hill * between(random, 1 - ragged, 1);
    const angle = Math.atan2(normal[1], normal[0]) + skew;
    const bend = between(random, -0.01, 0.01);
    const line = { angle, bend, length, margin, rooted: true };
    const points = growLine(field, [x - normal[0], y - normal[1]], line);
    return points.length > 2 ? [markOf(points, { radius, heel: 1, tip: 0, swell: 0.1 })] : [];
  });
}

/** Whiskers, hair, wrinkles: a few long strokes that bend alike, rooted or floating free. */
function strands(field, start, pen, random) {
  const isRooted = random() < 0.55;
  const radius = Math.max(0.7, (pen / 2) * between(random, 0.35, 1.3));
  const step = 2 * radius + pen * between(random, 0.6, 4);
  const count = Math.floor(between(random, 1, 6));
  const root = isRooted && walkContour(field, start, { step, count, level: 0.5 });
  const towards = random() * 2 * Math.PI;
  const skew = between(random, -1, 1);
  const bend = between(random, -0.12, 0.12) / pen;
  const length = pen * between(random, 4, 35);
  const margin = stopBefore(random, pen);
  return Array.from({ length: isRooted ? root.length : count }, (_, k) => {
    const angle = isRooted ? Math.atan2(root[k].normal[1], root[k].normal[0]) + skew : towards;
    const at = isRooted
      ? [root[k].x - root[k].normal[0], root[k].y - root[k].normal[1]]
      : [start[0] - k * step * Math.sin(towards), start[1] + k * step * Math.cos(towards)];
    const points = growLine(field, at, {
      angle: angle + between(random, -0.15, 0.15),
      bend,
      length: length * between(random, 0.6, 1.1),
      margin,
      rooted: isRooted,
    });
    const heel = isRooted ? 1 : between(random, 0, 0.5);
    return [
      points,
      { radius, heel, tip: between(random, 0, 0.3), swell: between(random, 0.1, 0.7) },
    ];
  }).flatMap(([points, shape]) => (points.length > pen ? [markOf(points, shape)] : []));
}

/** Folds: one or two long strokes off a contour, some of which end near the contour across. */
function folds(field, start, pen, random) {
  const walk = walkContour(field, start, {
    step: pen * between(random, 3, 9),
    count: random() < 0.4 ? 2 : 1,
    level: 0.5,
  });
  return walk.flatMap(({ x, y, normal }) => {
    const line = {
      angle: Math.atan2(normal[1], normal[0]) + between(random, -1, 1),
      bend: between(random, -0.06, 0.06) / pen,
      length: pen * between(random, 8, 60),
      margin: Math.max(3, between(random, 1, 3) * Math.min(pen, 8)),
      rooted: true,
    };
    const points = growLine(field, [x - normal[0], y - normal[1]], line);
    const radius = Math.max(0.8, (pen / 2) * between(random, 0.6, 1.4));
    const shape = {
      radius,
      heel: 1,
      tip: between(random, 0, 0.5),
      swell: between(random, 0.2, 0.8),
    };
    return points.length > 3 * pen ? [markOf(points, shape)] : [];
  });
}

/** A contour thickened on one side, swelling and dying away. */
function shade(field, start, pen, random) {
  const most = pen * between(random, 0.5, 2);
  const walk = walkContour(field, start, {
    step: 1.5,
    count: Math.floor((pen * between(random, 8, 60)) / 1.5),
    level: 0.5,
  });
  const line = walk.map(({ x, y }, k) => {
    const swell = Math.sin((Math.PI * k) / Math.max(1, walk.length - 1));
    return [x, y, Math.max(0.5, most * swell)];
  });
  return line.length > 4 ? [line] : [];
}

/** A line along a contour, a thin band of paper between them. */
function band(field, start, pen, random) {
  const level = Math.max(3, pen * between(random, 0.9, 3));
  const count = Math.floor(pen * between(random, 8, 90));
  const walk = walkContour(field, start, { step: 1, count, level });
  const radius = Math.max(0.7, (pen / 2) * between(random, 0.3, 1));
  const points = walk.map(({ x, y }) => [x, y]);
  const shape = { radius, heel: between(random, 0, 1), tip: between(random, 0, 1) };
  return points.length > 3 * pen ? [markOf(points, shape)] : [];
}

/** Short blunt dashes in rows. */
function dashes(field, [x0, y0], pen, random) {
  const angle = random() * 2 * Math.PI;
  const length = pen * between(random, 1, 4);
  const gap = length + pen * between(random, 1, 4);
  const radius = Math.max(0.8, pen * between(random, 0.25, 0.6));
  const rows = Math.floor(between(random, 1, 4));
  const columns = Math.floor(between(random, 2, 8));
  return Array.from({ length: rows * columns }, (_, k) => {
    const [u, v] = [(k % columns) * gap, Math.floor(k / columns) * (2 * radius + 2 * pen)];
    const at = [
      x0 + u * Math.cos(angle) - v * Math.sin(angle),
      y0 + u * Math.sin(angle) + v * Math.cos(angle),
    ];
    const margin = radius + 2;
    return growLine(field, at, { angle, bend: 0, length, margin, rooted: false });
  }).flatMap((points) =>
    points.length > 2
      ? [markOf(points, { radius, heel: 0.8, tip: between(random, 0.2, 0.9) })]
      : [],
  );
}

/** Dots scattered about a place. */
function dots({ distance }, [x0, y0], pen, random) {
  const radius = Math.max(0.8, pen * between(random, 0.2, 0.7));
  const spread = pen * between(random, 3, 14);
  return Array.from({ length: Math.floor(between(random, 3, 40)) }, () => {
    const [turn, far] = [random() * 2 * Math.PI, spread * Math.sqrt(random())];
    const [x, y] = [x0 + far * Math.cos(turn), y0 + far * Math.sin(turn)];
    const size = radius * between(random, 0.5, 1.2);
    return [
      [x, y, size],
      [x + between(random, -1, 1) * size, y, size],
    ];
  }).filter(([[x, y, size]]) => distance(x, y) > size + 1.5);
}

/** Rows of small signs as of handwriting: two or three bent strokes each, crossing or nearly closed. */
function signs({ distance }, [x0, y0], pen, random) {
  const radius = Math.max(0.7, pen * between(random, 0.2, 0.45));
  const size = Math.max(8, 9 * radius) * between(random, 0.8, 1.8);
  const lines = [];
  const count = Math.floor(between(random, 2, 9));
  for (let k = 0; k < count; k++) {
    const [left, top] = [x0 + 1.2 * size * k, y0 + between(random, -0.1, 0.1) * size];
    if (distance(left + size / 2, top + size / 2) < 0.8 * size) break;
    for (let n = Math.floor(between(random, 1, 4)); n > 0; n--) {
      const [ax, ay, bx, by] = Array.from({ length: 4 }, () => pick(random, [0, 0.5, 1]));
      const [cx, cy] = random() < 0.5 ? [random() * 2 - 0.5, random() * 2 - 0.5] : [ax, by];
      const line = Array.from({ length: 13 }, (_, i) => {
        const t = i / 12;
        const [p, q, r] = [(1 - t) ** 2, 2 * t * (1 - t), t * t];
        return [
          left + size * 0.9 * (p * ax + q * cx + r * bx),
          top + size * 0.9 * (p * ay + q * cy + r * by),
          radius,
        ];
      });
      lines.push(line);
    }
  }
  return lines;
}
