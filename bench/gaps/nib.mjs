// Set `nib`: pages of figures after the geometry of the set `vector`, inked thick and thin like a
// cartoon, with blacks, hatching, folds and other marks that separate little or nothing.
import { addBlacks, paperOf } from './blacks.mjs';
import { openmojiDrawings } from './halves.mjs';
import { fillShapes, isFree, wobbleOf } from './hand.mjs';
import { addMarks } from './marks.mjs';
import { sweep } from './pen.mjs';
import { between, pick, seeded } from './random.mjs';
import { flattenShapes } from './shapes.mjs';
import { penStyle, thickThin } from './thick-thin.mjs';
import { UNITS } from './vector.mjs';

/** Widths of the pens, in pixels; the widest as a share of a figure's side. */
const THINNEST = 2;
const THICKEST = 11;
const BROADEST = 1 / 34;
/** Figures of a page. */
const FIGURES = [1, 1, 2, 2, 3, 3, 4, 4, 5, 6];
/** Turn of a line, in radians, where a pen is set down anew. */
const CORNER = 0.8;

/**
 * The drawings of openmoji with `parts`, what is drawn on the page of each: itself, and others of its
 * half, of two by lot the one with the longer markup.
 */
export function nibDrawings() {
  const all = openmojiDrawings();
  return all.map((drawing) => {
    const random = seeded(`nib parts ${drawing.group}`);
    const mine = all.filter(({ half }) => half === drawing.half);
    const others = Array.from({ length: pick(random, FIGURES) - 1 }, () => {
      const [one, other] = [pick(random, mine), pick(random, mine)];
      return one.markup.length > other.markup.length ? one : other;
    });
    return { ...drawing, parts: [drawing, ...others] };
  });
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
  const wobble = wobbleOf(random, side, pen, { far: [0.005, 0.04], near: [0, 0.15] });
  const isOpaque = random() < 0.9;
  const page = { width, height, ink: new Uint8Array(width * height) };
  parts.forEach((part, k) => {
    const place = placing(places[k], random);
    const figure = { width, height, ink: new Uint8Array(width * height) };
    drawFigure(figure, flattenShapes(part.markup), (point) => wobble(place(point)), style, random);
    layOver(page, figure, isOpaque);
  });
  addBlacks(page, pen, random);
  const { label, outer } = paperOf(page);
  const isGround = (x, y) => outer[label[Math.floor(y) * width + Math.floor(x)]] === 1;
  addMarks(page, { count: marksOf(random), pen, isGround }, random);
  return page;
}

/** Clusters of marks: none or few on most pages, many on some. */
function marksOf(random) {
  const kind = random();
  if (kind < 0.4) return Math.floor(between(random, 0, 3));
  return Math.floor(kind < 0.75 ? between(random, 2, 8) : between(random, 8, 26));
}

/** Middles and sides of the figures: cells of a grid, overlapping. */
function placesOf(count, width, height, random) {
  const columns = Math.max(1, Math.round(Math.sqrt((count * width) / height)));
  const rows = Math.ceil(count / columns);
  const cell = Math.min(width / columns, height / rows);
  return Array.from({ length: count }, (_, k) => ({
    x: ((k % columns) + between(random, 0.4, 0.6)) * (width / columns),
    y: (Math.floor(k / columns) + between(random, 0.4, 0.6)) * (height / rows),
    side: cell * (count === 1 ? between(random, 0.9, 1.15) : between(random, 1, 1.4)),
  }));
}

/** From the units of a drawing to the page: turned, stretched, perhaps mirrored. */
function placing({ x, y, side }, random) {
  const angle = random() < 0.8 ? between(random, -0.25, 0.25) : random() * 2 * Math.PI;
  const stretch = between(random, 0.85, 1.18);
  const [sx, sy] = [(stretch * side) / UNITS, side / (stretch * UNITS)];
  const mirror = random() < 0.5 ? -1 : 1;
  const [cos, sin] = [Math.cos(angle), Math.sin(angle)];
  return ([px, py]) => {
    const [u, v] = [(px - UNITS / 2) * sx * mirror, (py - UNITS / 2) * sy];
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
  const middle = middleOf(lines.flatMap(({ points }) => points));
  for (const line of lines) {
    const back = line.closed ? middleOf(line.points) : middle;
    for (const stroke of strokesOf(line, lines, style, random)) {
      sweep(figure, thickThin({ ...stroke, weight: line.weight, middle: back }, style, random));
    }
  }
  fillShapes(figure, shapes, place);
}

/** A line as the strokes of a pen set down anew at corners, some of which run over them. */
function strokesOf({ points, closed }, lines, { pen, overshoot }, random) {
  const meets = (end) => closed || !isFree(end, points, lines, 1.5 * pen);
  const cuts = [0, ...cornersOf(points), points.length - 1];
  return cuts.slice(1).map((to, k) => {
    const piece = points.slice(cuts[k], to + 1);
    const free = [
      k === 0 && !meets(points[0]),
      k === cuts.length - 2 && !meets(points[points.length - 1]),
    ];
    const isCorner = [k > 0, k < cuts.length - 2];
    const over = isCorner.map((is) => is && random() < overshoot);
    const length = () => pen * between(random, 0.5, 3);
    const before = over[0]
      ? [beyond(piece[0], piece[Math.min(3, piece.length - 1)], length())]
      : [];
    const after = over[1] ? [beyond(piece.at(-1), piece.at(-4) ?? piece[0], length())] : [];
    return { points: [...before, ...piece, ...after], free: free.map((is, e) => is || over[e]) };
  });
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

/** The point `length` pixels past an end, straight on from a point before it. */
function beyond(end, before, length) {
  const [dx, dy] = difference(end, before);
  const far = Math.hypot(dx, dy) || 1;
  return [end[0] + (dx * length) / far, end[1] + (dy * length) / far];
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
