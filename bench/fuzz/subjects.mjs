// What is fuzzed: for each a case of a number, what errors it may give, and what its result must be.
import { unzipSync, zipSync } from 'fflate';
import {
  applyPlan,
  flatsFromLayers,
  LayersError,
  layFlats,
  openPage,
  PngError,
  raster,
  rasterizePolygon,
  readFlats,
  readLayers,
  readPng,
  readVariants,
  restoreStudy,
  studyGaps,
  writeFlats,
  writeLayers,
  writePng,
  writeVariants,
} from 'underink';
import { mutate, OF_BYTES } from './mutate.mjs';
import { mutateData } from './mutate-data.mjs';
import { numbers, pick } from './numbers.mjs';
import { polygonCase } from './polygons.mjs';

/** Pixels that a read may ask for. */
const MAX_PIXELS = 2 ** 20;
const [WIDTH, HEIGHT] = [32, 24];

function must(holds, what) {
  if (!holds) throw new Error(`wrong: ${what}`);
}

/** A frame with a gap, a wall across, and a loose stroke. */
function drawing() {
  const ink = raster(new Uint8Array(WIDTH * HEIGHT), [WIDTH, HEIGHT]);
  for (let x = 3; x < 29; x++) for (const y of [3, 20]) ink.set(x, y, 1);
  for (let y = 3; y < 21; y++) for (const x of [3, 16, 28]) ink.set(x, y, 1);
  for (let x = 21; x < 24; x++) ink.set(x, 3, 0);
  for (let y = 8; y < 15; y++) ink.set(9, y, 1);
  return ink;
}

const PALETTE = [
  { name: 'shell', color: '#d2603a' },
  { name: 'fur', color: '#8a5d42' },
];
const PLAN = {
  version: 1,
  size: [WIDTH, HEIGHT],
  palette: PALETTE,
  settings: {
    ...{ maxGap: 6, caution: 0.5, absorb: 2, unnamed: 'each' },
    ground: { name: 'sea', color: '#406080' },
    coverage: { paper: 'auto' },
    threshold: { method: 'fixed', level: 127 },
  },
  marks: [
    { point: [6.5, 6.5], swatch: 'shell', note: 'the crab' },
    {
      polygon: [
        [
          [18, 6],
          [25, 6],
          [25, 12],
          [18, 12],
        ],
      ],
      swatch: 'fur',
      over: true,
    },
    { fill: [20.5, 17.5], swatch: 'fur' },
    {
      cut: [
        [17, 15],
        [28, 15],
      ],
    },
    {
      join: [
        [12.5, 6.5],
        [6.5, 12.5],
      ],
    },
    {
      bridge: [
        [9.5, 8.5],
        [9.5, 3.5],
      ],
    },
    {
      open: [
        [20.5, 3.5],
        [24.5, 3.5],
      ],
    },
  ],
};
const INK = drawing();
const COVERAGE = raster(
  INK.data.map((v) => 255 * v),
  [WIDTH, HEIGHT],
);
const STUDY = studyGaps(INK, { coverage: COVERAGE });
const LAID = layFlats({ ink: INK }, { maxGap: 6 });
const NO_SETTINGS = { ...PLAN, settings: undefined };

/** An error of ours: those of the engine's own name no argument that must be something. */
const isArgumentError = (error) =>
  (error instanceof TypeError || error instanceof RangeError) &&
  / must | has no /.test(error.message);
/** Flats in which every pixel has a swatch. */
function checkFlats({ indices, palette }) {
  must(indices.data.length === WIDTH * HEIGHT, 'the size of the flats');
  must(
    indices.data.every((index) => index < palette.length),
    'an index past the palette',
  );
}

