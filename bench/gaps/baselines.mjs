// Ways to close gaps that are not of this library, to compare with.
import { labelRegions, raster } from 'underink';

/**
 * Ink grown by `radius` pixels, the paper that is left labeled, and the labels grown back over all
 * paper. Paper that no label reaches is labeled by its own regions.
 */
export function dilate(ink, width, height, radius) {
  const distance = squaredDistance(ink, width, height);
  const thick = threshold(distance, radius * radius);
  const { labels, count } = labelRegions(raster(thick, [width, height]), { of: 0 });
  return growBack(labels.data, count, ink, width, height);
}

/**
 * Ball opening with falling radius, after Zhang, Chen, Zhang, Hu, Martin 2009, "Vectorizing Cartoon
 * Animations": what a ball of the largest radius can sweep without touching ink are the first
 * regions; smaller and smaller balls sweep what is left. Components that are smaller than the
 * square about the largest ball are left to their neighbors, into which all labels grow at last.
 */
export function openByBalls(ink, width, height, largest) {
  const labels = new Int32Array(ink.length);
  const size = [width, height];
  let count = 0;
  for (let radius = largest; radius >= 1; radius = Math.floor(radius / 2)) {
    const closed = ink.slice();
    for (let i = 0; i < closed.length; i++) if (labels[i] > 0) closed[i] = 1;
    const narrow = threshold(squaredDistance(closed, width, height), radius * radius);
    const swept = labelRegions(raster(narrow, size), { of: 0 });
    const seeds = swept.labels.data;
    spread(seeds, closed, narrow, radius, width, height);
    const areas = new Int32Array(swept.count + 1);
    for (let i = 0; i < seeds.length; i++) areas[seeds[i]]++;
    const least = radius === largest ? 1 : 4 * largest * largest;
    const ids = areas.map((area, id) => (id > 0 && area >= least ? ++count : 0));
    for (let i = 0; i < labels.length; i++) if (seeds[i] > 0) labels[i] ||= ids[seeds[i]];
  }
  return growBack(labels, count, ink, width, height);
}

/** Grows ids over what the balls about the centers cover, by steps of 4-neighbors. */
function spread(ids, closed, narrow, radius, width, height) {
  const centers = narrow.map((value) => 1 - value);
  const covered = threshold(squaredDistance(centers, width, height), radius * radius);
  const barred = covered.map((value, i) => (value === 1 ? closed[i] : 1));
  flood(ids, barred, width, height);
}

/** Grows labels over all paper, nearest by steps first; what none reaches becomes regions of its own. */
function growBack(labels, count, ink, width, height) {
  flood(labels, ink, width, height);
  const closed = ink.slice();
  for (let i = 0; i < labels.length; i++) if (labels[i] > 0) closed[i] = 1;
  const rest = labelRegions(raster(closed, [width, height]), { of: 0 }).labels.data;
  for (let i = 0; i < labels.length; i++) if (rest[i] > 0) labels[i] = count + rest[i];
  return labels;
}

/** Carries ids over pixels that are not closed, step by step of 4-neighbors, until none is left. */
function flood(ids, closed, width, height) {
  const queue = new Int32Array(ids.length);
  let end = 0;
  for (let i = 0; i < ids.length; i++) if (ids[i] > 0) queue[end++] = i;
  const visit = (j, id) => {
    if (ids[j] > 0 || closed[j] === 1) return;
    ids[j] = id;
    queue[end++] = j;
  };
  for (let k = 0; k < end; k++) {
    const i = queue[k];
    const x = i % width;
    if (x > 0) visit(i - 1, ids[i]);
    if (x < width - 1) visit(i + 1, ids[i]);
    if (i >= width) visit(i - width, ids[i]);
    if (i < width * (height - 1)) visit(i + width, ids[i]);
  }
}

/** 1 where a value is at most `limit`. */
function threshold(values, limit) {
  const mask = new Uint8Array(values.length);
  for (let i = 0; i < mask.length; i++) if (values[i] <= limit) mask[i] = 1;
  return mask;
}

/**
 * Squared Euclidean distance of each pixel to the nearest one of the mask (Felzenszwalb, Huttenlocher
 * 2012, "Distance Transforms of Sampled Functions").
 */
export function squaredDistance(mask, width, height) {
  const far = (width + height) ** 2;
  const d = new Float64Array(mask.length);
  for (let i = 0; i < d.length; i++) d[i] = mask[i] === 1 ? 0 : far;
  const longest = Math.max(width, height);
  const line = new Float64Array(longest);
  const apex = new Int32Array(longest);
  const from = new Float64Array(longest + 1);
  const pass = (start, step, n) => {
    for (let i = 0; i < n; i++) line[i] = d[start + i * step];
    let k = 0;
    apex[0] = 0;
    from[0] = -4 * far;
    for (let q = 1; q < n; q++) {
      let p = apex[k];
      let s = (line[q] + q * q - line[p] - p * p) / (2 * (q - p));
      while (s <= from[k]) {
        p = apex[--k];
        s = (line[q] + q * q - line[p] - p * p) / (2 * (q - p));
      }
      apex[++k] = q;
      from[k] = s;
    }
    from[k + 1] = 4 * far;
    for (let q = 0, j = 0; q < n; q++) {
      while (from[j + 1] < q) j++;
      const p = apex[j];
      d[start + q * step] = (q - p) * (q - p) + line[p];
    }
  };
  for (let x = 0; x < width; x++) pass(x, width, height);
  for (let y = 0; y < height; y++) pass(y * width, 1, width);
  return d;
}
