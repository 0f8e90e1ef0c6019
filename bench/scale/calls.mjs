// The public calls whose work grows with the page. Each gives what it found, as a number or a text; what
// it works on is made before by `given`, and is not timed.
import * as underink from 'underink';

const { raster } = underink;

/** What calls work on, made when it is first asked for. */
export function inputsOf(data, width, height) {
  const size = [width, height];
  const made = {};
  const make = {
    ink: () => raster(data, size),
    coverage: () =>
      raster(
        data.map((v) => (v === 0 ? 0 : 255)),
        size,
      ),
    gray: () =>
      raster(
        data.map((v) => (v === 0 ? 255 : 0)),
        size,
      ),
    labels: (of) => underink.labelRegions(of('ink'), { of: 0 }).labels,
    grown: (of) => underink.growUnderInk(of('labels'), of('ink')),
    flats: (of) => {
      const palette = ['bare', 'shell', 'fur', 'scarf'].map((name, i) => ({
        name,
        color: `#${i}0${i}0${i}0`,
      }));
      const indices = Uint8Array.from(of('grown').data, (id) => 1 + (id % 3));
      return { indices: raster(indices, size), palette };
    },
    solid: (of) => underink.paintFlats(of('flats')),
    png: (of) => underink.writeFlats(of('flats')).bytes,
  };
  const of = (name) => {
    made[name] ??= make[name](of);
    return made[name];
  };
  return of;
}

const rings = (width, height) => [
  Array.from({ length: 1000 }, (_, i) => [
    ((i * 389) % 1000) * (width / 1000),
    ((i * 617) % 1000) * (height / 1000),
  ]),
];

/** By name: what a call needs, and the call. */
export const CALLS = {
  inkCoverage: { needs: ['gray'], run: (of) => underink.inkCoverage(of('gray')).size },
  ...Object.fromEntries(
    ['otsu', 'sauvola', 'hysteresis', 'auto'].map((method) => [
      `thresholdInk ${method}`,
      { needs: ['coverage'], run: (of) => underink.thresholdInk(of('coverage'), { method }).size },
    ]),
  ),
  removeSpecks: { needs: ['ink'], run: (of) => underink.removeSpecks(of('ink')).size },
  fillPinholes: { needs: ['ink'], run: (of) => underink.fillPinholes(of('ink')).size },
  strokeWidth: { needs: ['ink'], run: (of) => underink.strokeWidth(of('ink')).median },
  'labelRegions 4': {
    needs: ['ink'],
    run: (of) => underink.labelRegions(of('ink'), { of: 0 }).count,
  },
  'labelRegions 8': {
    needs: ['ink'],
    run: (of) => underink.labelRegions(of('ink'), { connectivity: 8 }).count,
  },
  labelEqual: { needs: ['ink'], run: (of) => underink.labelEqual(of('ink')).count },
  measureRegions: {
    needs: ['labels'],
    run: (of) => underink.measureRegions(of('labels')).area.length,
  },
  regionAdjacency: {
    needs: ['grown'],
    run: (of) => Object.keys(underink.regionAdjacency(of('grown'))).length,
  },
  growUnderInk: {
    needs: ['labels', 'ink'],
    run: (of) => underink.growUnderInk(of('labels'), of('ink')).size,
  },
  'growUnderInk coverage': {
    needs: ['labels', 'ink', 'coverage'],
    run: (of) => underink.growUnderInk(of('labels'), of('ink'), { coverage: of('coverage') }).size,
  },
  absorbRegions: {
    needs: ['grown'],
    run: (of) => underink.absorbRegions(of('grown'), { maxArea: 40 }).size,
  },
  outlineRegions: { needs: ['grown'], run: (of) => underink.outlineRegions(of('grown')).length },
  passageTree: { needs: ['ink'], run: (of) => underink.passageTree(of('ink')).partition(4).size },
  studyGaps: { needs: ['ink'], run: (of) => underink.studyGaps(of('ink')).seal().bridges.length },
  floodRegion: { needs: ['ink'], run: (of) => underink.floodRegion(of('ink'), [0, 0]).area },
  rasterizePolygon: {
    needs: [],
    run: (_, [w, h]) => underink.rasterizePolygon(rings(w, h), [w, h]).size,
  },
  indexFlats: { needs: ['solid'], run: (of) => underink.indexFlats(of('solid')).palette.length },
  findFringe: { needs: ['solid'], run: (of) => underink.findFringe(of('solid')).count },
  hardenEdges: { needs: ['solid'], run: (of) => underink.hardenEdges(of('solid')).palette.length },
  paintFlats: { needs: ['flats'], run: (of) => underink.paintFlats(of('flats')).size },
  findHalo: {
    needs: ['flats', 'coverage'],
    run: (of) => underink.findHalo(of('flats'), of('coverage')).count,
  },
  writeFlats: { needs: ['flats'], run: (of) => underink.writeFlats(of('flats')).bytes.length },
  readFlats: {
    needs: ['png'],
    run: (of) => underink.readFlats(of('png'), { maxPixels: 2 ** 30 }).flats.palette.length,
  },
  checkFlats: {
    needs: ['flats', 'ink'],
    run: (of) => underink.checkFlats(of('flats'), { ink: of('ink') }).length,
  },
  composeSheet: {
    needs: ['flats', 'gray'],
    run: (of) => underink.composeSheet(of('flats'), { line: of('gray') }).size,
  },
  layFlats: {
    needs: ['gray'],
    run: (of) => underink.layFlats(of('gray'), { unnamed: 'shared' }).report.regions,
  },
};
