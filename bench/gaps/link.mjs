// A baseline that joins stroke ends one by one: every straight bridge from an end to another that it
// may face, or to a stroke ahead, weighed by length and turns alone; the likeliest first, each end
// once, none across another; those that separate nothing, or only a sliver, are taken back.
import { labelRegions, raster, strokeEnds, strokeWidth } from 'underink';

/** Tangents of the rays sent out from an end, within ±25° of its direction. */
const RAYS = [0, 0.09, -0.09, 0.18, -0.18, 0.27, -0.27, 0.37, -0.37, 0.466, -0.466];
const PAIRS_PER_END = 4;

/** Every candidate of at most `reach` pixels ('auto': 2¼ stroke widths and 4 pixels), likeliest first. */
export function studyLinks({ ink, width, height }) {
  const mask = raster(ink, [width, height]);
  const { median } = strokeWidth(mask);
  return { ink, width, height, median, ends: strokeEnds(mask) };
}

/** Ink with the links drawn whose log-odds are above 12 · (caution − ½). */
export function drawLinks(study, { maxGap, caution }) {
  const { width, height, median } = study;
  const reach = maxGap === 'auto' ? 2.25 * median + 4 : maxGap;
  const taken = takeBest(findLinks(study, reach), 12 * (caution - 0.5));
  const sealed = study.ink.slice();
  for (const { pixels } of taken) for (const p of pixels) sealed[p] = 1;
  for (const link of taken.reverse()) {
    const { labels } = labelRegions(raster(sealed, [width, height]), { of: 0 });
    if (!separates(link, labels.data, width, height)) for (const p of link.pixels) sealed[p] = 0;
  }
  return sealed;
}

function findLinks(study, reach) {
  const { ends } = study;
  const links = [];
  const paired = new Set();
  ends.forEach((end, a) => {
    const near = ends.flatMap((other, b) => {
      const odds = a === b ? undefined : oddsOfPair(end, other, reach);
      return odds === undefined ? [] : [{ b, odds }];
    });
    near.sort((p, q) => q.odds - p.odds || p.b - q.b);
    for (const { b, odds } of near.slice(0, PAIRS_PER_END)) {
      const [one, two] = [Math.min(a, b), Math.max(a, b)];
      if (paired.has(one * ends.length + two)) continue;
      paired.add(one * ends.length + two);
      const pixels = paperBetween(study, pixelOf(study, ends[one]), pixelOf(study, ends[two]));
      if (pixels !== undefined) links.push({ a: one, b: two, odds, pixels, width: end.width });
    }
    const ahead = strokeAhead(study, end, reach);
    if (ahead !== undefined) links.push({ a, b: -1, width: end.width, ...ahead });
  });
  return links.sort((p, q) => q.odds - p.odds || p.a - q.a || p.b - q.b);
}

/** Log-odds of a pair of ends, by a logistic regression; undefined where they are no pair. */
function oddsOfPair(from, to, reach) {
  const length = Math.hypot(to.x - from.x, to.y - from.y);
  if (length > reach) return undefined;
  const width = (from.width + to.width) / 2;
  // Between points half a width behind the tips, since a tip may lie anywhere across a blunt end.
  const dx = to.x - from.x - (width / 2) * (to.direction[0] - from.direction[0]);
  const dy = to.y - from.y - (width / 2) * (to.direction[1] - from.direction[1]);
  const norm = Math.hypot(dx, dy) || 1;
  const turn = (dx * from.direction[0] + dy * from.direction[1]) / norm;
  const back = -(dx * to.direction[0] + dy * to.direction[1]) / norm;
  const [better, worse] = [Math.max(turn, back), Math.min(turn, back)];
  if (better < 0.5 || worse < -0.25) return undefined;
  const match = Math.min(from.width, to.width) / Math.max(from.width, to.width);
  const widths = Math.max(0, length - 1) / width;
  return 5.4 - 1.2 * widths - 3 * (1 - worse) - 9 * (1 - better) - 2 * (1 - match);
}

