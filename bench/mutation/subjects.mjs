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

/**
 * Tests that take seconds, of large or many drawings, or that load OpenCV, by how their names begin: what
 * they alone would notice, survives.
 */
export const SLOW = [
  'agrees with colorjs.io 0.7.1 on every 499th of all colors',
  'answers as sealGaps does, in any order of settings, and keeps its ink',
  'are answered: a gradient',
  'are answered: a row of 70,000 pixels',
  'are made of the ink that the references are made of',
  'are refused, not listed and not dropped',
  'decides as it did, under any setting, and judges as it did',
  'equals OpenCV floodFill',
  'finds no swatch without pixels, in noise of any strength',
  'gives 65,535 different colors',
  'gives the labels of 200 drawings back',
  'goes past 65,535 columns and rows',
  'have no halo',
  'have the length of',
  'holds for 65536 swatches',
  'holds for worst cases and for the smallest and longest rasters',
  'is left as soon as it inflates to too much',
  'is refused before more is inflated than may be',
  'keep every pixel that is not blended, crisp',
  'keep the number of components and of holes',
  'keeps exact sums where areas squared pass 2^31, and takes a million regions',
  'keeps neighbors 20 apart where 65,535 regions fill a map',
  'keeps the topology of worst cases, 1 × 70000',
  'keeps the topology of worst cases, 70000 × 1',
  'lies alike in all symmetries',
  'looks through a palette of 65,535 colors',
  'may run past 65,535 pixels',
  'measures the same',
  'reads rows past 65,535 pixels',
  'refuse more colors with areas than there are numbers for',
  'reports its progress, and passes on what the report throws',
  'show the ground wherever it is laid',
  'survive JPEG at quality',
  'takes no quadratic time over many tiny chunks',
  'takes rasters past 65,535 and polygons of 100,000 points',
  'tells how far it has come, stage by stage, and gives the same flats',
  'works past 65,535 pixels a side',
];
