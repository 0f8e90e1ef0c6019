// The demo's sheet, laid as the demo lays it.
import { readFileSync } from 'node:fs';
import { composeSheet, inkCoverage, layFlats, raster, readPng } from 'underink';

const file = (name) => readFileSync(new URL(`../../examples/saltmarrow/${name}`, import.meta.url));
const json = (name) => JSON.parse(file(name).toString());

export const { pixels } = readPng(file('model-sheet.png'));
export const [width, height] = pixels.shape;
export const coverage = inkCoverage(pixels);
const drawn = json('plan.json');
const { marks, palette } = json('corrections.json');
/** The plan of the script that drew the sheet, without what a person changed. */
export const draft = drawn;
export const plan = {
  ...drawn,
  palette: [...drawn.palette, ...palette],
  marks: [...drawn.marks, ...marks],
};
/** The gaps that the drawing was given. */
export const gaps = json('gaps.json');
export const settings = { ground: 'ground', unnamed: 'claim' };
export const laid = layFlats(pixels, { plan, ...settings });
export const sheet = composeSheet(laid.flats, { line: pixels });

/** The flats with other indices. */
export function withIndices(indices) {
  return { ...laid.flats, indices: raster(indices, [width, height]) };
}

/** 0 paper to 255 ink, shown as black on white. */
export function asInk({ data, shape }, most = 255) {
  return raster(
    Uint8Array.from(data, (value) => 255 - (value * 255) / most),
    shape,
  );
}
