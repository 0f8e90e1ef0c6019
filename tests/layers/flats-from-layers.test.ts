import { describe, expect, it } from 'vitest';
import { flatsFromLayers } from '../../src/layers/flats-from-layers.ts';
import { raster } from '../../src/raster/raster.ts';

/** A layer of one row: `#` has the color, `.` is transparent. */
const row = (name: string, text: string, gray: number, more: object = {}) => ({
  name,
  pixels: raster(Uint8Array.from([...text].flatMap((letter) => [gray, letter === '#' ? 255 : 0])), [
    text.length,
    1,
    2,
  ]),
  ...more,
});

describe('flatsFromLayers', () => {
  it('gives a pixel to the upper layer, and bare where there is none', () => {
    const flats = flatsFromLayers([row('scarf', '.##..', 1), row('shell', '..##.', 2)]);
    expect([...flats.indices.data]).toEqual([0, 1, 1, 2, 0]);
    expect(flats.palette).toEqual([
      { name: 'bare', color: '#000000' },
      { name: 'scarf', color: '#010101' },
      { name: 'shell', color: '#020202' },
    ]);
    expect(flats.ground).toBeUndefined();
  });

  it('takes what lies on the picture, wherever the layer lies', () => {
    const layers = [
      row('a', '###', 1, { offset: [-2, 0] }),
      row('b', '###', 2, { offset: [3, 1] }),
    ];
    const flats = flatsFromLayers(layers, { size: [5, 2] });
    expect([...flats.indices.data]).toEqual([1, 0, 0, 0, 0, 0, 0, 0, 2, 2]);
    expect(flatsFromLayers(layers).indices.shape).toEqual([6, 2]);
    const away = [row('a', '#', 1, { offset: [0, -1] }), row('b', '#', 2, { offset: [9, 9] })];
    expect([...flatsFromLayers(away, { size: [1, 1] }).indices.data]).toEqual([0]);
  });

  it('puts the names of stacks before its own', () => {
    const { palette } = flatsFromLayers([row('scarf', '#', 1, { groups: ['heron', 'cloth'] })]);
    expect(palette[1]!.name).toBe('heron/cloth/scarf');
  });

  it('makes names unique, and one swatch of layers of one name and color', () => {
    const layers = [
      row('fur', '#...', 1),
      row('fur', '.#..', 2),
      row('fur', '..#.', 1),
      row('', '...#', 3),
    ];
    const { palette, indices } = flatsFromLayers(layers);
    expect(palette.map(({ name }) => name)).toEqual(['bare', 'fur', 'fur (2)', '#030303']);
    expect([...indices.data]).toEqual([1, 2, 1, 3]);
    expect(flatsFromLayers([row('bare', '#', 9)]).palette[1]!.name).toBe('#090909');
  });

  it('leaves out what is hidden, fully clear by its opacity, or the line', () => {
    const layers = [
      row('a', '#', 1, { visible: false }),
      row('b', '#', 2, { opacity: 0 }),
      row('c', '#', 3, { role: 'line' }),
      row('d', '#', 4),
    ];
    expect(flatsFromLayers(layers).palette.map(({ name }) => name)).toEqual(['bare', 'd']);
  });

  it('takes gray, RGB, RGBA and 16 bit', () => {
    const layers = [
      { name: 'gray', pixels: raster(new Uint8Array([7]), [1, 1]), offset: [0, 0] },
      { name: 'rgb', pixels: raster(new Uint8Array([1, 2, 3]), [1, 1, 3]), offset: [1, 0] },
      { name: 'rgba', pixels: raster(new Uint8Array([1, 2, 3, 255]), [1, 1, 4]), offset: [2, 0] },
      { name: 'deep', pixels: raster(new Uint16Array([257, 514, 771]), [1, 1, 3]), offset: [3, 0] },
    ] as const;
    const { palette, indices } = flatsFromLayers(layers);
    expect(palette.map(({ color }) => color).slice(1)).toEqual([
      '#070707',
      '#010203',
      '#010203',
      '#010203',
    ]);
    expect([...indices.data]).toEqual([1, 2, 3, 4]);
  });

  it('takes the ground that is named', () => {
    const layers = [row('scarf', '#.', 1), row('paper', '##', 9)];
    expect(flatsFromLayers(layers, { ground: 'paper' }).ground).toBe('paper');
    expect(() => flatsFromLayers(layers, { ground: 'papr' })).toThrow(/did you mean "paper"/);
    expect(() => flatsFromLayers(layers, { ground: 'bare' })).toThrow(RangeError);
  });

  it.each([
    [
      'two colors',
      { name: 'fur', pixels: raster(new Uint8Array([1, 1, 2]), [3, 1]) },
      /^layers\[0\] \("fur"\) must have one color, got #010101 and #020202 at \[2, 0\] of the layer; indexFlats/,
    ],
    [
      'soft edges',
      { name: 'fur', pixels: raster(new Uint8Array([1, 255, 1, 9]), [2, 1, 2]) },
      /must be opaque or fully transparent, got alpha 9 at \[1, 0\] of the layer; hardenEdges/,
    ],
    [
      'opacity',
      row('fur', '#', 1, { opacity: 0.5 }),
      /opacity must be 1, got 0.5; a layer that is no flats/,
    ],
    ['blending', row('fur', '#', 1, { mode: 'svg:multiply' }), /mode must be "svg:src-over"/],
    ['an offset that is none', row('fur', '#', 1, { offset: [0.5, 0] }), /offset must be \[x, y\]/],
    ['no name', { pixels: raster(new Uint8Array(1), [1, 1]) }, /name must be a string/],
    ['no layer', 'fur', /must be a layer/],
  ])('refuses a layer with %s', (_, layer, message) => {
    expect(() => flatsFromLayers([layer] as never)).toThrow(message);
  });

  it('refuses what is no list of layers', () => {
    expect(() => flatsFromLayers(3 as never)).toThrow(/layers must be a list of layers/);
    expect(() => flatsFromLayers({ layers: 3, size: [1, 1] } as never)).toThrow(TypeError);
    expect(() => flatsFromLayers([], { sizes: [1, 1] } as never)).toThrow(/did you mean "size"/);
    expect(flatsFromLayers([], { size: [2, 1] }).indices.data).toHaveLength(2);
  });
});