const PNG = (files) => ({
  make: (number) => {
    const { kind, bytes } = mutate(files, number);
    const read = number % 2 === 0 ? readPng : readFlats;
    // every fourth with the default limit: so short a file cannot hold a picture that large
    const options = number % 4 === 0 ? {} : { maxPixels: MAX_PIXELS };
    return { kind, run: () => read(bytes, options) };
  },
  // a sound picture that is no flats is a RangeError
  allows: (error) =>
    error instanceof PngError ||
    (error instanceof RangeError && /^(pixels|the picture) must/.test(error.message)),
  check: ({ pixels }) => {
    if (pixels === undefined || pixels.size > 4096) return;
    const again = readPng(writePng(pixels)).pixels;
    must(Buffer.compare(bytesOf(again), bytesOf(pixels)) === 0, 'a picture written and read');
  },
});
const bytesOf = ({ data }) => Buffer.from(data.buffer, data.byteOffset, data.byteLength);

const LAYERS = () => {
  const files = [{}, { layers: 'flats' }, { groups: true }].map((options) =>
    writeLayers(LAID.flats, {
      line: raster(new Uint8Array(WIDTH * HEIGHT * 4), [WIDTH, HEIGHT, 4]),
      ...options,
    }),
  );
  const unzipped = files.map((file) => unzipSync(file));
  return {
    make: (number) => {
      const random = numbers(number);
      const k = random(files.length);
      if (random(3) === 0) {
        const kind = pick(Object.keys(OF_BYTES), random);
        const bytes = OF_BYTES[kind](files[k], random);
        return { kind, run: () => readLayers(bytes, { maxPixels: MAX_PIXELS }) };
      }
      const parts = { ...unzipped[k] };
      const name = pick(Object.keys(parts), random);
      const [kind, changed] = changedPart(name, parts[name], number, random);
      if (changed === undefined) delete parts[name];
      else parts[name] = changed;
      const bytes = zipSync(parts, { level: random(2) === 0 ? 0 : 6 });
      return { kind, run: () => readLayers(bytes, { maxPixels: MAX_PIXELS }) };
    },
    allows: (error) => error instanceof LayersError,
    check: (picture) => {
      try {
        flatsFromLayers(picture.layers, { size: picture.size });
      } catch (error) {
        if (!isArgumentError(error)) throw error;
      }
    },
  };
};

/** A file of a layered picture with something done to it; undefined where it is taken out. */
function changedPart(name, part, number, random) {
  if (random(6) === 0) return ['file dropped', undefined];
  if (name.endsWith('.png')) {
    const { kind, bytes } = mutate([part], number);
    return [`layer, ${kind}`, bytes];
  }
  return ['text', Buffer.from(mutateText(Buffer.from(part).toString(), random))];
}

const PIECES = [
  '"',
  "'",
  '<',
  '>',
  '/>',
  '&',
  '&amp;',
  '&#0;',
  '\n',
  '\r\n',
  ',',
  ';',
  '=',
  '-1',
  '1e9',
  '#',
  '\ud800',
  '<!--',
  ']]>',
  '<stack>',
  '</stack>',
  '<!DOCTYPE a [<!ENTITY b "c">]>',
  'name="x"',
  '\ufeff',
];

function mutateText(text, random) {
  for (let n = random(3); n >= 0; n--) {
    const [a, b] = [random(text.length + 1), random(30)];
    const rest = text.slice(a + (random(2) === 0 ? b : 0));
    text = text.slice(0, a) + pick([...PIECES, text.slice(b, 3 * b), ''], random) + rest;
  }
  return text;
}

const TABLE = {
  versions: ['day', 'night; "late"', 'fog'],
  rows: [
    { swatch: 'shell', colors: ['#d2603a', '#402060', null] },
    { swatch: '=fur, "thick"', colors: ['#8a5d42', null, '#aabbcc'] },
    { swatch: 'scarf\nlong', colors: [null, null, null] },
  ],
};

/** Data that is restored; what is changed must be refused. */
function saved(data, restore, resealed) {
  return {
    make: (number) => {
      const random = numbers(number);
      const { kind, data: changed } = mutateData(data, random);
      const sealedAnew = resealed !== undefined && random(2) === 0;
      const given = sealedAnew ? resealed(changed) : changed;
      const same = sealedAnew || isSame(given, data);
      return {
        kind: sealedAnew ? `${kind}, with its sum` : kind,
        run: () => [restore(given), same],
      };
    },
    allows: isArgumentError,
    check: ([, same]) => must(same, 'damaged data is taken'),
  };
}

