// Strokes that run from thin to thick: by direction like a chisel nib, by position like a brush
// under pressure, or by the side on which a shape lies in shadow.
import { arcLengths } from './pen.mjs';
import { between, pick, smoothNoise } from './random.mjs';

/** Thinnest radius of a stroke that bounds an area, and of a tip, in pixels. */
const THIN = 0.75;
const TIP = 0.4;

/** How a drawing is inked, by lot: `pen` is the middle of its widths in pixels. */
export function penStyle(random, pen) {
  const isEven = random() < 0.3;
  const contrast = isEven ? between(random, 1.05, 1.5) : 2 * 4 ** random();
  const by = pick(random, ['nib', 'pressure', 'pressure', 'shadow', 'shadow', 'mixed']);
  const shares = { nib: 0, pressure: 0, shadow: 0, [by]: 1 };
  if (by === 'mixed') {
    for (const key of ['nib', 'pressure', 'shadow']) shares[key] = random() + 0.1;
  }
  const total = shares.nib + shares.pressure + shares.shadow;
  return {
    pen,
    contrast,
    nib: shares.nib / total,
    pressure: shares.pressure / total,
    shadow: shares.shadow / total,
    slant: between(random, 0.3, 1.3),
    light: between(random, 0.9, 2.2) * Math.PI,
    shake: between(random, 0, 0.2),
    bulge: between(random, 0.6, 1.6),
    tapers: random() < 0.75 ? between(random, 0.5, 1) : between(random, 0, 0.4),
    longTapers: random(),
    isPlain: random() < 0.3,
    outline: between(random, 1, 1.6),
    order: between(random, 0, 0.35),
    closes: random() < 0.7 ? between(random, 0.8, 1) : between(random, 0, 0.6),
    overshoot: random() < 0.35 ? between(random, 0.1, 0.7) : 0,
  };
}

/**
 * A line as `[x, y, radius]`.
 *
 * @param line.free - Whether its first and its last point meet no other line.
 * @param line.weight - Its width relative to the pen.
 * @param line.middle - The point that it turns its back to: the middle of the shape.
 */
export function thickThin({ points, free, weight, middle }, style, random) {
  const { pen, contrast, slant, light, shake, bulge } = style;
  const tremble = smoothNoise(random);
  const least = (weight * pen) / (2 * Math.sqrt(contrast));
  const s = arcLengths(points);
  const length = s.at(-1);
  const tapers = free.map((isFree) => {
    if (!isFree || random() > style.tapers) return 0;
    const reach = random() < style.longTapers ? between(random, 4, 16) : between(random, 1, 3);
    return Math.min(reach * pen, 0.6 * length);
  });
  const tip = between(random, 0.05, 0.5);
  const small = Math.min(1, 0.55 + length / (60 * pen));
  return points.map(([x, y], i) => {
    const [ax, ay] = points[Math.max(0, i - 3)];
    const [bx, by] = points[Math.min(points.length - 1, i + 3)];
    const towards = Math.atan2(by - ay, bx - ax);
    const turned = Math.abs(Math.sin(towards - slant));
    const pressed = Math.sin((Math.PI * s[i]) / (length || 1)) ** bulge * small;
    const outwards = Math.atan2(y - middle[1], x - middle[0]);
    const side = Math.sign(Math.sin(outwards - towards)) * (Math.PI / 2);
    const shaded = 0.5 + 0.5 * Math.cos(towards + side - light - Math.PI);
    const share = style.nib * turned + style.pressure * pressed + style.shadow * shaded;
    const noise = 1 + shake * tremble(s[i] / (5 * pen), 0.5);
    const radius = Math.max(THIN, least * contrast ** share * noise);
    const ends = [s[i], length - s[i]].map((d, k) =>
      d < tapers[k] ? tip + (1 - tip) * Math.sqrt(d / tapers[k]) : 1,
    );
    return [x, y, Math.max(Math.min(...ends) < 1 ? TIP : THIN, radius * Math.min(...ends))];
  });
}

/** A free-standing stroke as `[x, y, radius]`: `heel` and `tip` are its ends' share of the radius. */
export function markOf(points, { radius, heel, tip, swell = 0.4 }) {
  const n = Math.max(1, points.length - 1);
  return points.map(([x, y], k) => {
    const t = k / n;
    const before = heel + (1 - heel) * Math.min(1, t / swell);
    const after = tip + (1 - tip) * Math.min(1, (1 - t) / (1 - swell));
    return [x, y, Math.max(TIP, radius * Math.min(before, after))];
  });
}
