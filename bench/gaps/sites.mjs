// Where a drawing may get gaps: places on strokes between two true regions, in an order of their own.
import { seeded } from './random.mjs';

/** Turn of a border within three stroke widths that makes a corner, and of the bar of a T at most. */
const CORNER = 50;
const BAR = 35;
/** How often each kind comes first on a border that has all of them, as weights. */
const WEIGHTS = { middle: 1, junction: 2, corner: 1.5 };

/**
 * Places `{ kind, chain, at, width, from, bars }` for gaps, best first: arc length `at` on a border
 * chain, where its stroke is `width` wide. A `junction` lies at an end of its chain, the stem, with
 * `from` 0 or 1 for the end and `bars` the two chains that go on there. Pairs of regions take turns,
 * so that gaps spread over the drawing.
 */
export function findSites({ ink, width, height, chains, widest, seed }) {
  const random = seeded(`sites ${seed}`);
  const half = (x, y) => halfWidth(ink, width, height, x, y, widest);
  const ends = new Map();
  chains.forEach((chain) => {
    chain.meets.forEach((corner, from) => {
      if (corner >= 0) ends.set(corner, [...(ends.get(corner) ?? []), { chain, from }]);
    });
  });
  const sites = [];
  for (const chain of chains) {
    sites.push(...middles(chain, half, random), ...corners(chain, half));
  }
  for (const meeting of ends.values()) {
    if (meeting.length === 3) sites.push(...stems(meeting, half));
  }
  const byPair = new Map();
  for (const site of sites) {
    if (site.width > 2 * widest || site.width < 1) continue;
    const pair = `${site.chain.a} ${site.chain.b}`;
    byPair.set(pair, [...(byPair.get(pair) ?? []), site]);
  }
  const lists = [...byPair.values()].map((list) => shuffle(list, random));
  const order = lists
    .map((list) => [random(), list])
    .sort(([p], [q]) => p - q)
    .map(([, list]) => list);
  const turns = Math.max(0, ...order.map((list) => list.length));
  return Array.from({ length: turns }, (_, turn) =>
    order.flatMap((list) => (turn < list.length ? [list[turn]] : [])),
  ).flat();
}

/** In random order, by weighted sampling without replacement (Efraimidis, Spirakis 2006). */
function shuffle(sites, random) {
  const count = (kind) => sites.filter((site) => site.kind === kind).length;
  const counts = { middle: count('middle'), junction: count('junction'), corner: count('corner') };
  return sites
    .map((site) => ({ rank: random() ** (counts[site.kind] / WEIGHTS[site.kind]), site }))
    .sort((p, q) => q.rank - p.rank)
    .map(({ site }) => site);
}

/** The point of a chain at an arc length, with its direction. */
export function pointAt(chain, at) {
  const { x, y, s, length, closed } = chain;
  const wanted = closed ? ((at % length) + length) % length : Math.min(Math.max(at, 0), length);
  let [low, high] = [0, s.length - 1];
  while (low < high) {
    const middle = (low + high + 1) >> 1;
    if (s[middle] <= wanted) low = middle;
    else high = middle - 1;
  }
  const next = low + 1 < s.length ? low + 1 : closed ? 0 : low;
  const step = (next === 0 ? length : s[next]) - s[low];
  const t = step > 0 ? (wanted - s[low]) / step : 0;
  return [x[low] + t * (x[next] - x[low]), y[low] + t * (y[next] - y[low])];
}

/** Distance from a point within ink to the nearest paper; `widest` where it is farther. */
export function halfWidth(ink, width, height, x, y, widest) {
  const reach = Math.ceil(widest) + 1;
  let best = widest * widest;
  const [cx, cy] = [Math.floor(x), Math.floor(y)];
  for (let v = Math.max(0, cy - reach); v <= Math.min(height - 1, cy + reach); v++) {
    for (let u = Math.max(0, cx - reach); u <= Math.min(width - 1, cx + reach); u++) {
      if (ink[v * width + u] === 1) continue;
      const d = (u + 0.5 - x) ** 2 + (v + 0.5 - y) ** 2;
      if (d < best) best = d;
    }
  }
  return Math.max(0, Math.sqrt(best) - 0.5);
}

function middles(chain, half, random) {
  const count = Math.min(8, Math.floor(chain.length / 24) + 1);
  return Array.from({ length: count }, (_, k) => {
    const at = (chain.length * (k + random())) / count;
    return { kind: 'middle', chain, at, width: 2 * half(...pointAt(chain, at)) };
  });
}

/** Where a chain turns most within a window of three stroke widths. */
function corners(chain, half) {
  const found = [];
  const step = 3;
  for (let at = step; at < chain.length; at += step) {
    const width = 2 * half(...pointAt(chain, at));
    const turn = turnAt(chain, at, Math.max(4, 1.5 * width));
    if (turn > CORNER) found.push({ kind: 'corner', chain, at, width, turn });
  }
  const isBest = (corner) =>
    found.every(
      (other) => Math.abs(other.at - corner.at) > 3 * corner.width || other.turn <= corner.turn,
    );
  return found.filter(isBest);
}

function turnAt(chain, at, reach) {
  if (!chain.closed && (at < reach || at > chain.length - reach)) return 0;
  const [before, here, after] = [-reach, 0, reach].map((d) => pointAt(chain, at + d));
  return degrees(
    [here[0] - before[0], here[1] - before[1]],
    [after[0] - here[0], after[1] - here[1]],
  );
}

/** Chains that end on a stroke which goes on straight: stems of a T. */
function stems(meeting, half) {
  const leave = meeting.map(({ chain, from }) => {
    const away = (d) => pointAt(chain, from === 0 ? d : chain.length - d);
    const width = 2 * half(...away(Math.min(16, chain.length / 2)));
    const near = away(Math.min(0.75 * width, chain.length));
    const far = away(Math.min(2.25 * width + 2, chain.length));
    return { chain, from, width, towards: [far[0] - near[0], far[1] - near[1]] };
  });
  return leave.flatMap(({ chain, from, width, towards }, k) => {
    const bars = leave.filter((_, i) => i !== k);
    const isBar = 180 - degrees(bars[0].towards, bars[1].towards) < BAR;
    const angle = degrees(towards, bars[0].towards);
    if (!isBar || angle < 50 || angle > 130) return [];
    const bar = Math.min(bars[0].width, bars[1].width) / 2;
    const at = from === 0 ? bar : chain.length - bar;
    return [{ kind: 'junction', chain, at, width, from, bar, bars: bars.map((b) => b.chain) }];
  });
}

/** Angle between two directions. */
function degrees([ax, ay], [bx, by]) {
  const size = Math.hypot(ax, ay) * Math.hypot(bx, by);
  if (size === 0) return 0;
  return (Math.acos(Math.max(-1, Math.min(1, (ax * bx + ay * by) / size))) * 180) / Math.PI;
}
