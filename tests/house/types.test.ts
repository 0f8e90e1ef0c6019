import { describe, expect, it } from 'vitest';
import {
  checkFlats,
  defineCheck,
  draftPlan,
  type Flats,
  type FloodOptions,
  fillPolygon,
  floodFill,
  indexFlats,
  labelRegions,
  layFlats,
  type Mask,
  type MaskLike,
  measureRegions,
  type Pixels,
  paintFlats,
  passageTree,
  raster,
  rasterizePolygon,
  readPng,
  recolor,
  regionAdjacency,
  removeSpecks,
  type SmallPartOptions,
  selectSwatch,
  thresholdInk,
  writeFlats,
  writePng,
} from '../../src/index.ts';

/*
 * What a user writes under strict settings, without a cast: `npm run types` compiles it (strict,
 * exactOptionalPropertyTypes), and the tests run it.
 */
const art: Pixels<Uint8Array> = raster(new Uint8Array(16).fill(255), [2, 2, 4]);
const flats: Flats = recolor(indexFlats(art), { '#ffffff': '#c86400' });

describe('results stand on an ArrayBuffer', () => {
  it.skipIf(typeof ImageData === 'undefined')('for a canvas', () => {
    const pixels: Pixels<Uint8ClampedArray> = raster(new Uint8ClampedArray(16), [2, 2, 4]);
    expect(new ImageData(pixels.data, 2, 2).width).toBe(2);
  });

  it('for a Blob', async () => {
    const { bytes } = writeFlats(flats);
    const parts = [writePng(art), bytes, paintFlats(flats).data, flats.indices.data];
    expect(new Blob(parts).size).toBe(parts.reduce((sum, { length }) => sum + length, 0));
  });

  it('for a worker', () => {
    const mask: Mask = selectSwatch(flats, '#ffffff');
    const { labels } = labelRegions(mask);
    const ids: Int32Array<ArrayBuffer> = labels.data;
    const area: Int32Array<ArrayBuffer> = measureRegions(labels).area;
    const border: Int32Array<ArrayBuffer> = regionAdjacency(labels).borderLength;
    const read: Uint8Array<ArrayBuffer> | Uint16Array<ArrayBuffer> = readPng(writePng(art)).pixels
      .data;
    const ink: Uint8Array<ArrayBuffer> = layFlats(art).ink.data;
    const transfer = [ids, area, border, read, ink, thresholdInk(mask).data].map((d) => d.buffer);
    const { port1, port2 } = new MessageChannel();
    port1.postMessage(ids, transfer);
    port1.close();
    port2.close();
    expect(ids).toHaveLength(0);
  });
});

describe('arguments', () => {
  it('take shared memory and what structured clone leaves', () => {
    const shared: MaskLike = raster(new Uint8Array(new SharedArrayBuffer(4)).fill(1), [4, 1]);
    const out = raster(new Int32Array(new SharedArrayBuffer(16)), [4, 1]);
    expect(labelRegions(shared, { out }).count).toBe(1);
    const left = { data: new Uint8Array(4), shape: [4, 1], stride: [1, 4], offset: 0 };
    expect(labelRegions(left, { of: 0 }).count).toBe(1);
  });

  it('take undefined for every optional field, and options are read only', () => {
    const target = raster(new Uint8Array(4), [4, 1]);
    const options: FloodOptions = { connectivity: undefined, only: undefined, barrier: undefined };
    // @ts-expect-error options are read only
    options.tolerance = undefined;
    expect(floodFill(target, [0, 0], 1, options).changed).toBe(4);
    const none = { rule: undefined, only: undefined, barrier: undefined };
    expect(fillPolygon(target, [], 1, none).changed).toBe(0);
    expect(rasterizePolygon([], [4, 1], { rule: undefined, out: undefined }).size).toBe(4);
    const plain = { ...flats, ground: undefined };
    expect(paintFlats(plain, { transparentGround: undefined }).size).toBe(16);
    const specks: SmallPartOptions = { maxArea: undefined, connectivity: undefined };
    // @ts-expect-error options are read only
    specks.out = undefined;
    const ink = raster(new Uint8Array(4), [4, 1]);
    expect(removeSpecks(ink, specks).size).toBe(4);
    const tree = passageTree(ink);
    expect(tree.partition(0, { ratio: undefined, out: undefined }).size).toBe(4);
    expect(draftPlan(layFlats({ ink }), { reference: undefined }).marks).toHaveLength(1);
    const row = defineCheck('row', () => [{ message: 'a row', at: [0.5, 0.5], spans: undefined }]);
    expect(checkFlats(flats, { checks: [row] })).toHaveLength(1);
  });
});
