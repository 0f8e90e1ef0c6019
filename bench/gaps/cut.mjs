// Cuts gaps into strokes that separate two true regions.

import { between, pick, seeded } from './random.mjs';
import { halfWidth, pointAt } from './sites.mjs';

const ENDS = ['flat', 'round', 'taper'];
/** Gaps of a drawing: from, to. */
const FEWEST = 3;
const MOST = 8;

/**
 * Cuts gaps that open `opening` pixels, measured along the stroke, at the first sites that allow it.
 *
 * A gap counts only where its two true regions become 4-connected in paper through it and no third
 * one joins them; it leaves at least half of its border chain, and lies clear of other gaps.
 * Gives the erased pixels and the gaps `{ x, y, direction, opening, width, kind, ends, slope,
 * regions }`;
 * undefined where fewer than three gaps fit.
 */
export function cutGaps(drawing, sites, opening, seed) {
  const count = Math.floor(between(seeded(`count ${seed}`), FEWEST, MOST + 1));
  return cutAt(drawing, opening, count, sites, (site) => {
    const { kind, at, chain } = site;
    const random = seeded(`cut ${seed} ${kind} ${at.toFixed(1)} ${chain.a} ${chain.b}`);
    const first = kind === 'junction' ? 'flat' : pick(random, ENDS);
    return { ends: [first, pick(random, ENDS)], slope: between(random, 1, 2.5) };
  });
}

/**
 * Cuts the gaps of a drawing again into the same drawing `scale` times as large, whose sites these are.
 */
export function cutAgain(drawing, sites, gaps, scale) {
  const forms = new Map();
  for (const gap of gaps) {
    const away = (site) => {
      const [x, y] = pointAt(site.chain, middleOf(site, scale * gap.opening));
      return Math.hypot(x - scale * gap.x, y - scale * gap.y);
    };
    const near = siteNear(drawing, sites, gap, scale);
    if (near !== undefined && away(near) < 2 * scale + 2) forms.set(near, gap);
  }
  return cutAt(drawing, scale * (gaps[0]?.opening ?? 0), MOST, [...forms.keys()], (site) =>
    forms.get(site),
  );
}

/** The place of a gap among the sites of a larger drawing: the nearest T, or the nearest spot of a border. */
function siteNear({ chains }, sites, { kind, x, y, opening, width }, scale) {
  const off = ([u, v]) => Math.hypot(u - scale * x, v - scale * y);
  if (kind === 'junction') {
    return sites
      .filter((site) => site.kind === kind)
      .map((site) => ({ site, d: off(pointAt(site.chain, middleOf(site, scale * opening))) }))
      .reduce((best, one) => (one.d < best.d ? one : best), { d: Infinity }).site;
  }
  let best = { d: Infinity };
  for (const chain of chains) {
    for (let i = 0; i < chain.x.length; i++) {
      const d = off([chain.x[i], chain.y[i]]);
      if (d < best.d) best = { d, chain, at: chain.s[i] };
    }
  }
  return best.chain && { kind, chain: best.chain, at: best.at, width: scale * width };
}

function cutAt(drawing, opening, count, sites, formOf) {
  const { ink, truth, width, height } = drawing;
  const left = ink.slice();
  const gaps = [];
  const erased = [];
  for (const site of sites) {
    if (gaps.length === count) break;
    const { ends, slope } = formOf(site);
    const gap = planGap(drawing, site, opening, ends, slope);
    if (gap === undefined) continue;
    const clear = (other) =>
      Math.hypot(gap.x - other.x, gap.y - other.y) > opening + gap.width + other.width + 4;
    if (!gaps.every(clear)) continue;
    const pixels = withCrumbs(pixelsOf(drawing, left, gap), left, width, gap.width);
    if (!leaks(pixels, truth, width, height, gap.regions)) continue;
    for (const i of pixels) left[i] = 0;
    erased.push(...pixels);
    const { x, y, direction, kind, regions } = gap;
    gaps.push({ x, y, direction, opening, width: gap.width, kind, ends, slope, regions });
  }
  return gaps.length < FEWEST ? undefined : { erased: Int32Array.from(erased), gaps };
}

/** Arc length of the middle of a gap at a site. */
function middleOf({ kind, at, from }, opening) {
  return kind === 'junction' ? at + (from === 0 ? 0.5 : -0.5) * opening : at;
}

