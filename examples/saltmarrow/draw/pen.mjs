/**
 * The pen: smooth curves through given points, and the outline of a round brush that is
 * swept along them with changing pressure.
 */

/** Distance between neighboring samples of a curve, in pixels. */
const STEP = 3;

/**
 * Repeatable value in -1..1 for a whole number: stands in for chance, so that every run
 * draws the same sheet.
 * @param {number} n whole number
 * @returns {number} value in -1..1
 */
export function hash(n) {
  let h = Math.imul(n ^ 0x9e3779b9, 0x85ebca6b);
  h = Math.imul(h ^ (h >>> 13), 0xc2b2ae35);
  return ((h ^ (h >>> 16)) >>> 0) / 0x7fffffff - 1;
}

/**
 * Slow wobble along a line: hash values joined smoothly.
 * @param {number} t place on the line
 * @param {number} seed which line
 * @returns {number} value in -1..1
 */
function wobble(t, seed) {
  const i = Math.floor(t);
  const f = t - i;
  const k = f * f * (3 - 2 * f);
  return hash(seed * 977 + i) * (1 - k) + hash(seed * 977 + i + 1) * k;
}

/**
 * Samples one centripetal Catmull-Rom span from b to c.
 * @param {number[]} a point before
 * @param {number[]} b start
 * @param {number[]} c end
 * @param {number[]} d point after
 * @param {number[][]} out samples are pushed here (start included, end left out)
 */
function span(a, b, c, d, out) {
  const gap = (p, q) => Math.max(1e-3, Math.sqrt(Math.hypot(p[0] - q[0], p[1] - q[1])));
  const [d1, d2, d3] = [gap(a, b), gap(b, c), gap(c, d)];
  const tangent = (k, before, after) => {
    const [p, q, r] = k === 1 ? [a, b, c] : [b, c, d];
    return [0, 1].map(
      (i) =>
        d2 * ((q[i] - p[i]) / before - (r[i] - p[i]) / (before + after) + (r[i] - q[i]) / after),
    );
  };
  const m1 = tangent(1, d1, d2);
  const m2 = tangent(2, d2, d3);
  const n = Math.max(3, Math.ceil(Math.hypot(c[0] - b[0], c[1] - b[1]) / STEP));
  for (let i = 0; i < n; i++) {
    const t = i / n;
    const [t2, t3] = [t * t, t * t * t];
    const at = (k) =>
      (2 * t3 - 3 * t2 + 1) * b[k] +
      (t3 - 2 * t2 + t) * m1[k] +
      (3 * t2 - 2 * t3) * c[k] +
      (t3 - t2) * m2[k];
    out.push([at(0), at(1)]);
  }
}

/**
 * A smooth curve through points. A point `[x, y, 1]` is a sharp corner.
 * @param {number[][]} points points to pass
 * @param {boolean} closed whether the curve returns to its start
 * @returns {{line: number[][], knots: number[], closed: boolean}} samples, and the sample
 *   index of each given point
 */
export function curve(points, closed = false) {
  const n = points.length;
  const line = [];
  const knots = [];
  const mirror = (p, q) => [2 * p[0] - q[0], 2 * p[1] - q[1]];
  const spans = closed ? n : n - 1;
  for (let i = 0; i < spans; i++) {
    const b = points[i];
    const c = points[(i + 1) % n];
    const hasBefore = (closed || i > 0) && !b[2];
    const hasAfter = (closed || i + 2 < n) && !c[2];
    const a = hasBefore ? points[(i - 1 + n) % n] : mirror(b, c);
    const d = hasAfter ? points[(i + 2) % n] : mirror(c, b);
    knots.push(line.length);
    span(a, b, c, d, line);
  }
  if (!closed) {
    knots.push(line.length);
    line.push(points[n - 1].slice(0, 2));
  }
  return { line, knots, closed };
}

/**
 * A closed smooth shape through points.
 * @param {number[][]} points points of the contour
 * @returns {{line: number[][], knots: number[], closed: boolean}} the shape
 */
export const blob = (points) => curve(points, true);

/**
 * An ellipse whose start is at its left, running over the top.
 * @param {number} x center
 * @param {number} y center
 * @param {number} rx half width
 * @param {number} ry half height
 * @param {number} turn degrees, clockwise
 * @returns {{line: number[][], knots: number[], closed: boolean}} the shape
 */
export function oval(x, y, rx, ry = rx, turn = 0) {
  const [c, s] = [Math.cos((turn * Math.PI) / 180), Math.sin((turn * Math.PI) / 180)];
  return blob(
    Array.from({ length: 12 }, (_, i) => {
      const t = Math.PI + (i * Math.PI) / 6;
      const [u, v] = [rx * Math.cos(t), ry * Math.sin(t)];
      return [x + u * c - v * s, y + u * s + v * c];
    }),
  );
}

/**
 * A limb: a spine whose points carry half widths `[x, y, r]`, with round or flat ends.
 * Knots: 0 left side start, 1 left side end, 2 right side end, 3 right side start.
 * @param {number[][]} spine points with half widths
 * @param {{start?: boolean, end?: boolean}} round which ends are round
 * @returns {{line: number[][], knots: number[], closed: boolean}} the shape
 */
