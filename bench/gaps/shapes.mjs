// Outlines of the elements of an SVG group as polylines, for pens of our own.

/** Length of the steps in which curves are followed, in units of the drawing. */
const STEP = 0.2;

/**
 * The drawn elements of a group: `{ lines: { points, closed }[], stroke, filled }`, in the units of
 * the group with all transforms done; `stroke` is the width of a black stroke, 0 without one.
 */
export function flattenShapes(markup) {
  const shapes = [];
  const stack = [{ fill: '#000', stroke: 'none', width: 1, matrix: [1, 0, 0, 1, 0, 0] }];
  for (const [tag, name, text, closing] of markup.matchAll(/<\/?([a-z]+)([^>]*?)(\/?)>/gi)) {
    if (tag.startsWith('</')) {
      if (name === 'g') stack.pop();
      continue;
    }
    const attributes = Object.fromEntries(
      [...text.matchAll(/([a-z0-9-]+)="([^"]*)"/gi)].map(([, key, value]) => [key, value]),
    );
    const state = inherit(stack.at(-1), attributes);
    if (name === 'g') {
      if (closing === '') stack.push(state);
      continue;
    }
    const lines = linesOf(name, attributes);
    const stroke = isBlack(state.stroke) ? state.width * scaleOf(state.matrix) : 0;
    const filled = isBlack(state.fill) && name !== 'line';
    if (state.hidden || lines.length === 0 || (stroke === 0 && !filled)) continue;
    for (const line of lines) line.points = line.points.map((p) => apply(state.matrix, p));
    shapes.push({ lines, stroke, filled });
  }
  return shapes;
}

function inherit(outer, a) {
  return {
    fill: a['fill-opacity'] === '0' ? 'none' : (a.fill ?? outer.fill),
    stroke: a['stroke-opacity'] === '0' ? 'none' : (a.stroke ?? outer.stroke),
    width: a['stroke-width'] === undefined ? outer.width : Number(a['stroke-width']),
    matrix: multiply(outer.matrix, transformOf(a.transform ?? '')),
    hidden: outer.hidden || a.display === 'none',
  };
}

function isBlack(color) {
  return color === '#000' || color === '#000000' || color === 'black';
}

function linesOf(name, a) {
  const n = (key, standard = 0) => (a[key] === undefined ? standard : Number(a[key]));
  if (name === 'path') return pathLines(a.d ?? '');
  if (name === 'line') {
    return [
      {
        points: straight([
          [n('x1'), n('y1')],
          [n('x2'), n('y2')],
        ]),
        closed: false,
      },
    ];
  }
  if (name === 'circle' || name === 'ellipse') {
    const [rx, ry] = name === 'circle' ? [n('r'), n('r')] : [n('rx', n('ry')), n('ry', n('rx'))];
    const steps = Math.max(8, Math.ceil((Math.PI * (rx + ry)) / STEP));
    const points = Array.from({ length: steps }, (_, k) => {
      const t = (2 * Math.PI * k) / steps;
      return [n('cx') + rx * Math.cos(t), n('cy') + ry * Math.sin(t)];
    });
    return rx > 0 && ry > 0 ? [{ points, closed: true }] : [];
  }
  if (name === 'rect') {
    const [x, y, w, h] = [n('x'), n('y'), n('width'), n('height')];
    const rx = Math.min(n('rx', n('ry')), w / 2);
    const ry = Math.min(n('ry', n('rx')), h / 2);
    const arc = rx > 0 ? (dx, dy) => `a${rx} ${ry} 0 0 1 ${dx} ${dy}` : () => '';
    return pathLines(
      `M${x + rx} ${y}h${w - 2 * rx}${arc(rx, ry)}v${h - 2 * ry}${arc(-rx, ry)}` +
        `h${2 * rx - w}${arc(-rx, -ry)}v${2 * ry - h}${arc(rx, -ry)}z`,
    );
  }
  if (name === 'polyline' || name === 'polygon') {
    const numbers = numbersOf(a.points ?? '');
    const points = Array.from({ length: numbers.length >> 1 }, (_, k) => [
      numbers[2 * k],
      numbers[2 * k + 1],
    ]);
    const closed = name === 'polygon';
    if (closed && points.length > 0) points.push(points[0]);
    return points.length > 1 ? [{ points: straight(points), closed }] : [];
  }
  return [];
}

