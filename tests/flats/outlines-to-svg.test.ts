import { Resvg } from '@resvg/resvg-js';
import { describe, expect, it } from 'vitest';
import { outlinesToSvg } from '../../src/flats/outlines-to-svg.ts';
import { paintFlats } from '../../src/palette/paint-flats.ts';
import type { Flats } from '../../src/palette/types.ts';
import { outlineRegions } from '../../src/polygon/outline.ts';
import { raster } from '../../src/raster/raster.ts';
import { labelEqual } from '../../src/regions/label-equal.ts';
import { HOSTILE_NAMES, hostileFlats } from '../support/hostile-names.ts';
import { seeded } from '../support/random.ts';

const random = seeded(3);
const [w, h] = [40, 30];
const palette = ['bare', 'otter fur', 'otter/fur', 'region-1', 'scarf'].map((name, i) => ({
  name,
  color: `#${(0x102030 * i).toString(16).padStart(6, '0')}`,
}));
/** Blocks of 4 × 3 pixels, no bare one. */
const blocks = Uint8Array.from({ length: 100 }, () => 1 + Math.floor(random() * 4));
const flats: Flats = {
  indices: raster(
    Uint8Array.from(
      { length: w * h },
      (_, i) => blocks[10 * Math.floor(i / w / 3) + Math.floor((i % w) / 4)]!,
    ),
    [w, h],
  ),
  palette,
};
const { labels } = labelEqual(flats.indices);
const outlines = outlineRegions(labels);
const resolution = { x: 11811, y: 11811, unit: 'meter' } as const;

/** Every sample of the picture as resvg, an independent renderer, draws it. */
const drawn = (svg: string): Uint8Array =>
  new Resvg(svg, { fitTo: { mode: 'width', value: w }, font: { loadSystemFonts: false } }).render()
    .pixels;

describe('outlinesToSvg with flats', () => {
  const svg = outlinesToSvg(outlines, [w, h], { flats });

  it('drawn by resvg is the picture of the flats, in pixels and in millimeters', () => {
    expect([...drawn(svg)]).toEqual([...paintFlats(flats).data]);
    const inch = outlinesToSvg(outlines, [w, h], { flats, resolution });
    expect([...drawn(inch)]).toEqual([...paintFlats(flats).data]);
  });

  it('has a group for each swatch with its name, one path a region', () => {
    const groups = [...svg.matchAll(/<g id="([^"]*)" fill="([^"]*)">\n<title>([^<]*)<\/title>/g)];
    expect(groups.map(([, id, fill, title]) => [id, fill, title])).toEqual([
      ['otter_fur', '#102030', 'otter fur'],
      ['otter_fur-2', '#204060', 'otter/fur'],
      ['region-1-2', '#306090', 'region-1'],
      ['scarf', '#4080c0', 'scarf'],
    ]);
    expect(svg.match(/<path /g)).toHaveLength(outlines.length);
  });

  it('leaves bare regions without fill, and takes fill and title all the same', () => {
    const bare = { ...flats, indices: raster(new Uint8Array(w * h), [w, h]) };
    const one = outlineRegions(raster(new Int32Array(w * h).fill(7), [w, h]));
    expect(outlinesToSvg(one, [w, h], { flats: bare })).toContain('<g id="bare" fill="none">');
    const own = outlinesToSvg(one, [w, h], {
      flats: bare,
      fill: () => '#123456',
      title: () => '7',
    });
    expect(own).toContain('<path id="region-7" fill="#123456"');
  });

  it('gives simplified outlines the swatches that they had', () => {
    const rough = outlineRegions(labels, { simplify: 1 });
    const count = (text: string) =>
      text
        .split('<g id')
        .slice(1)
        .map((group) => group.match(/<path /g)!.length);
    expect(count(outlinesToSvg(rough, [w, h], { flats }))).toEqual(count(svg));
  });

  it('has valid, unique ids for hostile names, and their letters in the titles', () => {
    const hostile = hostileFlats();
    const [width] = hostile.indices.shape as [number];
    const each = outlineRegions(
      raster(
        Int32Array.from(hostile.indices.data, (i) => i + 1),
        [width, 1],
      ),
    );
    const text = outlinesToSvg(each, [width, 1], { flats: hostile });
    const ids = [...text.matchAll(/ id="([^"]*)"/g)].map(([, id]) => id!);
    expect(ids).toHaveLength(2 * (HOSTILE_NAMES.length + 1));
    expect(new Set(ids).size).toBe(ids.length);
    // Letters, digits and what else CSS and XML both take for a name, none of it in front.
    for (const id of ids)
      expect(id).toMatch(/^[\p{L}_\u{10000}-\u{effff}][\p{L}\p{M}\p{N}_.\-\u{10000}-\u{effff}]*$/u);
    expect(text).toContain('<title>狐の毛</title>');
    expect(text).toContain('<title>&lt;layer name=&quot;x&quot;/&gt;</title>');
    expect(() => new Resvg(text)).not.toThrow();
  });

  it('has its sides and coordinates in millimeters', () => {
    const square = outlineRegions(raster(new Int32Array(4).fill(1), [2, 2]));
    const halves = { x: 2000, y: 4000, unit: 'meter' } as const;
    const text = outlinesToSvg(square, [2, 2], { resolution: halves });
    expect(text).toContain('width="1mm" height="0.5mm" viewBox="0 0 1 0.5"');
    expect(text).toContain('d="M0 0L1 0L1 0.5L0 0.5z"');
  });

  it('refuses flats and resolutions that do not fit', () => {
    const svgOf = (options: object) => () => outlinesToSvg(outlines, [w, h], options);
    expect(svgOf({ flats: { ...flats, indices: raster(new Uint8Array(4), [2, 2]) } })).toThrow(
      'size must be that of flats, 2 × 2, got [40, 30]',
    );
    expect(svgOf({ flats: 3 })).toThrow(TypeError);
    expect(svgOf({ resolution: { x: 1, y: 1, unit: 'unknown' } })).toThrow(/unit must be "meter"/);
    expect(svgOf({ resolution: 300 })).toThrow(TypeError);
  });
});