export function limb(spine, { start = false, end = true } = {}) {
  const mid = curve(spine.map((p) => [p[0], p[1]])).line;
  const { knots } = curve(spine.map((p) => [p[0], p[1]]));
  const radius = mid.map((_, i) => {
    let k = 0;
    while (k < knots.length - 2 && i > knots[k + 1]) k++;
    const f = (i - knots[k]) / (knots[k + 1] - knots[k]);
    const e = f * f * (3 - 2 * f);
    return spine[k][2] * (1 - e) + spine[k + 1][2] * e;
  });
  const left = [];
  const right = [];
  mid.forEach((p, i) => {
    const [nx, ny] = normalAt(mid, i);
    left.push([p[0] + nx * radius[i], p[1] + ny * radius[i]]);
    right.push([p[0] - nx * radius[i], p[1] - ny * radius[i]]);
  });
  const [leftSide, rightSide] = [withoutLoops(left), withoutLoops(right)];
  const cap = (i, sign) => {
    const [nx, ny] = normalAt(mid, i).map((v) => v * sign);
    const r = radius[i];
    const n = Math.max(4, Math.ceil((r * Math.PI) / STEP));
    return Array.from({ length: n - 1 }, (_, k) => {
      const t = ((k + 1) / n) * Math.PI;
      const [c, s] = [Math.cos(t), Math.sin(t)];
      return [mid[i][0] + r * (nx * c - ny * s), mid[i][1] + r * (ny * c + nx * s)];
    });
  };
  const endCap = end ? cap(mid.length - 1, 1) : [];
  const startCap = start ? cap(0, -1) : [];
  rightSide.reverse();
  const line = [...leftSide, ...endCap, ...rightSide, ...startCap];
  const n = leftSide.length;
  return {
    line,
    closed: true,
    knots: [0, n - 1, n + endCap.length, n + endCap.length + rightSide.length - 1],
  };
}

/**
 * Cuts off the small loops that the inner side of a sharp bend makes.
 * @param {number[][]} line samples
 * @returns {number[][]} samples, with a crease in place of each loop
 */
function withoutLoops(line) {
  const reach = 70;
  const out = [];
  for (let i = 0; i < line.length; i++) {
    out.push(line[i]);
    for (let j = Math.min(line.length - 2, i + reach); j > i + 1; j--) {
      const cross = crossing(line[i], line[i + 1], line[j], line[j + 1]);
      if (cross) {
        out.push(cross);
        i = j;
        break;
      }
    }
  }
  return out;
}

/**
 * Where two straight pieces cross.
 * @param {number[]} a start of the first
 * @param {number[]} b end of the first
 * @param {number[]} c start of the second
 * @param {number[]} d end of the second
 * @returns {number[] | null} the point, if any
 */
function crossing(a, b, c, d) {
  const [ux, uy, vx, vy] = [b[0] - a[0], b[1] - a[1], d[0] - c[0], d[1] - c[1]];
  const det = ux * vy - uy * vx;
  if (Math.abs(det) < 1e-9) return null;
  const t = ((c[0] - a[0]) * vy - (c[1] - a[1]) * vx) / det;
  const k = ((c[0] - a[0]) * uy - (c[1] - a[1]) * ux) / det;
  return t >= 0 && t <= 1 && k >= 0 && k <= 1 ? [a[0] + ux * t, a[1] + uy * t] : null;
}

/**
 * Unit normal of a sampled line (to the right of its direction when y points down).
 * @param {number[][]} line samples
 * @param {number} i sample index
 * @param {boolean} closed whether the line is a loop
 * @returns {number[]} unit vector
 */
function normalAt(line, i, closed = false) {
  const n = line.length;
  const a = closed ? line[(i - 1 + n) % n] : line[Math.max(0, i - 1)];
  const b = closed ? line[(i + 1) % n] : line[Math.min(n - 1, i + 1)];
  const len = Math.hypot(b[0] - a[0], b[1] - a[1]) || 1;
  return [(b[1] - a[1]) / len, (a[0] - b[0]) / len];
}

/**
 * Path data of a polygon.
 * @param {number[][]} line corner points
 * @returns {string} SVG path data
 */
export const pathOf = (line) =>
  `M${line.map((p) => `${p[0].toFixed(2)} ${p[1].toFixed(2)}`).join('L')}Z`;

/**
 * Path data of the swept brush: both sides, round ends, and a dab wherever the line turns so
 * sharply that the two sides alone would leave a notch.
 * @param {number[][]} line samples
 * @param {number[]} radius half width at each sample
 * @returns {string} SVG path data, to be filled with the nonzero rule
 */
