// Which tests judge a folder, and what is left out.

/** Tests in other folders whose subject is this one, too. */
const ALSO = {
  measure: ['regions/scikit-image'],
  passages: ['gaps/reduced-ink'],
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
  'agrees with OpenCV fillPoly',
  'agrees with colorjs.io 0.7.1 on every 499th of all colors',
  'agrees with resvg crisp edges',
  'answers as sealGaps does, in any order of settings, and keeps its ink',
  'are answered: a gradient',
  'are answered: a row of 70,000 pixels',
  'are cleared of their paper alike',
  'are found from half the threshold up to it',
  'are hardened alike with',
  'are made of the ink that the references are made of',
  'are refused, not listed and not dropped',
  'checks against a palette, and ends with 2',
  'closes gaps in strokes 2 wide',
  'closes gaps in strokes 8 wide',
  'decides as it did, under any setting, and judges as it did',
  'ends with 0 on clean sheets',
  'ends with 1 on a finding',
  'ends with what the callback throws',
  'equals OpenCV floodFill',
  'finds no swatch without pixels, in noise of any strength',
  'finds the ink under',
  'finds the same components',
  'gives 65,535 different colors',
  'gives a picture or a PngError',
  'gives back "',
  'gives the labels of 200 drawings back',
  'goes past 65,535 columns and rows',
  'have no halo',
  'have the length of',
  'have the same coverage',
  'have the same fringe, of the same pairs',
  'have the same paper',
  'holds for 65536 swatches',
  'holds for worst cases and for the smallest and longest rasters',
  'holds past 65,535 columns and rows',
  'is 255 minus gray, for every gray of 8 and of 16 bits',
  'is left as soon as it inflates to too much',
  'is refused before more is inflated than may be',
  'is where no gap is looked for',
  'keep every pixel that is not blended, crisp',
  'keep the number of components and of holes',
  'keeps any flats, swatches without pixels and more than 256 of them too',
  'keeps exact sums where areas squared pass 2^31, and takes a million regions',
  'keeps neighbors 20 apart where 65,535 regions fill a map',
  'keeps the topology of worst cases, 1 × 70000',
  'keeps the topology of worst cases, 70000 × 1',
  'labels and measures the paper between ink and bridges',
  'lays something everywhere, whatever it gets',
  'lays the same colors in all symmetries and views',
  'lies alike in all symmetries',
  'looks through a palette of 65,535 colors',
  'lose the same specks and pinholes',
  'may run past 65,535 pixels',
  'measures the same',
  'puts what is beyond 10,000 places in one finding',
  'reads every view and gives the same in mirrored pictures of whole blocks',
  'reads rows past 65,535 pixels',
  'refuse more colors with areas than there are numbers for',
  'reports its progress, and passes on what the report throws',
  'show the ground wherever it is laid',
  'survive JPEG at quality',
  'takes no quadratic time over many tiny chunks',
  'takes rasters past 65,535 and polygons of 100,000 points',
  'still tile the plane and keep within the limit',
  'takes undefined for every option',
  'tells how far it has come, stage by stage, and gives the same flats',
  'works past 65,535 pixels a side',
];
