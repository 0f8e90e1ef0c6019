// A pen of varying width over a raster of ink.

/** Inks what lies within the radius of a line of `[x, y, radius]`, radii blended between points. */
export function sweep({ ink, width, height }, line, paint = (i) => (ink[i] = 1)) {
  for (let k = 0; k < line.length; k++) {
    const [ax, ay, ar] = line[Math.max(0, k - 1)];
    const [bx, by, br] = line[k];
    const [dx, dy] = [bx - ax, by - ay];
    const size = dx * dx + dy * dy;
    const reach = Math.max(ar, br);
    const y1 = Math.min(height - 1, Math.ceil(Math.max(ay, by) + reach));
    const x1 = Math.min(width - 1, Math.ceil(Math.max(ax, bx) + reach));
    for (let y = Math.max(0, Math.floor(Math.min(ay, by) - reach)); y <= y1; y++) {
      for (let x = Math.max(0, Math.floor(Math.min(ax, bx) - reach)); x <= x1; x++) {
        const [px, py] = [x + 0.5 - ax, y + 0.5 - ay];
        const t = size === 0 ? 0 : Math.max(0, Math.min(1, (px * dx + py * dy) / size));
        const radius = ar + t * (br - ar);
        if ((px - t * dx) ** 2 + (py - t * dy) ** 2 <= radius * radius) paint(y * width + x);
      }
    }
  }
}

/** Lengths along a line of points. */
export function arcLengths(points) {
  const s = new Float64Array(points.length);
  for (let i = 1; i < points.length; i++) {
    const [dx, dy] = [points[i][0] - points[i - 1][0], points[i][1] - points[i - 1][1]];
    s[i] = s[i - 1] + Math.hypot(dx, dy);
  }
  return s;
}