/** Numbers that each command of a path takes. */
const TAKES = { M: 2, L: 2, H: 1, V: 1, C: 6, S: 4, Q: 4, T: 2, A: 7, Z: 0 };

/** Lines of a path, by the rules of SVG 1.1, chapter 8. */
function pathLines(d) {
  const lines = [];
  let line;
  let [x, y] = [0, 0];
  let start = [0, 0];
  let handle;
  const curve = (n, at) => {
    for (let k = 1; k <= n; k++) line.points.push(at(k / n));
  };
  const begin = () => {
    if (line === undefined) lines.push((line = { points: [[x, y]], closed: false }));
  };
  for (const [, letter, text] of d.matchAll(/([MLHVCSQTAZ])([^MLHVCSQTAZ]*)/gi)) {
    const command = letter.toUpperCase();
    const relative = letter !== command;
    const numbers = numbersOf(text, command === 'A');
    const takes = TAKES[command];
    for (let i = 0; i === 0 || i + takes <= numbers.length; i += takes || 1) {
      if (takes === 0 && i > 0) break;
      const v = numbers.slice(i, i + takes);
      const [ox, oy] = relative ? [x, y] : [0, 0];
      if (command === 'Z') {
        if (line !== undefined) {
          curve(stepsFor([[x, y], start]), (t) => mix([x, y], start, t));
          line.closed = true;
        }
        [x, y] = start;
        line = undefined;
        handle = undefined;
        continue;
      }
      if (command === 'M' && i === 0) {
        [x, y] = [v[0] + ox, v[1] + oy];
        start = [x, y];
        line = undefined;
        handle = undefined;
        continue;
      }
      begin();
      const from = [x, y];
      if (command === 'A') {
        const to = [v[5] + ox, v[6] + oy];
        line.points.push(...arcPoints(from, v, to));
        [x, y] = to;
        handle = undefined;
        continue;
      }
      let controls = [];
      for (let k = 0; k + 1 < v.length; k += 2) controls.push([v[k] + ox, v[k + 1] + oy]);
      if (command === 'H') controls = [[v[0] + ox, y]];
      if (command === 'V') controls = [[x, v[0] + oy]];
      if (command === 'S' || command === 'T') {
        const fits = handle?.kind === (command === 'S' ? 'C' : 'Q');
        const mirrored = fits ? [2 * x - handle.at[0], 2 * y - handle.at[1]] : from;
        controls = [mirrored, ...controls];
      }
      const all = [from, ...controls];
      curve(stepsFor(all), (t) => bezier(all, t));
      [x, y] = all.at(-1);
      const kind = all.length === 4 ? 'C' : all.length === 3 ? 'Q' : undefined;
      handle = kind && { kind, at: all.at(-2) };
    }
  }
  return lines.filter(({ points }) => points.length > 1);
}

/** Numbers of a list; in those of arcs the two flags may stand without a blank after them. */
function numbersOf(text, arcs = false) {
  const number = /[+-]?(?:\d+\.?\d*|\.\d+)(?:e[+-]?\d+)?/gi;
  const numbers = [];
  for (let at = 0; at < text.length; ) {
    const isFlag = arcs && (numbers.length % 7 === 3 || numbers.length % 7 === 4);
    const pattern = isFlag ? /[01]/g : number;
    pattern.lastIndex = at;
    const found = pattern.exec(text);
    if (found === null) break;
    numbers.push(Number(found[0]));
    at = pattern.lastIndex;
  }
  return numbers;
}

