// What is timed: each operation of a build of the library, with what its peers call it.
import { localPolygons, pagePolygons } from '../corrections/polygons.mjs';

/**
 * Operations of the library over a page: `{ name, target, own, native, by?, request?, copy?, needs }`.
 * `own` gives typed arrays to sum up, with `ms` where only a part of it counts; `native` is the job of
 * the peers, `by` another library of `peer.py`, `request` what it needs; `copy` copies as many bytes
 * and is the peer where it is given. `needs` make what an operation is done to, memory touched already;
 * the call that is timed is not among what they do for it.
 */
export function operationsOn({ data, width, height }, lib) {
  const { findFringe, floodFill, growUnderInk, hardenEdges, labelRegions, layFlats } = lib;
  const { measureRegions, paintFlats, raster, readFlats, remapFlats } = lib;
  const { squaredDistance, thresholdInk, writeFlats } = lib;
  const size = [width, height];
  const coverage = once(() =>
    raster(
      data.map((tone) => 255 - tone),
      size,
    ),
  );
  const ink = once(() => thresholdInk(coverage(), { method: 'fixed', level: 128 }));
  const maskOut = once(() => raster(new Uint8Array(data.length).fill(1), size));
  const paper = once(() => labelRegions(ink(), { of: 0 }));
  const labelsOut = once(() => raster(new Int32Array(data.length).fill(1), size));
  const label = (of, connectivity, out) => () => {
    const options = { of, connectivity, ...(out && { out: labelsOut() }) };
    return [labelRegions(ink(), options).labels.data];
  };
  const flats = once(() => {
    const labels = growUnderInk(paper().labels, ink());
    const indices = raster(
      Uint8Array.from(labels.data, (id) => 1 + (id % 250)),
      size,
    );
    const palette = Array.from({ length: 251 }, (_, i) => ({
      name: i === 0 ? 'bare' : `swatch ${i}`,
      color: `#${((i * 99_991 + 4_096) & 0xffffff).toString(16).padStart(6, '0')}`,
    }));
    return { indices, palette };
  });
  const pixels = once(() => paintFlats(flats()));
  const indicesOut = once(() => raster(new Uint8Array(data.length).fill(1), size));
  const table = once(() => {
    const names = flats()
      .palette.slice(1)
      .map(({ name }) => name);
    return Object.fromEntries(names.map((name, i) => [name, names[(7 * i) % names.length]]));
  });
  const threshold = (options) => () => [
    thresholdInk(coverage(), { ...options, out: maskOut() }).data,
  ];
  const masking = { needs: [coverage, maskOut] };
  const sauvola = { method: 'sauvola', window: 51, k: 0.2 };
  const seeds = once(() => seedsOf(paper(), measureRegions, 200));
  const ofPixels = { copy: () => pixels().data.slice(), needs: [pixels] };
  return [
    op(
      'gray to ink mask, fixed level',
      1.5,
      threshold({ method: 'fixed', level: 128 }),
      'mask',
      masking,
    ),
    op('Otsu and mask', 1.3, threshold({ method: 'otsu' }), 'otsu', masking),
    op('Sauvola, window 51', 0.04, threshold(sauvola), 'sauvola', {
      by: 'scikit-image',
      ...masking,
    }),
    op('Sauvola beside an adaptive mean', 4, threshold(sauvola), 'adaptive', masking),
    op('labeling, 4-connected, into `out`', 0.2, label(0, 4, true), 'label4', {
      needs: [ink, labelsOut],
    }),
    op('labeling, 4-connected, fresh', 0.5, label(0, 4), 'label4', { needs: [ink] }),
    op('labeling, 4-connected, fresh', undefined, label(0, 4), 'label4', {
      by: 'scikit-image',
      needs: [ink],
    }),
    op('labeling, 8-connected, into `out`', 0.4, label(1, 8, true), 'label8', {
      needs: [ink, labelsOut],
    }),
    op('labeling, 8-connected, fresh', 0.4, label(1, 8), 'label8', { needs: [ink] }),
    op(
      'labeling and measures',
      undefined,
      () => {
        const { labels } = labelRegions(ink(), { of: 0, out: labelsOut() });
        return [measureRegions(labels).area];
      },
      'measured',
      { needs: [ink, labelsOut] },
    ),
    op(
      'flood of 200 regions',
      0.4,
      () => {
        const target = raster(data.slice(), size);
        return timed(() => {
          for (const seed of seeds()) floodFill(target, seed, 77);
          return [target.data];
        });
      },
      'flood',
      { request: () => ({ seeds: seeds() }), needs: [seeds] },
    ),
    ...polygonOps(data, size, lib),
    op(
      'exact distance, whole page',
      0.8,
      () => [squaredDistance(ink().data, width, height)],
      'distance',
      { needs: [ink] },
    ),
    op(
      'growing under ink',
      0.15,
      () => [growUnderInk(paper().labels, ink(), { out: labelsOut() }).data],
      'distance',
      { needs: [paper, labelsOut] },
    ),
    op('flats to RGBA', 1.1, () => [paintFlats(flats()).data], undefined, {
      ...ofPixels,
      needs: [flats],
    }),
    op(
      'index remap, into `out`',
      1.1,
      () => [remapFlats(flats(), table(), { out: indicesOut() }).indices.data],
      undefined,
      { copy: () => indicesOut().data.set(flats().indices.data), needs: [table, indicesOut] },
    ),
    op('index remap, fresh', 1.3, () => [remapFlats(flats(), table()).indices.data], undefined, {
      copy: () => flats().indices.data.slice(),
      needs: [table],
    }),
    op('findFringe', 3, () => [findFringe(pixels()).mask.data], undefined, ofPixels),
    op('hardenEdges', 4, () => [hardenEdges(pixels()).indices.data], undefined, ofPixels),
    op('layFlats', 2.5, () => [layFlats(raster(data, size)).labels.data], 'whole'),
    op(
      'write and read flats',
      1.15,
      () => {
        const { bytes } = writeFlats(flats());
        return [readFlats(bytes).flats.indices.data];
      },
      'files',
      { needs: [flats] },
    ),
  ];
}

