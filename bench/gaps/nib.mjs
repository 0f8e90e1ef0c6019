// Set `nib`: pages of figures after the geometry of the set `vector`, inked thick and thin like a
// cartoon, with blacks, hatching, folds and other marks that separate little or nothing.
import { addBlacks, paperOf } from './blacks.mjs';
import { foldOf, openmojiDrawings } from './halves.mjs';
import { fillShapes, isFree, wobbleOf } from './hand.mjs';
import { addMarks } from './marks.mjs';
import { arcLengths, sweep } from './pen.mjs';
import { between, pick, seeded } from './random.mjs';
import { flattenShapes } from './shapes.mjs';
import { penStyle, thickThin } from './thick-thin.mjs';
import { UNITS } from './vector.mjs';

/** Widths of the pens, in pixels; the widest as a share of a figure's side. */
const THINNEST = 2;
const THICKEST = 11;
const BROADEST = 1 / 30;
/** Figures of a page; drawings by lot of which the one with most closed lines becomes a figure. */
const FIGURES = [1, 1, 2, 2, 3, 3, 4, 4, 5, 6];
const CHOICE = 4;
/** Closed lines that a drawing has at least to fill a page alone, and that count at most. */
const ALONE = 5;
const MANY = 30;
/** How far lines are drawn out to meet others: a share of their length, and pens. */
const REACH = { share: 0.35, pens: 2 };
/** Share of a figure's side; shorter lines that meet no other are left out of plain drawings. */
const SHORT = 0.35;
/** Turn of a line, in radians, where a pen is set down anew. */
const CORNER = 0.8;

/**
 * The drawings of openmoji with `parts`, what is drawn on the page of each: itself, and others of its
 * half and fold by lot, those with many closed lines before those with few.
 */
export function nibDrawings() {
  const all = openmojiDrawings().map((drawing) => ({ drawing, closed: closedLines(drawing) }));
  return all.map(({ drawing, closed }) => {
    const random = seeded(`nib parts ${drawing.group}`);
    const mine = all.filter(({ drawing: other }) => areKin(drawing, other));
    const count = Math.max(closed < ALONE ? 2 : 1, pick(random, FIGURES));
    const others = Array.from({ length: count - 1 }, () => {
      const some = Array.from({ length: CHOICE }, () => pick(random, mine));
      return some.reduce((best, one) => (one.closed > best.closed ? one : best)).drawing;
    });
    return { ...drawing, parts: [drawing, ...others] };
  });
}

function areKin(a, b) {
  return a.half === b.half && foldOf(a.group) === foldOf(b.group);
}