/** Whether two values of plain data say the same; −0 and 0 do, and a field left undefined. */
function isSame(a, b) {
  if (typeof a !== 'object' || a === null || typeof b !== 'object' || b === null) {
    return a === b;
  }
  if (Object.prototype.toString.call(a) !== Object.prototype.toString.call(b)) return false;
  if ('length' in a && a.length !== b.length) return false;
  const keys = new Set([...Object.keys(a), ...Object.keys(b)]);
  for (const key of keys) if (!isSame(a[key], b[key])) return false;
  return true;
}

/** All subjects by name; `resealed` puts the right sum on saved data, `files` are PNGs. */
export function subjects({ files, resealed }) {
  const page = openPage({ ink: INK, coverage: COVERAGE }, { plan: PLAN });
  const pixels = openPage(
    raster(
      COVERAGE.data.map((v) => 255 - v),
      [WIDTH, HEIGHT],
    ),
    { plan: PLAN },
  );
  const updated = openPage({ ink: INK, coverage: COVERAGE }, { study: STUDY });
  return {
    png: PNG(files),
    layers: LAYERS(),
    'saved page': saved(page.save(), (given) => workOn(openPage(given)), resealed),
    'saved page of pixels': saved(pixels.save(), (given) => workOn(openPage(given)), resealed),
    'saved study': saved(STUDY.save(), (given) => restoreStudy(given).seal(), resealed),
    plan: {
      make: (number) => {
        const random = numbers(number);
        const { kind, data } = mutateData(NO_SETTINGS, random);
        const outside = random(2) === 0 ? 'error' : 'report';
        return { kind, run: () => applyPlan(LAID.labels, data, { ink: INK, outside }) };
      },
      allows: isArgumentError,
      check: ({ flats }) => checkFlats(flats),
    },
    'plan of a page': {
      make: (number) => {
        const { kind, data } = mutateData(PLAN, numbers(number));
        return { kind, run: () => updated.update(data) };
      },
      allows: isArgumentError,
      check: ({ flats }) => checkFlats(flats),
    },
    variants: {
      make: (number) => {
        const random = numbers(number);
        const separator = pick([',', ';', '\t'], random);
        const text = mutateText(writeVariants(TABLE, { separator }), random);
        return { kind: 'text', run: () => readVariants(text, { separator }) };
      },
      allows: (error) => error instanceof RangeError && /^(csv|the color of) /.test(error.message),
      check: (table) => {
        must(isSame(readVariants(writeVariants(table)), table), 'a table written and read');
      },
    },
    polygon: {
      make: (number) => polygonCase(numbers(number), rasterizePolygon, must),
      allows: isArgumentError,
      check: () => undefined,
    },
  };
}

/** What a restored page is asked for. */
function workOn(page) {
  for (let x = 0; x < WIDTH; x += 5) page.regionAt([x, 7]);
  page.composeWithin([0, 0, WIDTH, HEIGHT]);
  page.update({ ...PLAN, marks: PLAN.marks.slice(0, 3) });
}

/** Sound files of PNG kinds that this library writes. */
export function ownFiles() {
  const noise = (length) => Uint8Array.from({ length }, (_, i) => (i * i * 37) >> 3);
  const pixels = [1, 2, 3, 4].map((c) => raster(noise(35 * c), [7, 5, c]));
  const wide = raster(
    Uint16Array.from(noise(105), (v) => v * 257),
    [7, 5, 3],
  );
  const flats = (swatches) => ({
    indices: raster(
      (swatches > 256 ? Uint16Array : Uint8Array).from(noise(35), (v) => v % swatches),
      [7, 5],
    ),
    palette: Array.from({ length: swatches }, (_, i) => ({
      name: i === 0 ? 'bare' : `swatch ${i}`,
      color: `#${i.toString(16).padStart(6, '0')}`,
    })),
  });
  const resolution = { x: 11811, y: 11811, unit: 'meter' };
  return [
    ...[...pixels, wide].map((picture) => writePng(picture, { resolution })),
    ...[5, 256, 300].map((swatches) => writeFlats(flats(swatches), { resolution }).bytes),
  ];
}
