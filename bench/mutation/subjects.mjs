// Which tests judge a folder, and what is left out.

/** Tests in other folders whose subject is this one, too. */
const ALSO = {
  distance: ['strokes/stroke-width', 'regions/grow'],
  fill: ['raster/out'],
  ink: ['raster/out'],
  measure: ['regions/scikit-image'],
  palette: ['raster/out'],
  passages: ['gaps/reduced-ink', 'raster/out'],
  polygon: ['raster/out'],
  regions: ['flats/page-cut', 'flats/list-regions', 'polygon/outline', 'fill/flood', 'raster/out'],
  runs: ['regions/*', 'fill/flood', 'polygon/outline-runs', 'passages/flood', 'flats/page-cut'],
};

export const testsOf = (folder) =>
  [`${folder}/*`, ...(ALSO[folder] ?? [])].map((name) => `tests/${name}.test.ts`);

/** Data that a program made. */
export const UNTOUCHED = ['src/gaps/model.ts'];

/** Tests of large drawings and rasters, which take seconds: what they alone would notice, survives. */
export const SLOW = [
  'agrees with colorjs.io 0.7.1 on every 499th of all colors',
  'keeps exact sums where areas squared pass 2^31, and takes a million regions',
  'gives the labels of 200 drawings back',
  'takes rasters past 65,535 and polygons of 100,000 points',
  'keep the number of components and of holes',
  'keeps the topology of worst cases, 1 × 70000',
  'keeps the topology of worst cases, 70000 × 1',
];