function sweep(line, radius) {
  const dab = (p, r) => {
    const n = Math.max(10, Math.ceil(r * 3));
    return pathOf(
      Array.from({ length: n }, (_, k) => {
        const t = (-k / n) * 2 * Math.PI;
        return [p[0] + r * Math.cos(t), p[1] + r * Math.sin(t)];
      }),
    );
  };
  const n = line.length;
  const left = [];
  const right = [];
  let dabs = dab(line[0], radius[0]) + dab(line[n - 1], radius[n - 1]);
  for (let i = 0; i < n; i++) {
    const [nx, ny] = normalAt(line, i);
    left.push([line[i][0] + nx * radius[i], line[i][1] + ny * radius[i]]);
    right.push([line[i][0] - nx * radius[i], line[i][1] - ny * radius[i]]);
    if (i > 0 && i < n - 1) {
      const [ux, uy] = [line[i][0] - line[i - 1][0], line[i][1] - line[i - 1][1]];
      const [vx, vy] = [line[i + 1][0] - line[i][0], line[i + 1][1] - line[i][1]];
      const turn = Math.abs(Math.atan2(ux * vy - uy * vx, ux * vx + uy * vy));
      if (turn > 0.25) dabs += dab(line[i], radius[i]);
    }
  }
  const body = [...left, ...right.reverse()];
  let area = 0;
  body.forEach((p, i) => {
    const q = body[(i + 1) % body.length];
    area += p[0] * q[1] - p[1] * q[0];
  });
  // the dabs run one way; the body must run the same way, or their overlap would cancel out
  return pathOf(area > 0 ? body.reverse() : body) + dabs;
}

/**
 * Inks a sampled line with a pressure-sensitive brush.
 * @param {number[][]} samples the line
 * @param {object} options how to ink
 * @param {number} options.width greatest width
 * @param {number} [options.start] pressure at the start, as a part of the width
 * @param {number} [options.end] pressure at the end
 * @param {number} [options.ramp] length of the swelling at the ends
 * @param {number} [options.lean] how much heavier the lower right sides of a contour are
 * @param {number} [options.side] 1 or -1: on which side the contour's outside is
 * @param {boolean} [options.loop] whether the line is a closed contour
 * @param {number[][]} [options.gaps] `[part of the length, opening]` places left open
 * @param {number} [options.seed] seed of the wobble
 * @returns {{open: string, shut: string, gaps: object[]}} path data with and without the gaps,
 *   and where the gaps are
 */
export function inkLine(samples, options) {
  const { width, start = 0.5, end = 0.5, lean = 0, side = 1, loop = false, seed = 0 } = options;
  const line = loop ? [...samples, samples[0], samples[1]] : samples;
  const along = [0];
  for (let i = 1; i < line.length; i++) {
    along.push(along[i - 1] + Math.hypot(line[i][0] - line[i - 1][0], line[i][1] - line[i - 1][1]));
  }
  const total = along[along.length - 1];
  const ramp = Math.max(1, Math.min(options.ramp ?? 110, total * 0.48));
  const ease = (t) => Math.sin((Math.min(1, Math.max(0, t)) * Math.PI) / 2);
  const radius = line.map((_, i) => {
    const s = along[i];
    let k = 1 + 0.06 * wobble(s / 60, seed);
    if (!loop) {
      k *= (start + (1 - start) * ease(s / ramp)) * (end + (1 - end) * ease((total - s) / ramp));
    }
    if (lean) {
      const j = loop ? i % samples.length : i;
      const [nx, ny] = normalAt(samples, j, loop);
      k *= 1 + lean * side * (0.5 * nx + 0.85 * ny);
    }
    return Math.max(0.6, (width / 2) * k);
  });
  const smooth = radius.map((_, i) => {
    let sum = 0;
    for (let j = -4; j <= 4; j++) sum += radius[Math.min(radius.length - 1, Math.max(0, i + j))];
    return sum / 9;
  });
  // a tapering tip must stay sharp: smoothing only where the brush is wide
  const rad = smooth.map((v, i) => (radius[i] < 1.2 ? radius[i] : v));
  const gaps = [];
  const cuts = [];
  for (const [part, opening] of options.gaps ?? []) {
    let i = 1;
    while (i < along.length - 1 && along[i] < part * total) i++;
    const half = opening / 2 + rad[i];
    cuts.push([part * total - half, part * total + half]);
    gaps.push({ x: line[i][0], y: line[i][1], opening });
  }
  cuts.sort((a, b) => a[0] - b[0]);
  let open = '';
  let from = 0;
  for (const [a, b] of [...cuts, [total, total]]) {
    const [i0, i1] = [along.findIndex((s) => s >= from - 1e-6), along.findLastIndex((s) => s <= a)];
    if (i1 > i0) {
      const l = line.slice(i0, i1 + 1);
      const r = rad.slice(i0, i1 + 1);
      const between = (s, i) => {
        const f = (s - along[i]) / (along[i + 1] - along[i]);
        return [0, 1].map((k) => line[i][k] * (1 - f) + line[i + 1][k] * f);
      };
      if (i0 > 0 && along[i0] > from) {
        l.unshift(between(from, i0 - 1));
        r.unshift(rad[i0]);
      }
      if (i1 < line.length - 1 && along[i1] < a) {
        l.push(between(a, i1));
        r.push(rad[i1]);
      }
      open += sweep(l, r);
    }
    from = b;
  }
  return { open, shut: sweep(line, rad), gaps };
}
