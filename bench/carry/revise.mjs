// Revisions of a drawing with known truth: `revisionsOf` makes them of a case of `bench/gaps`.
import { growUnderInk, labelRegions, raster, removeSpecks } from 'underink';
import { findBorders } from '../gaps/borders.mjs';
import { between, pick, seeded } from '../gaps/random.mjs';

/** Ways to revise a drawing, in the order of the tables. */
export const KINDS = [
  'removed',
  'added',
  'moved',
  'strand',
  'broken',
  'shifted',
  'rotated',
  'scaled',
  'cropped',
  'scanned',
  'all',
];

/** Longest shift in pixels, largest rotation in degrees, farthest a stroke is moved. */
const SHIFT = 40;
const DEGREES = 1;
const MOVE = 8;

/**
 * A revision of a case by a way of `KINDS`, or undefined where the drawing has no place for it:
 *
 * - `width, height, ink`: the revised line art;
 * - `transform`: `{ a, b, dx, dy }` from the old picture to it;
 * - `truth`: for each pixel of its paper the region of the old picture that it belongs to, 0 where it
 *   is of none, as where paper from beyond the old picture comes in;
 * - `unions`: `[smaller, larger]` ids of regions that have become one; the truth holds the larger;
 * - `touched`: ids of regions that truly changed.
 */
export function revise(one, kind) {
  const random = seeded(`carry ${one.set} ${one.name} ${one.gap} ${kind}`);
  const start = startOf(one);
  if (kind === 'removed') return removeStroke(start, random);
  if (kind === 'added') return addLines(start, random, 1);
  if (kind === 'strand') return addLines(start, random, 2);
  if (kind === 'moved') return moveStroke(start, random);
  if (kind === 'broken') return breakLine(start, random);
  if (kind === 'all') return reviseAll(start, random);
  return resample(
    start,
    similarityOf(start, kind, random),
    kind === 'scanned' ? random : undefined,
  );
}

/** A revision that changes nothing yet. */
function startOf({ width, height, ink, truth, count, pen }) {
  const transform = { a: 1, b: 0, dx: 0, dy: 0 };
  const rest = { transform, unions: [], touched: new Set() };
  return { width, height, ink, truth, count, pen, ...rest };
}

/** A stroke taken away, one added, one moved, and the page scanned anew. */
function reviseAll(start, random) {
  let now = start;
  for (const step of [removeStroke, (s, r) => addLines(s, r, 1), moveStroke]) {
    now = step(now, random) ?? now;
  }
  if (now.touched.size === 0) return undefined;
  return resample(now, similarityOf(now, 'scanned', random), random);
}

function similarityOf({ width, height }, kind, random) {
  const sign = () => (random() < 0.5 ? -1 : 1);
  const small = kind === 'rotated' || kind === 'shifted' ? 1 : 0.5;
  const scale = kind === 'scaled' || kind === 'cropped' ? 2 ** between(random, -1, 1) : 1;
  const angle =
    kind === 'shifted' ? 0 : (sign() * between(random, 0.3, 1) * small * DEGREES * Math.PI) / 180;
  const reach = kind === 'scaled' ? 0 : SHIFT * small;
  const [sx, sy] = [
    sign() * between(random, 0.2, 1) * reach,
    sign() * between(random, 0.2, 1) * reach,
  ];
  const turned = kind === 'scaled' || kind === 'cropped' ? 0 : angle;
  const [a, b] = [scale * Math.cos(turned), scale * Math.sin(turned)];
  // A scaled page has sides that are scaled too; a cropped one keeps the sides of the old one.
  const size =
    kind === 'scaled' ? [Math.round(width * scale), Math.round(height * scale)] : [width, height];
  const [cx, cy] = [width / 2, height / 2];
  const [dx, dy] = [size[0] / 2 + sx - (a * cx - b * cy), size[1] / 2 + sy - (b * cx + a * cy)];
  // Binary ink does not tell shifts by parts of a pixel where its edges are straight.
  const [x, y] = kind === 'shifted' ? [Math.round(dx), Math.round(dy)] : [dx, dy];
  return { size, transform: { a, b, dx: x, dy: y } };
}
/** The revision seen through a similarity, with `noise` through a scanner. */
function resample(start, { size, transform }, noise) {
  const [width, height] = size;
  const { a, b, dx, dy } = transform;
  const square = a * a + b * b;
  const place = (x, y) => {
    const [u, v] = [x - dx, y - dy];
    return [(a * u + b * v) / square, (a * v - b * u) / square];
  };
  const pictured = picture(start, width, height, place, Math.sqrt(square));
  const ink =
    noise === undefined
      ? pictured.cover.map((c) => (c >= 0.5 ? 1 : 0))
      : scan(pictured.cover, width, height, start.pen, noise);
  const moved = { ...start, width, height, transform };
  return withTruth(moved, Uint8Array.from(ink), pictured.truth);
}

