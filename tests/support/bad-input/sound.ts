/** Arguments that every call takes, made anew at each call: a ring of ink on 6 × 5 pixels. */
import * as underink from '../../../src/index.ts';
import { H, W } from './kinds.ts';

const SIZE = W * H;
const { raster } = underink;

/** Paper inside of the ring and out. */
const RING = '000000 011110 010010 011110 000000'.replaceAll(' ', '').split('').map(Number);
const INSIDE = [14, 15];

export const ink = (): underink.Mask => raster(Uint8Array.from(RING), [W, H]);
export const coverage = (): underink.Coverage =>
  raster(
    Uint8Array.from(RING, (v) => 255 * v),
    [W, H],
  );
/** Region 1 outside, 2 inside, ink 0. */
export const labels = (): underink.Labels =>
  raster(
    Int32Array.from(RING, (v, i) => (v === 1 ? 0 : INSIDE.includes(i) ? 2 : 1)),
    [W, H],
  );
/** The same without ink. */
export const grown = (): underink.Labels =>
  raster(
    Int32Array.from(RING, (v, i) => (v === 1 || INSIDE.includes(i) ? 2 : 1)),
    [W, H],
  );
export const gray = (): underink.Pixels<Uint8Array> =>
  raster(
    Uint8Array.from(RING, (v) => 255 - 255 * v),
    [W, H],
  );
export const rgb = (): underink.Pixels<Uint8Array> =>
  raster(
    Uint8Array.from({ length: 3 * SIZE }, (_, k) => (RING[Math.floor(k / 3)] === 1 ? 40 : 255)),
    [W, H, 3],
  );
export const palette = (): underink.Swatch[] => [
  { name: 'bare', color: '#000000' },
  { name: 'ground', color: '#ffffff' },
  { name: 'fur', color: '#8a5d43' },
  { name: 'scarf', color: '#d2603a' },
];
export const swatches = (): underink.Swatch[] => palette().slice(1);
export const flats = (): underink.Flats => ({
  indices: raster(
    Uint8Array.from(RING, (v) => 1 + v),
    [W, H],
  ),
  palette: palette(),
  ground: 'ground',
});
export const settings = (): underink.PlanSettings => ({
  coverage: { paper: 'white', dropHue: { hue: 210, tolerance: 35, minChroma: 24 } },
  threshold: { method: 'fixed', level: 127 },
  maxGap: 3,
  caution: 0.5,
  absorb: 0,
  ground: 'ground',
  unnamed: 'each',
});
export const plan = (): underink.Plan => ({
  version: 1,
  size: [W, H],
  palette: swatches(),
  marks: [{ point: [2.5, 2.5], swatch: 'fur', over: false, note: 'inside' }],
  settings: {
    ...settings(),
    exceptions: [
      { check: 'bare', at: [1, 1], bounds: [0, 0, W, H], swatch: 'fur', note: 'as it ought to be' },
    ],
  },
});
export const laid = (): underink.LaidFlats => underink.layFlats({ ink: ink() });
export const findings = (): Record<string, unknown>[] => [
  {
    check: 'bare',
    severity: 'error',
    message: 'two pixels are bare',
    at: [2.5, 2.5],
    bounds: [2, 2, 4, 3],
    area: 2,
  },
];
export const outBytes = (): underink.Mask => raster(new Uint8Array(SIZE), [W, H]);
export const outIds = (): underink.Labels => raster(new Int32Array(SIZE), [W, H]);
export const resolution = (): underink.Resolution => ({ x: 11811, y: 11811, unit: 'meter' });
export const tableOf = (): underink.VariantTable => ({
  versions: ['day', 'night'],
  rows: [
    { swatch: 'ground', colors: ['#ffffff', '#101830'] },
    { swatch: 'fur', colors: ['#8a5d43', null] },
    { swatch: 'scarf', colors: ['#d2603a', '#502010'] },
  ],
});
export const sheets = (): underink.NamedFlats[] => [{ name: 'heron', flats: flats() }];
export const inkPage = (): underink.Page => underink.openPage({ ink: ink() });