/** Points of an elliptic arc, by the implementation notes of SVG 1.1, F.6.5 and F.6.6. */
function arcPoints(from, [r1, r2, tilt, large, sweep], to) {
  let [rx, ry] = [Math.abs(r1), Math.abs(r2)];
  if (rx === 0 || ry === 0 || (from[0] === to[0] && from[1] === to[1])) return [to];
  const [cos, sin] = [Math.cos((tilt * Math.PI) / 180), Math.sin((tilt * Math.PI) / 180)];
  const [hx, hy] = [(from[0] - to[0]) / 2, (from[1] - to[1]) / 2];
  const [px, py] = [cos * hx + sin * hy, cos * hy - sin * hx];
  const grow = Math.sqrt(Math.max(1, (px / rx) ** 2 + (py / ry) ** 2));
  [rx, ry] = [rx * grow, ry * grow];
  const share = (rx * py) ** 2 + (ry * px) ** 2;
  const side = large === sweep ? -1 : 1;
  const q = side * Math.sqrt(Math.max(0, ((rx * ry) ** 2 - share) / share));
  const [qx, qy] = [(q * rx * py) / ry, (-q * ry * px) / rx];
  const cx = cos * qx - sin * qy + (from[0] + to[0]) / 2;
  const cy = sin * qx + cos * qy + (from[1] + to[1]) / 2;
  const first = Math.atan2((py - qy) / ry, (px - qx) / rx);
  let turn = Math.atan2((-py - qy) / ry, (-px - qx) / rx) - first;
  if (sweep && turn < 0) turn += 2 * Math.PI;
  if (!sweep && turn > 0) turn -= 2 * Math.PI;
  const steps = Math.max(2, Math.ceil((Math.abs(turn) * Math.max(rx, ry)) / STEP));
  return Array.from({ length: steps }, (_, k) => {
    const t = first + (turn * (k + 1)) / steps;
    const [ex, ey] = [rx * Math.cos(t), ry * Math.sin(t)];
    return k + 1 === steps ? to : [cx + cos * ex - sin * ey, cy + sin * ex + cos * ey];
  });
}

function straight(points) {
  const line = [points[0]];
  for (let i = 1; i < points.length; i++) {
    const n = stepsFor([points[i - 1], points[i]]);
    for (let k = 1; k <= n; k++) line.push(mix(points[i - 1], points[i], k / n));
  }
  return line;
}

function stepsFor(points) {
  let length = 0;
  for (let i = 1; i < points.length; i++) {
    length += Math.hypot(points[i][0] - points[i - 1][0], points[i][1] - points[i - 1][1]);
  }
  return Math.max(1, Math.ceil(length / STEP));
}

function bezier(controls, t) {
  let points = controls;
  while (points.length > 1) {
    points = points.slice(1).map((p, k) => mix(points[k], p, t));
  }
  return points[0];
}

function mix([ax, ay], [bx, by], t) {
  return [ax + t * (bx - ax), ay + t * (by - ay)];
}

function transformOf(text) {
  let matrix = [1, 0, 0, 1, 0, 0];
  for (const [, name, list] of text.matchAll(/([a-zA-Z]+)\s*\(([^)]*)\)/g)) {
    const v = numbersOf(list);
    const angle = ((v[0] ?? 0) * Math.PI) / 180;
    const [cos, sin] = [Math.cos(angle), Math.sin(angle)];
    const [cx, cy] = [v[1] ?? 0, v[2] ?? 0];
    const step = {
      matrix: v,
      translate: [1, 0, 0, 1, v[0], v[1] ?? 0],
      scale: [v[0], 0, 0, v[1] ?? v[0], 0, 0],
      rotate: [cos, sin, -sin, cos, cx - cos * cx + sin * cy, cy - sin * cx - cos * cy],
      skewX: [1, 0, Math.tan(angle), 1, 0, 0],
      skewY: [1, Math.tan(angle), 0, 1, 0, 0],
    }[name];
    matrix = multiply(matrix, step);
  }
  return matrix;
}

function multiply([a, b, c, d, e, f], [p, q, r, s, t, u]) {
  return [
    a * p + c * q,
    b * p + d * q,
    a * r + c * s,
    b * r + d * s,
    a * t + c * u + e,
    b * t + d * u + f,
  ];
}

function apply([a, b, c, d, e, f], [x, y]) {
  return [a * x + c * y + e, b * x + d * y + f];
}

function scaleOf([a, b, c, d]) {
  return Math.sqrt(Math.abs(a * d - b * c));
}
