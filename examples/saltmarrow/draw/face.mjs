/**
 * Face parts that all pilots share.
 */
import { blob, oval } from './pen.mjs';

/**
 * An eye: white, iris, inked pupil with a catchlight, and lids that may cover a part of it.
 * @param {import('./drawing.mjs').Drawing} d drawing
 * @param {object} eye measures
 * @param {number} eye.x center
 * @param {number} eye.y center
 * @param {number} eye.rx half width
 * @param {number} eye.ry half height
 * @param {number[]} eye.look offset of the iris
 * @param {number} eye.iris radius of the iris
 * @param {string} eye.swatch swatch of the iris
 * @param {string} [eye.lid] swatch of the lids
 * @param {number} [eye.upper] how far the upper lid comes down, 0 to 1
 * @param {number} [eye.lower] how far the lower lid comes up, 0 to 1
 * @param {number} [eye.slant] how much lower the upper lid's right end is, in pixels
 * @param {number} [eye.turn] degrees
 * @param {boolean} [eye.shiny] whether there is a catchlight
 */
export function drawEye(d, eye) {
  const { x, y, rx, ry, look, iris, swatch, lid, upper = 0, lower = 0, slant = 0 } = eye;
  const { shiny = true } = eye;
  const white = oval(x, y, rx, ry, eye.turn ?? 0);
  d.part(white, 'eye white', {
    width: 7,
    inside: () => {
      const [ix, iy] = [x + look[0], y + look[1]];
      d.part(oval(ix, iy, iris, iris * 1.08), swatch, { width: 5 });
      const pupil = iris * 0.7;
      d.spot(oval(ix, iy, pupil, pupil * 1.08));
      if (shiny) {
        // the catchlight stays inside the pupil, and big enough to be a region of its own
        const shine = Math.max(7.8, pupil * 0.48);
        const off = Math.max(0, pupil - shine - 3);
        d.fill(oval(ix - off * 0.55, iy - off * 0.8, shine), 'eye white');
      }
      if (upper) drawLid(-1, upper, slant);
      if (lower) drawLid(1, lower, 0);
    },
  });
  // the upper lash line is heavier than the rest of the rim
  const lashY = upper ? y - ry + 2 * ry * upper : y - ry;
  if (!upper) {
    d.stroke(
      [
        [x - rx, y - ry * 0.3],
        [x - rx * 0.6, y - ry * 0.83],
        [x, lashY - 1],
        [x + rx * 0.6, y - ry * 0.83],
        [x + rx, y - ry * 0.3],
      ],
      10,
      { start: 0.3, end: 0.3 },
    );
  }

  function drawLid(side, amount, tilt) {
    const edge = y + side * (ry - 2 * ry * amount);
    const bend = side * ry * 0.22;
    const [l, r] = [
      [x - rx * 1.3, edge - tilt / 2],
      [x + rx * 1.3, edge + tilt / 2],
    ];
    const middle = [x, edge - bend];
    const far = y + side * ry * 1.6;
    d.fill(
      blob([[...l, 1], middle, [...r, 1], [x + rx * 1.4, far, 1], [x - rx * 1.4, far, 1]]),
      lid,
    );
    d.stroke([l, middle, r], side < 0 ? 9 : 6, { start: 0.8, end: 0.8 });
  }
}

/**
 * A brow: a tapering shape of its own, thicker at the inner end.
 * @param {import('./drawing.mjs').Drawing} d drawing
 * @param {number[][]} spine points with half widths
 * @param {string} swatch swatch
 */
export function drawBrow(d, spine, swatch) {
  const over = [];
  const under = [];
  spine.forEach(([x, y, r]) => {
    over.push([x, y - r]);
    under.unshift([x, y + r]);
  });
  d.part(blob([...over, ...under]), swatch, { width: 6 });
}