/** Coverage and truth of a picture of which each pixel shows a place of another. */
function picture({ ink, truth, width: w, height: h }, width, height, place, scale) {
  const cover = new Float32Array(width * height);
  const labels = new Int32Array(width * height);
  const at = (x, y) => (x < 0 || y < 0 || x >= w || y >= h ? 0 : ink[y * w + x]);
  const bilinear = (x, y) => {
    const [u, v] = [x - 0.5, y - 0.5];
    const [i, j] = [Math.floor(u), Math.floor(v)];
    const [s, t] = [u - i, v - j];
    const top = at(i, j) * (1 - s) + at(i + 1, j) * s;
    return top * (1 - t) + (at(i, j + 1) * (1 - s) + at(i + 1, j + 1) * s) * t;
  };
  const fine = scale < 1 ? 4 : 2;
  for (let y = 0, k = 0; y < height; y++) {
    for (let x = 0; x < width; x++, k++) {
      for (let v = 0; v < fine; v++) {
        for (let u = 0; u < fine; u++) {
          cover[k] +=
            bilinear(...place(x + (u + 0.5) / fine, y + (v + 0.5) / fine)) / (fine * fine);
        }
      }
      const [i, j] = place(x + 0.5, y + 0.5).map(Math.floor);
      labels[k] = i < 0 || j < 0 || i >= w || j >= h ? 0 : truth[j * w + i];
    }
  }
  return { cover, truth: labels };
}

/** Ink of a scan: blurred, with noise, thresholded, specks removed. */
function scan(cover, width, height, pen, random) {
  const sigma = between(random, 0.6, 1.2) * Math.min(1, pen / 4);
  const noise = between(random, 0.03, 0.08);
  const level = between(random, 0.42, 0.55);
  const weights = [-2, -1, 0, 1, 2].map((k) => Math.exp((-k * k) / (2 * sigma * sigma)));
  const total = weights.reduce((p, q) => p + q);
  const along = (from, step, n, placeOf) => {
    const to = new Float32Array(from.length);
    for (let i = 0; i < from.length; i++) {
      const at = placeOf(i);
      for (let k = -2; k <= 2; k++) {
        const near = Math.min(n - 1, Math.max(0, at + k));
        to[i] += (weights[k + 2] / total) * from[i + (near - at) * step];
      }
    }
    return to;
  };
  const rows = along(cover, 1, width, (i) => i % width);
  const blurred = along(rows, width, height, (i) => Math.floor(i / width));
  const normal = () => Math.sqrt(-2 * Math.log(1 - random())) * Math.cos(2 * Math.PI * random());
  const ink = Uint8Array.from(blurred, (c) => (c + noise * normal() > level ? 1 : 0));
  return removeSpecks(raster(ink, [width, height])).data;
}

/** New ink over old regions: they hold its paper, except what has become too small to count. */
function withTruth(start, ink, truth) {
  const own = truth.map((id, p) => (ink[p] === 1 ? 0 : id));
  return { ...start, ink, truth: own };
}

/** Chains that are long enough to be strokes of their own. */
function strokesOf({ truth, width, height, pen }) {
  const { chains, grown } = findBorders(truth, width, height);
  return { grown, long: chains.filter(({ length }) => length > 6 * pen + 12) };
}

