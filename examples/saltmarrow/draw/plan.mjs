/**
 * Reads the plan off the drawing: finds every closed region of paper and the swatch of the
 * shape that it shows.
 */

/** Luma below this is ink. */
const INK = 128;

/**
 * Labels the 4-connected regions of paper.
 * @param {Uint8Array} gray picture
 * @param {number} width pixels
 * @returns {{labels: Int32Array, regions: {area: number, border: boolean}[]}} label 0 is ink,
 *   label n belongs to regions[n - 1]
 */
export function labelPaper(gray, width) {
  const labels = new Int32Array(gray.length);
  const regions = [];
  const stack = [];
  for (let i = 0; i < gray.length; i++) {
    if (labels[i] || gray[i] < INK) continue;
    const region = { area: 0, border: false };
    regions.push(region);
    labels[i] = regions.length;
    stack.push(i);
    while (stack.length) {
      const p = stack.pop();
      const x = p % width;
      region.area++;
      if (x === 0 || x === width - 1 || p < width || p >= gray.length - width) region.border = true;
      const near = [
        x > 0 ? p - 1 : -1,
        x < width - 1 ? p + 1 : -1,
        p - width,
        p + width < gray.length ? p + width : -1,
      ];
      for (const q of near) {
        if (q >= 0 && !labels[q] && gray[q] >= INK) {
          labels[q] = regions.length;
          stack.push(q);
        }
      }
    }
  }
  return { labels, regions };
}

/**
 * Inks the traps: tiny leftovers of paper between strokes, as an inker would fill them.
 * @param {Uint8Array} gray picture, changed
 * @param {number} width pixels
 * @param {number} least regions below this area are traps
 * @returns {{x: number, y: number, area: number}[]} the traps
 */
export function fillTraps(gray, width, least) {
  const { labels, regions } = labelPaper(gray, width);
  const traps = new Map();
  for (let i = 0; i < gray.length; i++) {
    const label = labels[i];
    if (!label || regions[label - 1].area >= least) continue;
    if (!traps.has(label)) {
      traps.set(label, { x: i % width, y: Math.floor(i / width), area: regions[label - 1].area });
    }
    for (const dy of [-width, 0, width]) {
      for (const dx of [-1, 0, 1]) {
        const q = i + dy + dx;
        if (q >= 0 && q < gray.length && (gray[q] < INK || labels[q] === label)) gray[q] = 0;
      }
    }
  }
  return [...traps.values()];
}

/**
 * Distance of every paper pixel to ink or to the picture's edge (3-4 chamfer, in thirds).
 * @param {Uint8Array} gray picture
 * @param {number} width pixels
 * @param {number} height pixels
 * @returns {Int32Array} distances
 */
function depths(gray, width, height) {
  const far = 1 << 29;
  const depth = new Int32Array(gray.length);
  const relax = (i, x, y, sign) => {
    if (gray[i] < INK) {
      depth[i] = 0;
      return;
    }
    let best = sign > 0 ? far : depth[i];
    const steps = [
      [-1, 0, 3],
      [0, -1, 3],
      [-1, -1, 4],
      [1, -1, 4],
    ];
    for (const [dx, dy, cost] of steps) {
      const [u, v] = [x + dx * sign, y + dy * sign];
      const inside = u >= 0 && v >= 0 && u < width && v < height;
      best = Math.min(best, (inside ? depth[v * width + u] : 0) + cost);
    }
    depth[i] = best;
  };
  for (let y = 0; y < height; y++) {
    for (let x = 0; x < width; x++) relax(y * width + x, x, y, 1);
  }
  for (let y = height - 1; y >= 0; y--) {
    for (let x = width - 1; x >= 0; x--) relax(y * width + x, x, y, -1);
  }
  return depth;
}

/**
 * One mark for every closed region that is not the ground outside.
 * @param {Uint8Array} gray line art with all gaps closed
 * @param {Uint8Array} map swatch numbers plus one, 0 for the ground
 * @param {string[]} swatches swatch names
 * @param {number} width pixels
 * @param {number} height pixels
 * @returns {{marks: object[], doubts: object[]}} marks, and regions that show two swatches, which
 *   means that a contour between them is missing
 */
export function readMarks(gray, map, swatches, width, height) {
  const { labels, regions } = labelPaper(gray, width);
  const depth = depths(gray, width, height);
  const found = regions.map(() => ({ votes: new Map(), deepest: -1 }));
  for (let i = 0; i < gray.length; i++) {
    if (!labels[i]) continue;
    const region = found[labels[i] - 1];
    // soft edges blur the map close to ink, so only paper at some distance may vote
    if (depth[i] > 6) region.votes.set(map[i], (region.votes.get(map[i]) ?? 0) + 1);
    if (region.deepest < 0 || depth[i] > depth[region.deepest]) region.deepest = i;
  }
  const marks = [];
  const doubts = [];
  found.forEach(({ votes, deepest }, k) => {
    const name = (id) => (id ? swatches[id - 1] : 'ground');
    const ranked = [...votes].sort((a, b) => b[1] - a[1]);
    const first = ranked.length ? ranked[0][0] : map[deepest];
    const point = [(deepest % width) + 0.5, Math.floor(deepest / width) + 0.5];
    if (ranked.length > 1 && ranked[1][1] > 40) {
      doubts.push({ point, area: regions[k].area, votes: ranked.map(([id, n]) => [name(id), n]) });
    }
    if (regions[k].border) return;
    marks.push({ point, swatch: name(first) });
  });
  return { marks, doubts };
}
