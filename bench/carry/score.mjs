// What carrying over has got right, on a revision with known truth.
import { labelRegions, raster } from 'underink';

/** Pixels of the least true region of the revised drawing. */
const LEAST = 60;

/**
 * True regions of a revision: `{ labels, regions: { area, truth, touched }[] }`, by the pieces of its
 * unbroken paper, each of the old region that most of it belongs to; `touched` are those that truly
 * changed. Pieces that belong to none are left out.
 */
export function trueRegions({ truth, width, height, touched }) {
  const walls = Uint8Array.from(truth, (id) => (id === 0 ? 1 : 0));
  const { labels, count } = labelRegionsOf(truth, walls, width, height);
  const regions = Array.from({ length: count + 1 }, () => ({ area: 0, truth: 0, touched: false }));
  truth.forEach((id, p) => {
    if (id === 0) return;
    const region = regions[labels[p]];
    region.area++;
    region.truth = id;
    region.touched = touched.has(id);
  });
  regions[0].area = 0;
  return { labels, regions };
}

/** Connected pixels of one true id: the gaps of the ink part them as their ids do. */
function labelRegionsOf(truth, walls, width, height) {
  const split = Uint8Array.from(walls);
  for (let y = 0, p = 0; y < height; y++) {
    for (let x = 0; x < width; x++, p++) {
      const id = truth[p];
      if (id === 0) continue;
      const right = x + 1 < width ? truth[p + 1] : id;
      const under = y + 1 < height ? truth[p + width] : id;
      if ((right !== 0 && right !== id) || (under !== 0 && under !== id)) split[p] = 1;
    }
  }
  const { labels, count } = labelRegions(raster(split, [width, height]), { of: 0 });
  return { labels: labels.data, count };
}

/**
 * Compares carried flats, whose swatches are named by old ids, with the truth of a revision. A region
 * is right where most of its pixels have the swatch of its truth.
 *
 * `{ regions, wrong, unlisted, touched, listed, listedOthers, area, rightArea }`: `unlisted` are wrong
 * regions in which nothing that is to be looked at has its place; areas are of untouched regions.
 */
export function scoreFlats(revision, { flats, changes }) {
  const { truth, width } = revision;
  const { labels, regions } = trueRegions(revision);
  const right = new Int32Array(regions.length);
  const names = flats.palette.map(({ name }) => Number(name));
  let [area, rightArea] = [0, 0];
  truth.forEach((id, p) => {
    if (id === 0) return;
    const isRight = names[flats.indices.data[p]] === id;
    if (isRight) right[labels[p]]++;
    if (regions[labels[p]].touched) return;
    area++;
    if (isRight) rightArea++;
  });
  const looked = new Set();
  let listed = 0;
  for (const { look, at } of changes) {
    if (!look) continue;
    listed++;
    if (at !== undefined) looked.add(labels[Math.floor(at[1]) * width + Math.floor(at[0])]);
  }
  const lookedAt = placesOf(changes, flats, width);
  const counted = regions.map((region, id) => ({ ...region, id })).filter((r) => r.area >= LEAST);
  const wrong = counted.filter(({ id, area: all }) => 2 * right[id] < all);
  const unlisted = wrong.filter(({ id }) => !looked.has(id) && !lookedAt(labels, id));
  return {
    regions: counted.length,
    wrong: wrong.length,
    unlisted: unlisted.length,
    touched: counted.filter((r) => r.touched).length + revision.unions.length,
    listed,
    area,
    rightArea,
    wrongIds: wrong.map(({ id }) => id),
    unlistedIds: unlisted.map(({ id }) => id),
    labels,
  };
}

/** Whether a listed region of the new picture covers a true region, by the flats' own regions. */
function placesOf(changes, flats, width) {
  const { data, shape } = flats.indices;
  const listed = changes.filter(({ look, at }) => look && at !== undefined);
  const indices = new Set(
    listed.map(({ at }) => data[Math.floor(at[1]) * width + Math.floor(at[0])]),
  );
  return (labels, id) => {
    let [of, all] = [0, 0];
    for (let p = 0; p < shape[0] * shape[1]; p++) {
      if (labels[p] !== id) continue;
      all++;
      if (indices.has(data[p])) of++;
    }
    return 2 * of >= all;
  };
}