function removeStroke(start, random) {
  const { width, height, truth, pen } = start;
  const { long, grown } = strokesOf(start);
  if (long.length === 0) return undefined;
  const chain = pick(random, long);
  const pair = new Set([chain.a, chain.b]);
  const ink = start.ink.slice();
  // Ink that has no other region than the two near it is of the stroke between them.
  const reach = Math.ceil(1.5 * pen + 3);
  const near = nearPixels(chain, width, height, reach);
  const side = Math.ceil(0.75 * pen + 1);
  for (const p of near) {
    if (ink[p] === 0 || !pair.has(grown[p])) continue;
    if (onlyNear(grown, width, height, p, side, pair)) ink[p] = 0;
  }
  const areas = new Int32Array(start.count + 1);
  for (const id of truth) areas[id]++;
  const [small, large] = areas[chain.a] < areas[chain.b] ? [chain.a, chain.b] : [chain.b, chain.a];
  const merged = grown.map((id, p) => (ink[p] === 1 ? 0 : id === small ? large : id));
  const own = merged.map((id, p) => (truth[p] === 0 && start.ink[p] === 0 ? 0 : id));
  if (!connected(ink, width, height, truth, small, large)) return undefined;
  return {
    ...start,
    ink,
    truth: own,
    unions: [...start.unions, [small, large]],
    touched: new Set([...start.touched, small, large]),
  };
}

/** Whether two regions have become one on the paper. */
function connected(ink, width, height, truth, a, b) {
  const { labels } = labelRegions(raster(ink, [width, height]), { of: 0 });
  const ofA = new Set();
  truth.forEach((id, p) => {
    if (id === a && ink[p] === 0) ofA.add(labels.data[p]);
  });
  return truth.some((id, p) => id === b && ink[p] === 0 && ofA.has(labels.data[p]));
}

function nearPixels({ x, y }, width, height, reach) {
  const near = new Set();
  for (let k = 0; k < x.length; k += 2) {
    for (let v = Math.floor(y[k] - reach); v <= y[k] + reach; v++) {
      for (let u = Math.floor(x[k] - reach); u <= x[k] + reach; u++) {
        if (u < 0 || v < 0 || u >= width || v >= height) continue;
        if ((u - x[k]) ** 2 + (v - y[k]) ** 2 <= reach * reach) near.add(v * width + u);
      }
    }
  }
  return near;
}

function onlyNear(grown, width, height, p, side, pair) {
  const [x, y] = [p % width, Math.floor(p / width)];
  for (let v = Math.max(0, y - side); v <= Math.min(height - 1, y + side); v++) {
    for (let u = Math.max(0, x - side); u <= Math.min(width - 1, x + side); u++) {
      if (!pair.has(grown[v * width + u])) return false;
    }
  }
  return true;
}

/** One line, or two beside each other, from border to border across a region. */
function addLines(start, random, lines) {
  const { width, height, truth, count, pen } = start;
  const areas = new Int32Array(count + 1);
  for (const id of truth) areas[id]++;
  const large = [...areas.keys()].filter((id) => id > 0 && areas[id] > 40 * pen * pen + 400);
  for (let tries = 0; tries < 20 && large.length > 0; tries++) {
    const id = pick(random, large);
    const inside = [];
    for (let p = 0; p < truth.length; p++) if (truth[p] === id) inside.push(p);
    const p = pick(random, inside);
    const angle = between(random, 0, Math.PI);
    const apart = lines === 1 ? 0 : pen + between(random, 10, 24);
    const ink = start.ink.slice();
    for (let k = 0; k < lines; k++) {
      const off = (k - (lines - 1) / 2) * apart;
      const x = (p % width) + 0.5 - off * Math.sin(angle);
      const y = Math.floor(p / width) + 0.5 + off * Math.cos(angle);
      if (!drawAcross(start, ink, x, y, angle, id, Math.max(2, pen))) continue;
    }
    const own = truth.map((value, q) => (ink[q] === 1 ? 0 : value));
    const parts = partsOf(ink, width, height, own, id);
    if (parts.length < lines + 1) continue;
    return { ...start, ink, truth: own, touched: new Set([...start.touched, id]) };
  }
  return undefined;
}

/** Draws both ways from a place until the line is well within the ink beyond the region. */
function drawAcross({ width, height, truth, ink: old }, ink, x0, y0, angle, id, pen) {
  const [ux, uy] = [Math.cos(angle), Math.sin(angle)];
  const p0 = Math.floor(y0) * width + Math.floor(x0);
  if (truth[p0] !== id) return false;
  for (const way of [1, -1]) {
    for (let t = 0; ; t += 0.5) {
      const [x, y] = [x0 + way * t * ux, y0 + way * t * uy];
      if (x < 0 || y < 0 || x >= width || y >= height) break;
      const p = Math.floor(y) * width + Math.floor(x);
      if (truth[p] !== id && (old[p] === 1 || truth[p] > 0)) break;
      disc(ink, width, height, x, y, pen / 2);
    }
  }
  return true;
}