/** A gap at a site, with the points of the border that it is measured along; undefined where none fits. */
function planGap(drawing, site, opening, ends, slope) {
  const { ink, width, height, widest } = drawing;
  const { kind, chain } = site;
  const stump = Math.max(4, site.width);
  if (chain.length < opening + 2 * stump || chain.length < 2 * opening) return undefined;
  let at = middleOf(site, opening);
  if (kind !== 'junction' && !chain.closed) {
    const margin = opening / 2 + 1.5 * stump;
    if (chain.length < 2 * margin) return undefined;
    at = Math.min(Math.max(at, margin), chain.length - margin);
    if (kind === 'corner' && Math.abs(at - site.at) > opening / 4) return undefined;
  }
  const reach = opening / 2 + slope * site.width + 4;
  const flip = site.from === 1 ? -1 : 1;
  // At a junction, the stem alone: nearer to the bar, paper is far.
  const spots = kind === 'junction' ? [0.25 * flip, 0.5 * flip] : [-0.5, 0, 0.5];
  const radii = spots.map((t) =>
    halfWidth(ink, width, height, ...pointAt(chain, at + t * opening), widest),
  );
  const radius = kind === 'junction' ? Math.min(...radii) : Math.max(...radii);
  if (radius >= widest || radius > 2 * Math.max(1, site.width)) return undefined;
  const line = [];
  for (let u = -reach; u <= reach; u += 0.5) {
    if (!chain.closed && (at + u < 0 || at + u > chain.length)) continue;
    line.push([u, ...pointAt(chain, at + u)]);
  }
  const [x, y] = pointAt(chain, at);
  const [back, on] = [-2, 2].map((d) => pointAt(chain, at + d));
  const direction = Math.atan2(on[1] - back[1], on[0] - back[0]);
  return {
    ...{ kind, x, y, direction, width: 2 * radius, ends, opening, slope, line, flip },
    bar: kind === 'junction' ? { radius: site.bar, lines: barLines(site) } : undefined,
    regions: [chain.a, chain.b],
  };
}

/** Points along the bar of a T near its stem. */
function barLines({ bars, chain, from, bar }) {
  const [x, y] = pointAt(chain, from === 0 ? 0 : chain.length);
  const reach = 3 * bar + 12;
  const points = [];
  for (const c of bars) {
    for (let i = 0; i < c.x.length; i++) {
      if (Math.hypot(c.x[i] - x, c.y[i] - y) < reach) points.push([c.x[i], c.y[i]]);
    }
  }
  return points;
}

/** Ink pixels that a gap erases. */
function pixelsOf({ grown, width, height }, ink, gap) {
  const { line, ends, opening, slope, flip, bar, regions } = gap;
  const radius = gap.width / 2;
  const rim = radius + 1.5;
  const xs = line.map(([, x]) => x);
  const ys = line.map(([, , y]) => y);
  const low = (list) => Math.max(0, Math.floor(Math.min(...list) - rim));
  const high = (list, side) => Math.min(side - 1, Math.ceil(Math.max(...list) + rim));
  const pixels = [];
  for (let y = low(ys); y <= high(ys, height); y++) {
    for (let x = low(xs); x <= high(xs, width); x++) {
      const i = y * width + x;
      if (ink[i] === 0 || !regions.includes(grown[i])) continue;
      let [u, v] = [0, Infinity];
      for (const [s, px, py] of line) {
        const d = Math.hypot(px - x - 0.5, py - y - 0.5);
        if (d < v) [u, v] = [s, d];
      }
      if (v > rim) continue;
      // Away from the bar counts as forward at a junction.
      const along = flip * u;
      const end = along < 0 ? ends[0] : ends[1];
      if (bar === undefined || along > 0) {
        if (Math.abs(along) > opening / 2 + recess(end, v, radius, slope)) continue;
      }
      if (
        bar?.lines.some(([px, py]) => Math.hypot(px - x - 0.5, py - y - 0.5) <= bar.radius + 0.25)
      )
        continue;
      pixels.push(i);
    }
  }
  return pixels;
}

/** Pixels to erase with those that would be left as crumbs of ink about them, smaller than the stroke. */
function withCrumbs(pixels, ink, width, strokeWidth) {
  const most = Math.max(6, strokeWidth * strokeWidth);
  const around = [-width - 1, -width, -width + 1, -1, 1, width - 1, width, width + 1];
  const gone = new Set(pixels);
  const seen = new Set();
  const all = [...pixels];
  for (const p of pixels) {
    for (const step of around) {
      const crumb = [];
      const stack = [p + step];
      while (stack.length > 0) {
        const i = stack.pop();
        if (ink[i] !== 1 || gone.has(i) || seen.has(i)) continue;
        seen.add(i);
        crumb.push(i);
        for (const next of around) stack.push(i + next);
      }
      if (crumb.length > 0 && crumb.length <= most) all.push(...crumb);
    }
  }
  return all;
}

/** How far the end of a stump draws back at a distance from its middle line. */
function recess(end, v, radius, slope) {
  const off = Math.min(v, radius);
  if (end === 'round') return radius - Math.sqrt(radius * radius - off * off);
  if (end === 'taper')
    return (2 * slope * Math.max(0, off - 0.75) * radius) / Math.max(1, radius - 0.75);
  return 0;
}

/** Whether erased pixels join the two regions by sides, and none else. */
function leaks(pixels, truth, width, height, [a, b]) {
  const erased = new Set(pixels);
  const seen = new Set();
  let isOpen = false;
  for (const first of pixels) {
    if (seen.has(first)) continue;
    const touched = new Set();
    const stack = [first];
    seen.add(first);
    while (stack.length > 0) {
      const i = stack.pop();
      const x = i % width;
      const sides = [];
      if (x > 0) sides.push(i - 1);
      if (x < width - 1) sides.push(i + 1);
      if (i >= width) sides.push(i - width);
      if (i < width * (height - 1)) sides.push(i + width);
      for (const j of sides) {
        if (truth[j] > 0) touched.add(truth[j]);
        if (!erased.has(j) || seen.has(j)) continue;
        seen.add(j);
        stack.push(j);
      }
    }
    for (const id of touched) if (id !== a && id !== b) return false;
    if (touched.has(a) && touched.has(b)) isOpen = true;
  }
  return isOpen;
}