function closedLines({ markup }) {
  const shapes = markup.match(/<(circle|ellipse|rect|polygon)\b|z(?=[\s"mM])/gi) ?? [];
  return Math.min(MANY, shapes.length);
}

/** Ink of a page of about `size` pixels on each side. */
export function drawNib({ group, parts }, size) {
  const random = seeded(`nib ${group}`);
  const width = Math.round(size * between(random, 0.8, 1.4));
  const height = Math.round(size * between(random, 0.8, 1.4));
  const places = placesOf(parts.length, width, height, random);
  const side = Math.min(...places.map((place) => place.side));
  const widest = Math.min(THICKEST, BROADEST * side);
  const pen = THINNEST * (widest / THINNEST) ** random();
  const style = penStyle(random, pen);
  const wobble = wobbleOf(random, side, pen, { far: [0.003, 0.025], near: [0, 0.12] });
  const isOpaque = random() < 0.9;
  const page = { width, height, ink: new Uint8Array(width * height) };
  parts.forEach((part, k) => {
    const shapes = flattenShapes(part.markup);
    const place = placing(places[k], boundsOf(shapes), random);
    const figure = { width, height, ink: new Uint8Array(width * height) };
    drawFigure(figure, shapes, (point) => wobble(place(point)), { ...style, side }, random);
    layOver(page, figure, isOpaque);
  });
  addBlacks(page, pen, random);
  const { label, outer } = paperOf(page);
  const isGround = (x, y) => outer[label[Math.floor(y) * width + Math.floor(x)]] === 1;
  addMarks(page, { count: style.isPlain ? 0 : marksOf(random), pen, isGround }, random);
  return page;
}

/** Clusters of marks: none or few on most pages, many on some. */
function marksOf(random) {
  const kind = random();
  if (kind < 0.3) return Math.floor(between(random, 0, 3));
  return Math.floor(kind < 0.7 ? between(random, 2, 8) : between(random, 8, 25));
}

/** Middles and sides of the figures: cells of a grid, overlapping. */
function placesOf(count, width, height, random) {
  const columns = Math.max(1, Math.round(Math.sqrt((count * width) / height)));
  const rows = Math.ceil(count / columns);
  const cell = Math.min(width / columns, height / rows);
  const inRow = (row) => Math.min(columns, count - row * columns);
  return Array.from({ length: count }, (_, k) => ({
    x: ((k % columns) + between(random, 0.4, 0.6)) * (width / inRow(Math.floor(k / columns))),
    y: (Math.floor(k / columns) + between(random, 0.4, 0.6)) * (height / rows),
    side: cell * (count === 1 ? between(random, 0.75, 1.05) : between(random, 0.8, 1.15)),
  }));
}

/** The middle and the longer side of what is drawn. */
function boundsOf(shapes) {
  let [x0, y0, x1, y1] = [UNITS, UNITS, 0, 0];
  for (const { lines } of shapes) {
    for (const [x, y] of lines.flatMap(({ points }) => points)) {
      [x0, y0] = [Math.min(x0, x), Math.min(y0, y)];
      [x1, y1] = [Math.max(x1, x), Math.max(y1, y)];
    }
  }
  return { x: (x0 + x1) / 2, y: (y0 + y1) / 2, side: Math.max(8, x1 - x0, y1 - y0) };
}

/** From the units of a drawing to the page: turned, stretched, perhaps mirrored. */
function placing({ x, y, side }, drawn, random) {
  const angle = random() < 0.8 ? between(random, -0.25, 0.25) : random() * 2 * Math.PI;
  const stretch = between(random, 0.85, 1.18);
  const [sx, sy] = [(stretch * side) / drawn.side, side / (stretch * drawn.side)];
  const mirror = random() < 0.5 ? -1 : 1;
  const [cos, sin] = [Math.cos(angle), Math.sin(angle)];
  return ([px, py]) => {
    const [u, v] = [(px - drawn.x) * sx * mirror, (py - drawn.y) * sy];
    return [x + u * cos - v * sin, y + u * sin + v * cos];
  };
}

function drawFigure(figure, shapes, place, style, random) {
  const lines = shapes.flatMap(({ lines, stroke }) =>
    stroke === 0
      ? []
      : lines.map(({ points, closed }) => ({
          closed: closed || Math.hypot(...difference(points[0], points.at(-1))) < 0.3,
          points: points.map(place),
          weight: Math.min(2, stroke / 2),
        })),
  );
  const longest = Math.max(...lines.map(({ points }) => arcLengths(points).at(-1)));
  const middle = middleOf(lines.flatMap(({ points }) => points));
  for (const line of lines) {
    const back = line.closed ? middleOf(line.points) : middle;
    const share = arcLengths(line.points).at(-1) / longest;
    const weight = line.weight * style.outline * share ** style.order;
    const strokes = strokesOf(line, lines, style, random);
    const isOpen = strokes[0].free[0] || strokes.at(-1).free[1];
    if (style.isPlain && isOpen && !line.closed && share * longest < SHORT * style.side) continue;
    for (const stroke of strokes) {
      sweep(figure, thickThin({ ...stroke, weight, middle: back }, style, random));
    }
  }
  fillShapes(figure, shapes, place);
}

/**
 * A line as the strokes of a pen set down anew at corners, some of which run over them. Ends in the
 * open may be drawn out to the next line.
 */
function strokesOf({ points, closed }, lines, style, random) {
  const { pen, overshoot } = style;
  const cuts = [0, ...cornersOf(points), points.length - 1];
  return cuts.slice(1).map((to, k) => {
    const piece = points.slice(cuts[k], to + 1);
    const ends = [piece, piece.toReversed()].map((from, e) => {
      if (e === 0 ? k > 0 : k < cuts.length - 2) {
        const over = random() < overshoot ? pen * between(random, 0.5, 3) : 0;
        return { free: over > 0, more: over > 0 ? [onwards(from, over)] : [] };
      }
      if (closed || !isFree(from[0], points, lines, 1.5 * pen)) return { free: false, more: [] };
      const far = random() < style.closes ? stepsToMeet(from, points, lines, style) : undefined;
      return { free: far === undefined, more: far === undefined ? [] : [onwards(from, far)] };
    });
    return {
      points: [...ends[0].more, ...piece, ...ends[1].more],
      free: ends.map(({ free }) => free),
    };
  });
}

/** Pixels from the first point of a line straight on to another line; undefined where it is far. */
function stepsToMeet(line, own, lines, { pen }) {
  const reach = REACH.share * arcLengths(line).at(-1) + REACH.pens * pen;
  for (let far = 1; far < reach; far++) {
    if (!isFree(onwards(line, far), own, lines, 1)) return far;
  }
  return undefined;
}

/** Places on a line where it turns sharply within a few steps. */
function cornersOf(points) {
  const found = [];
  for (let i = 3; i + 3 < points.length; i++) {
    const [ax, ay] = difference(points[i], points[i - 3]);
    const [bx, by] = difference(points[i + 3], points[i]);
    const turn = Math.abs(Math.atan2(ax * by - ay * bx, ax * bx + ay * by));
    if (turn < CORNER) continue;
    const last = found.at(-1);
    if (last === undefined || i - last.at > 5) found.push({ at: i, turn });
    else if (turn > last.turn) found[found.length - 1] = { at: i, turn };
  }
  return found.map(({ at }) => at);
}

/** The point `length` pixels before the first point of a line, straight on. */
function onwards(line, length) {
  const [dx, dy] = difference(line[0], line[Math.min(4, line.length - 1)]);
  const far = Math.hypot(dx, dy) || 1;
  return [line[0][0] + (dx * length) / far, line[0][1] + (dy * length) / far];
}

/** Lays a figure over a page; where it is opaque, what lies within its contours is hidden. */
function layOver({ ink }, figure, isOpaque) {
  const { label, outer } = paperOf(figure);
  for (let i = 0; i < ink.length; i++) {
    if (figure.ink[i] === 1) ink[i] = 1;
    else if (isOpaque && outer[label[i]] === 0) ink[i] = 0;
  }
}

function difference([ax, ay], [bx, by]) {
  return [ax - bx, ay - by];
}

function middleOf(points) {
  const sum = points.reduce(([x, y], [px, py]) => [x + px, y + py], [0, 0]);
  return [sum[0] / points.length, sum[1] / points.length];
}