function disc(ink, width, height, cx, cy, radius) {
  for (let y = Math.floor(cy - radius); y <= cy + radius; y++) {
    for (let x = Math.floor(cx - radius); x <= cx + radius; x++) {
      if (x < 0 || y < 0 || x >= width || y >= height) continue;
      if ((x + 0.5 - cx) ** 2 + (y + 0.5 - cy) ** 2 <= radius * radius) ink[y * width + x] = 1;
    }
  }
}

/** Areas of the pieces that a region has on the paper, of 60 pixels and more. */
function partsOf(ink, width, height, truth, id) {
  const { labels } = labelRegions(raster(ink, [width, height]), { of: 0 });
  const areas = new Map();
  truth.forEach((value, p) => {
    if (value === id) areas.set(labels.data[p], (areas.get(labels.data[p]) ?? 0) + 1);
  });
  return [...areas.values()].filter((area) => area >= 60);
}

/** The middle of a stroke moved aside, less and less towards its surroundings; truth moves along. */
function moveStroke(start, random) {
  const { width, height } = start;
  const { long } = strokesOf(start);
  if (long.length === 0) return undefined;
  const chain = pick(random, long);
  const k = Math.floor(between(random, 0.35, 0.65) * chain.x.length);
  const [cx, cy] = [chain.x[k], chain.y[k]];
  const angle = between(random, 0, 2 * Math.PI);
  const far = between(random, 3, MOVE);
  const reach = between(random, 4, 7) * far;
  const place = (x, y) => {
    const d2 = ((x - cx) ** 2 + (y - cy) ** 2) / (reach * reach);
    const by = d2 >= 1 ? 0 : far * (1 - d2) ** 2;
    return [x - by * Math.cos(angle), y - by * Math.sin(angle)];
  };
  const { cover, truth } = picture(start, width, height, place, 1);
  const ink = Uint8Array.from(cover, (c) => (c >= 0.5 ? 1 : 0));
  return {
    ...withTruth(start, ink, truth),
    touched: new Set([...start.touched, chain.a, chain.b]),
  };
}

/** Gaps of 4 to 12 pixels across up to three strokes; no region changes. */
function breakLine(start, random) {
  const { width, height, pen } = start;
  const { long } = strokesOf(start);
  if (long.length === 0) return undefined;
  const ink = start.ink.slice();
  for (let n = 0; n < 3; n++) {
    const chain = pick(random, long);
    const k = Math.floor(between(random, 0.3, 0.7) * chain.x.length);
    const half = between(random, 2, 6);
    const [x0, y0] = [chain.x[k], chain.y[k]];
    const [x1, y1] = [
      chain.x[Math.min(chain.x.length - 1, k + 3)],
      chain.y[Math.min(chain.y.length - 1, k + 3)],
    ];
    const length = Math.hypot(x1 - x0, y1 - y0) || 1;
    const [ux, uy] = [(x1 - x0) / length, (y1 - y0) / length];
    const reach = pen + 3;
    for (let y = Math.floor(y0 - reach - half); y <= y0 + reach + half; y++) {
      for (let x = Math.floor(x0 - reach - half); x <= x0 + reach + half; x++) {
        if (x < 0 || y < 0 || x >= width || y >= height) continue;
        const [px, py] = [x + 0.5 - x0, y + 0.5 - y0];
        const [s, t] = [px * ux + py * uy, px * uy - py * ux];
        if (Math.abs(s) <= half && Math.abs(t) <= reach) ink[y * width + x] = 0;
      }
    }
  }
  return { ...start, ink };
}

/** The true regions of a case grown over all pixels, as a person's flats lie. */
export function grownTruth({ truth, width, height }) {
  const unknown = Uint8Array.from(truth, (id) => (id === 0 ? 1 : 0));
  return growUnderInk(raster(truth, [width, height]), raster(unknown, [width, height])).data;
}
