// The methods that the bench compares. To add one, add an entry, here or as an export of a file for
// `--method`: `settings` are the values of its settings (a grid of all their combinations is run), `run`
// gets what `study` makes of a drawing's ink once, and one setting, and gives Int32 labels of the paper,
// 0 where it leaves none.
import { labelRegions, passageTree, raster, studyGaps } from 'underink';
import { dilate, openByBalls } from './baselines.mjs';
import { drawLinks, studyLinks } from './link.mjs';

export const METHODS = {
  /** The paper as it is. */
  none: {
    settings: {},
    study: asRaster,
    run: (ink) => paperOf(ink),
  },
  /** Closes gaps up to twice the radius. */
  dilate: {
    settings: { radius: [4] },
    study: (one) => one,
    run: ({ ink, width, height }, { radius }) => dilate(ink, width, height, radius),
  },
  /** Ball opening with falling radius. */
  ball: {
    settings: { largest: [8] },
    study: (one) => one,
    run: ({ ink, width, height }, { largest }) => openByBalls(ink, width, height, largest),
  },
  /** Stroke ends joined one by one. */
  link: {
    settings: { maxGap: ['auto'], caution: [0.5] },
    study: studyLinks,
    run: (study, options) => {
      const { width, height } = study;
      return paperOf(raster(drawLinks(study, options), [width, height]));
    },
  },
  /** `passageTree` of the package. */
  tree: {
    settings: { maxGap: [12], ratio: [2.6] },
    study: (one) => passageTree(asRaster(one)),
    run: (tree, { maxGap, ratio }) => tree.partition(maxGap, { ratio }).data,
  },
  /** `sealGaps` of the package. */
  seal: {
    settings: { maxGap: ['auto'], caution: [0.5] },
    study: (one) => studyGaps(asRaster(one)),
    run: (study, options) => paperOf(study.seal(options).sealed),
  },
};

function asRaster({ ink, width, height }) {
  return raster(ink, [width, height]);
}

function paperOf(ink) {
  return labelRegions(ink, { of: 0 }).labels.data;
}

/**
 * The settings of a method to run: all combinations of its values, those of `given` (texts such as
 * `seal.maxGap=auto,8`) in place of its own. Each is `{ label, options }`.
 */
export function settingsOf(name, given, methods = METHODS) {
  const values = { ...methods[name].settings };
  for (const text of given) {
    const [, method, key, list] = /^(\w+)\.(\w+)=(.+)$/.exec(text) ?? [];
    if (!Object.hasOwn(methods, method ?? '')) {
      throw new RangeError(`--set must be method.setting=value,…, got ${JSON.stringify(text)}`);
    }
    if (method !== name) continue;
    values[key] = list
      .split(',')
      .map((value) => (Number.isNaN(Number(value)) ? value : Number(value)));
  }
  let grid = [{}];
  for (const [key, list] of Object.entries(values)) {
    grid = grid.flatMap((options) => list.map((value) => ({ ...options, [key]: value })));
  }
  return grid.map((options) => {
    const shown = Object.entries(options).map(([key, value]) => `${key} ${value}`);
    return { label: [name, ...shown].join(' '), options };
  });
}
