/**
 * The drawing: a painter's stack of white shapes and black ink. Every shape knows the swatch
 * its paper gets, so the same stack also yields the map of swatches that the plan is read from.
 */
import { curve, inkLine, pathOf } from './pen.mjs';

/** Collects shapes and strokes, drawn back to front. */
export class Drawing {
  #items = [];
  #gaps = [];
  #swatches = [];
  #matrix = [1, 0, 0, 1, 0, 0];
  #clips = 0;
  #seed = 1;

  /** @returns {{x: number, y: number, opening: number}[]} places left open on purpose */
  get gaps() {
    return this.#gaps;
  }

  /** @returns {string[]} the swatch names in use, in order of first use */
  get swatches() {
    return this.#swatches;
  }

  /**
   * Draws something moved, scaled, turned or mirrored.
   * @param {{x?: number, y?: number, scale?: number, turn?: number, flip?: boolean}} to placement
   * @param {() => void} draw what to draw
   */
  place({ x = 0, y = 0, scale = 1, turn = 0, flip = false }, draw) {
    const kept = this.#matrix;
    const [c, s] = [Math.cos((turn * Math.PI) / 180), Math.sin((turn * Math.PI) / 180)];
    const fx = flip ? -scale : scale;
    const [a, b, p, q, e, f] = kept;
    const m = [c * fx, s * fx, -s * scale, c * scale, x, y];
    this.#matrix = [
      a * m[0] + p * m[1],
      b * m[0] + q * m[1],
      a * m[2] + p * m[3],
      b * m[2] + q * m[3],
      a * m[4] + p * m[5] + e,
      b * m[4] + q * m[5] + f,
    ];
    draw();
    this.#matrix = kept;
  }

  /**
   * Draws something behind all that is drawn so far.
   * @param {() => void} draw what to draw
   */
  behind(draw) {
    const front = this.#items;
    this.#items = [];
    draw();
    this.#items.push(...front);
  }

  /**
   * Paper of one color, without a contour of its own.
   * @param {{line: number[][]}} shape closed shape
   * @param {string} swatch what it is
   */
  fill(shape, swatch) {
    let id = this.#swatches.indexOf(swatch);
    if (id < 0) id = this.#swatches.push(swatch) - 1;
    this.#items.push({ kind: 'fill', path: pathOf(this.#move(shape.line)), id });
  }

  /**
   * An ink stroke through points.
   * @param {number[][]} points points to pass, `[x, y, 1]` for a corner
   * @param {number} width greatest width
   * @param {object} [options] see inkLine
   */
  stroke(points, width, options = {}) {
    this.#ink(curve(points).line, width, options);
  }

  /**
   * A spot filled with ink.
   * @param {{line: number[][]}} shape closed shape
   */
  spot(shape) {
    const path = pathOf(this.#move(shape.line));
    this.#items.push({ kind: 'ink', open: path, shut: path });
  }

  /**
   * A body part: white paper, details cut at its contour, then the contour itself.
   * @param {{line: number[][], knots: number[]}} shape closed shape
   * @param {string} swatch what it is
   * @param {object} [options] how
   * @param {number} [options.width] width of the contour
   * @param {number[][]} [options.skip] `[from knot, to knot]` stretches without a contour
   * @param {number[][]} [options.gaps] openings, see inkLine; with skip they count on the first
   *   inked stretch
   * @param {() => void} [options.inside] draws the details
   * @param {number} [options.tip] pressure at the ends of inked stretches
   */
  part(shape, swatch, { width = 9, skip = [], gaps = [], inside, tip = 0.55 } = {}) {
    this.fill(shape, swatch);
    if (inside) this.clip(shape, inside);
    const { line, knots } = shape;
    const moved = this.#move(line);
    let area = 0;
    moved.forEach((p, i) => {
      const q = moved[(i + 1) % moved.length];
      area += p[0] * q[1] - p[1] * q[0];
    });
    const style = { lean: 0.3, side: Math.sign(area) };
    if (!skip.length) {
      this.#ink(line, width, { ...style, loop: true, gaps });
      return;
    }
    const n = line.length;
    skip.forEach(([, from], k) => {
      const [to] = skip[(k + 1) % skip.length];
      const a = knots[from];
      let b = knots[to];
      if (b <= a) b += n;
      const stretch = Array.from({ length: b - a + 1 }, (_, i) => line[(a + i) % n]);
      this.#ink(stretch, width, { ...style, start: tip, end: tip, gaps: k ? [] : gaps });
    });
  }

  /**
   * A stripe between two inked edges, to be cut by a clip.
   * @param {number[][]} upper points of one edge
   * @param {number[][]} lower points of the other edge, in the same direction
   * @param {string} swatch what it is
   * @param {number} [width] width of the edges
   */
  band(upper, lower, swatch, width = 7) {
    const edges = [upper, [...lower].reverse()];
    const corners = edges.flatMap((edge) =>
      edge.map(([x, y], i) => (i % (edge.length - 1) ? [x, y] : [x, y, 1])),
    );
    this.fill(curve(corners, true), swatch);
    this.stroke(upper, width, { start: 1, end: 1 });
    this.stroke(lower, width, { start: 1, end: 1 });
  }

  /**
   * Draws details that are cut at the edge of a shape.
   * @param {{line: number[][]}} shape closed shape
   * @param {() => void} draw draws the details
   */
  clip(shape, draw) {
    this.#items.push({ kind: 'clip', path: pathOf(this.#move(shape.line)), id: this.#clips++ });
    draw();
    this.#items.push({ kind: 'end' });
  }

  /**
   * The line art as SVG.
   * @param {number} width pixels
   * @param {number} height pixels
   * @param {'open' | 'shut'} gaps whether the gaps are left open
   * @returns {string} SVG source
   */
  lineArt(width, height, gaps) {
    return this.#svg(width, height, '#fff', '', () => '#fff', gaps);
  }

  /**
   * The swatch map as SVG: each shape in the gray-free color `#0000nn` of its swatch number
   * plus one, without ink and without soft edges; the ground is 0.
   * @param {number} width pixels
   * @param {number} height pixels
   * @returns {string} SVG source
   */
  swatchMap(width, height) {
    const color = (id) => `#0000${(id + 1).toString(16).padStart(2, '0')}`;
    return this.#svg(width, height, '#000', ' shape-rendering="crispEdges"', color, null);
  }

  #svg(width, height, paper, attributes, color, gaps) {
    const out = this.#items.map((item) => {
      if (item.kind === 'fill') return `<path fill="${color(item.id)}" d="${item.path}"/>`;
      if (item.kind === 'ink') return gaps ? `<path d="${item[gaps]}"/>` : '';
      if (item.kind === 'end') return '</g>';
      return (
        `<clipPath id="c${item.id}"><path d="${item.path}"/></clipPath>` +
        `<g clip-path="url(#c${item.id})">`
      );
    });
    return (
      `<svg xmlns="http://www.w3.org/2000/svg" width="${width}" height="${height}"${attributes}>` +
      `<rect width="100%" height="100%" fill="${paper}"/>${out.join('')}</svg>`
    );
  }

  #move(line) {
    const [a, b, c, d, e, f] = this.#matrix;
    return line.map(([x, y]) => [a * x + c * y + e, b * x + d * y + f]);
  }

  #ink(line, width, options) {
    const scale = Math.hypot(this.#matrix[0], this.#matrix[1]);
    const { open, shut, gaps } = inkLine(this.#move(line), {
      ...options,
      width: width * scale ** 0.7,
      seed: this.#seed++,
    });
    this.#gaps.push(...gaps);
    this.#items.push({ kind: 'ink', open, shut });
  }
}