/** The likeliest link from an end to ink that a ray from it meets. */
function strokeAhead(study, end, reach) {
  const hits = RAYS.flatMap((tangent) => {
    const to = castRay(study, end, tangent, reach);
    if (to < 0) return [];
    const dx = (to % study.width) + 0.5 - end.x;
    const dy = Math.floor(to / study.width) + 0.5 - end.y;
    const length = Math.hypot(dx, dy);
    const turn = (dx * end.direction[0] + dy * end.direction[1]) / length;
    const odds = 3.7 - (2.25 * Math.max(0, length - 1)) / end.width - 18 * (1 - turn);
    return [{ to, odds }];
  });
  hits.sort((p, q) => q.odds - p.odds);
  for (const { to, odds } of hits) {
    const pixels = paperBetween(study, pixelOf(study, end), to);
    if (pixels !== undefined) return { odds, pixels };
  }
  return undefined;
}

function castRay({ ink, width, height }, { x, y, direction: [dx, dy] }, tangent, reach) {
  const [rayX, rayY] = [dx - tangent * dy, dy + tangent * dx];
  const step = Math.max(Math.abs(rayX), Math.abs(rayY));
  const stride = Math.hypot(rayX, rayY) / step;
  let onPaper = false;
  for (let k = 1; k * stride <= reach; k++) {
    const u = Math.floor(x + (k * rayX) / step);
    const v = Math.floor(y + (k * rayY) / step);
    if (u < 0 || v < 0 || u >= width || v >= height) return -1;
    if (ink[v * width + u] === 0) onPaper = true;
    else if (onPaper) return v * width + u;
  }
  return -1;
}

/** Paper pixels of the 4-connected line between two pixels of ink; undefined where ink lies between. */
function paperBetween({ ink, width }, from, to) {
  const line = [];
  let [x, y] = [from % width, Math.floor(from / width)];
  const [x1, y1] = [to % width, Math.floor(to / width)];
  const [dx, dy] = [Math.abs(x1 - x), Math.abs(y1 - y)];
  for (let i = 0, j = 0; i + j < dx + dy; ) {
    line.push(y * width + x);
    const alongX = Math.abs((i + 1) * dy - j * dx) <= Math.abs(i * dy - (j + 1) * dx);
    if (i < dx && (j === dy || alongX)) {
      i++;
      x += x1 < x ? -1 : 1;
    } else {
      j++;
      y += y1 < y ? -1 : 1;
    }
  }
  line.push(to);
  const paper = line.map((p) => ink[p] === 0);
  const [first, last] = [paper.indexOf(true), paper.lastIndexOf(true)];
  if (first < 0 || paper.slice(first, last).includes(false)) return undefined;
  return line.slice(first, last + 1);
}

function pixelOf({ width }, { x, y }) {
  return Math.floor(y) * width + Math.floor(x);
}

/** Each end once, no two across each other. */
function takeBest(links, bias) {
  const used = new Set();
  const covered = new Set();
  return links.filter(({ a, b, pixels, odds }) => {
    if (odds < bias || used.has(a) || used.has(b)) return false;
    if (pixels.some((p) => covered.has(p))) return false;
    used.add(a);
    if (b >= 0) used.add(b);
    for (const p of pixels) covered.add(p);
    return true;
  });
}

/** Whether two regions of more than a sliver lie beside a drawn link. */
function separates({ pixels, width: stroke }, labels, width, height) {
  const beside = new Set();
  for (const p of pixels) {
    const x = p % width;
    if (x > 0) beside.add(labels[p - 1]);
    if (x < width - 1) beside.add(labels[p + 1]);
    if (p >= width) beside.add(labels[p - width]);
    if (p < width * (height - 1)) beside.add(labels[p + width]);
  }
  beside.delete(0);
  if (beside.size < 2) return false;
  const areas = new Map([...beside].map((id) => [id, 0]));
  for (const id of labels) if (areas.has(id)) areas.set(id, areas.get(id) + 1);
  return Math.min(...areas.values()) >= stroke * stroke;
}