function polygonOps(data, [width, height], { fillPolygon, raster }) {
  const kinds = [
    ['1,000 polygons across the page', 1.2, once(() => pagePolygons(1000, width, height))],
    ['1,000 polygons of 50 to 1500 px', 1.5, once(() => localPolygons(1000, width, height))],
  ];
  return kinds.map(([name, target, polygons]) =>
    op(
      name,
      target,
      () => {
        const page = raster(data.slice(), [width, height]);
        // OpenCV's whole coordinates are centers of pixels.
        const rings = polygons().map((ring) => ring.map(([x, y]) => [x + 0.5, y + 0.5]));
        return timed(() => {
          rings.forEach((ring, k) => {
            fillPolygon(page, [ring], (k % 250) + 1);
          });
          return [page.data];
        });
      },
      'polygons',
      { request: () => ({ rings: polygons() }), needs: [polygons] },
    ),
  );
}

function op(name, target, own, native, { needs = [], ...more } = {}) {
  return { name, target, own, native, needs, ...more };
}

/** What is timed inside a call that first makes its own copy. */
function timed(run) {
  const start = performance.now();
  const result = run();
  return Object.assign(result, { ms: performance.now() - start });
}

function once(make) {
  let made;
  return () => {
    made ??= make();
    return made;
  };
}

/** The first pixel of each of the largest regions. */
function seedsOf({ labels }, measureRegions, most) {
  const { area } = measureRegions(labels);
  const [width] = labels.shape;
  const first = new Int32Array(area.length).fill(-1);
  for (let i = labels.data.length - 1; i >= 0; i--) first[labels.data[i]] = i;
  return Array.from({ length: area.length - 1 }, (_, k) => k + 1)
    .sort((a, b) => area[b] - area[a])
    .slice(0, most)
    .map((id) => [first[id] % width, Math.floor(first[id] / width)]);
}
