// Distances from ink, and lines that keep to them.

/**
 * The distance to the nearest ink and the direction away from it, at any point of a drawing.
 * Distances are those of chamfer steps of 1 and √2 (Borgefors 1986), at most 8 % too long.
 */
export function inkField({ ink, width, height }) {
  const pitch = width + 2;
  const far = width + height;
  const d = new Float32Array(pitch * (height + 2)).fill(far);
  for (let y = 0; y < height; y++) {
    for (let x = 0; x < width; x++) if (ink[y * width + x] === 1) d[(y + 1) * pitch + x + 1] = 0;
  }
  const relax = (p, side, back) => {
    const straight = Math.min(d[p - side], d[p - back]) + 1;
    const slant = Math.min(d[p - back - 1], d[p - back + 1]) + Math.SQRT2;
    d[p] = Math.min(d[p], straight, slant);
  };
  for (let y = 1; y <= height; y++) {
    for (let x = 1; x <= width; x++) relax(y * pitch + x, 1, pitch);
  }
  for (let y = height; y >= 1; y--) {
    for (let x = width; x >= 1; x--) relax(y * pitch + x, -1, -pitch);
  }
  const clamp = (v, side) => Math.max(0, Math.min(side - 1, Math.floor(v)));
  const distance = (x, y) => d[(clamp(y, height) + 1) * pitch + clamp(x, width) + 1];
  const away = (x, y) => {
    const gx = distance(x + 2.5, y) - distance(x - 2.5, y);
    const gy = distance(x, y + 2.5) - distance(x, y - 2.5);
    const length = Math.hypot(gx, gy);
    return length < 0.5 ? undefined : [gx / length, gy / length];
  };
  const holds = (x, y) => x >= 1 && y >= 1 && x < width - 1 && y < height - 1;
  return { distance, away, holds };
}

/** The point at a distance from ink that lies down or up the slope from another one. */
function settle({ distance, away, holds }, [x, y], level) {
  let point = [x, y];
  for (let k = 0; k < 40; k++) {
    const off = distance(...point) - level;
    if (Math.abs(off) < 1) return point;
    const normal = away(...point);
    if (normal === undefined) return undefined;
    const step = Math.max(-4, Math.min(4, 0.8 * off));
    point = [point[0] - step * normal[0], point[1] - step * normal[1]];
    if (!holds(...point)) return undefined;
  }
  return undefined;
}

/**
 * Up to `count` points `{ x, y, normal }`, `step` pixels apart, along the contour that is nearest to
 * a point, `level` pixels off its ink on the side of that point; normals lead away from the ink. It
 * ends at corners and where it would go round a blot.
 */
export function walkContour(field, start, { step, count, level }) {
  const points = [];
  let point = settle(field, start, level);
  while (point !== undefined && points.length < count) {
    const normal = field.away(...point);
    const last = points.at(-1);
    if (normal === undefined) break;
    if (last && cosine(last.normal, normal) < 0.2) break;
    if (last && cosine(points[0].normal, normal) < -0.2) break;
    points.push({ x: point[0], y: point[1], normal });
    point = settle(field, [point[0] - step * normal[1], point[1] + step * normal[0]], level);
  }
  return points;
}

/**
 * Points a pixel apart from a place on, bending by `bend` per pixel, that end after `length` pixels
 * or `margin` pixels before ink; the ink that a rooted line leaves is passed over.
 */
export function growLine({ distance, holds }, [x0, y0], { angle, bend, length, margin, rooted }) {
  const points = [];
  let [x, y] = [x0, y0];
  let isOff = !rooted;
  for (let k = 0; k <= length; k++) {
    if (!holds(x, y)) break;
    const d = distance(x, y);
    if (isOff && d < margin) break;
    if (!isOff && d < margin && k > 2 * margin + 4) break;
    isOff ||= d >= margin;
    points.push([x, y]);
    const towards = angle + bend * k;
    x += Math.cos(towards);
    y += Math.sin(towards);
  }
  return points;
}

function cosine([ax, ay], [bx, by]) {
  return ax * bx + ay * by;
}
