import { describe, expect, it } from 'vitest';
import { formatColor, parseColor } from '../../src/color/hex.ts';
import { flatsArgument } from '../../src/palette/flats-argument.ts';
import { checkPalette, swatchIndex } from '../../src/palette/swatches.ts';
import type { FlatsLike, Swatch } from '../../src/palette/types.ts';
import { raster } from '../../src/raster/raster.ts';

const bare = { name: 'bare', color: '#000000' };
const fur = { name: 'fur', color: '#8A5D42' };

function flatsOf(change: object): FlatsLike {
  const indices = raster(new Uint8Array([0, 1, 1, 0]), [2, 2]);
  return { indices, palette: [bare, fur], ...change };
}

function many(count: number): Swatch[] {
  return [
    bare,
    ...Array.from({ length: count - 1 }, (_, i) => ({ name: `s${i}`, color: '#123456' })),
  ];
}

describe('colors', () => {
  it('are read in either case and written in lower', () => {
    expect(parseColor('#0aFf80', 'color')).toEqual([10, 255, 128]);
    expect(formatColor(10, 255, 128)).toBe('#0aff80');
    expect(formatColor(0, 0, 0)).toBe('#000000');
    expect(formatColor(255, 255, 255)).toBe('#ffffff');
  });

  it.each([
    ['0aff80', '; write #0aff80'],
    ['#0AF', '; write #00aaff'],
    ['0af', '; write #00aaff'],
    ['#0aff80ff', '; write #0aff80'],
    ['#0aff8g', ''],
    ['#0aff8', ''],
    [' #0aff80', ''],
    ['#0aff80\n', ''],
    ['', ''],
  ])('in another form are refused, the right one told: %j', (color, hint) => {
    expect(() => parseColor(color, 'backdrop')).toThrow(
      new RangeError(`backdrop must be a color '#rrggbb', got ${JSON.stringify(color)}${hint}`),
    );
  });

  it('of another kind are refused', () => {
    expect(() => parseColor(0xff as unknown as string, 'backdrop')).toThrow(TypeError);
  });
});

describe('checkPalette', () => {
  it('gives the swatches with colors in lower case, and nothing but name and color', () => {
    const noted = { ...fur, note: 'brown' };
    expect(checkPalette([bare, noted], 'palette', 'first')).toEqual([
      bare,
      { name: 'fur', color: '#8a5d42' },
    ]);
    expect(checkPalette([], 'palette', 'never')).toEqual([]);
    expect(checkPalette([fur], 'palette', 'either')).toHaveLength(1);
    expect(checkPalette([bare, fur], 'palette', 'either')).toHaveLength(2);
  });

  it.each([
    [
      'twice',
      [fur, { ...fur, color: '#000000' }],
      'palette[1].name must be unique in palette, got "fur"',
    ],
    [
      'empty',
      [{ name: '', color: '#000000' }],
      'palette[0].name must be a string that is not empty, got ""',
    ],
    ['bare', [bare], 'palette[0].name must be a name other than the reserved "bare", got "bare"'],
    [
      'color',
      [{ name: 'a', color: '#12' }],
      'palette[0].color must be a color \'#rrggbb\', got "#12"',
    ],
  ])('refuses a wrong value: %s', (_, palette, message) => {
    expect(() => checkPalette(palette, 'palette', 'never')).toThrow(new RangeError(message));
  });

  it('wants bare first where it belongs there', () => {
    expect(() => checkPalette([fur], 'palette', 'first')).toThrow(
      new RangeError('palette[0].name must be "bare", got "fur"'),
    );
    expect(() => checkPalette([], 'palette', 'first')).toThrow(RangeError);
    expect(() => checkPalette([fur, bare], 'palette', 'either')).toThrow(RangeError);
  });

  it('refuses another kind', () => {
    expect(() => checkPalette({} as Swatch[], 'palette', 'never')).toThrow(TypeError);
    expect(() => checkPalette([null] as unknown as Swatch[], 'palette', 'never')).toThrow(
      TypeError,
    );
    expect(() => checkPalette([{ color: '#000000' }] as Swatch[], 'palette', 'never')).toThrow(
      TypeError,
    );
  });

  it('holds 65,536 swatches with bare and no more', () => {
    expect(checkPalette(many(65_536), 'palette', 'first')).toHaveLength(65_536);
    expect(() => checkPalette(many(65_537), 'palette', 'first')).toThrow(
      new RangeError('palette must hold at most 65536 swatches, got 65537'),
    );
  });
});

describe('swatchIndex', () => {
  it('suggests the near name', () => {
    expect(swatchIndex([bare, fur], 'fur', 'name')).toBe(1);
    expect(() => swatchIndex([bare, fur], 'furr', 'name')).toThrow(
      new RangeError(
        'name must be the name of a swatch of the palette, got "furr"; did you mean "fur"?',
      ),
    );
  });
});

describe('flatsArgument', () => {
  it('takes any raster form of the indices', () => {
    const plain = { data: new Uint8Array([0, 1, 1, 0]), width: 2, height: 2 };
    const view = raster(new Uint8Array([0, 1, 1, 0]), [2, 2]);
    const cloned = structuredClone({ ...view, data: view.data, shape: view.shape });
    for (const indices of [plain, view, cloned, view.transpose(1, 0)]) {
      expect([...flatsArgument(flatsOf({ indices }), 'flats').indices.data]).toEqual([0, 1, 1, 0]);
    }
    const flipped = view.step(-1, 1);
    expect([...flatsArgument(flatsOf({ indices: flipped }), 'flats').indices.data]).toEqual([
      1, 0, 0, 1,
    ]);
  });

  it('wants Uint8 up to 256 swatches and Uint16 above', () => {
    const words = raster(new Uint16Array([0, 1, 1, 300]), [2, 2]);
    const bytes = raster(new Uint8Array(4), [2, 2]);
    expect(flatsArgument({ indices: words, palette: many(301) }, 'flats').palette).toHaveLength(
      301,
    );
    expect(() => flatsArgument({ indices: words, palette: many(256) }, 'flats')).toThrow(
      new TypeError(
        'flats.indices must be a Uint8 raster of shape [width, height] for a palette of up to 256 swatches, got Uint16Array(4)',
      ),
    );
    expect(() => flatsArgument({ indices: bytes, palette: many(257) }, 'flats')).toThrow(TypeError);
  });

  it('names the pixel whose index is past the palette', () => {
    const indices = raster(new Uint8Array([0, 1, 1, 2]), [2, 2]);
    expect(() => flatsArgument(flatsOf({ indices }), 'flats')).toThrow(
      new RangeError('flats.indices must be below the 2 swatches of the palette, got 2 at [1, 1]'),
    );
  });

  it('wants a ground that is a swatch other than bare', () => {
    expect(flatsArgument(flatsOf({ ground: 'fur' }), 'flats').ground).toBe('fur');
    expect(flatsArgument(flatsOf({}), 'flats')).not.toHaveProperty('ground');
    expect(() => flatsArgument(flatsOf({ ground: 'far' }), 'flats')).toThrow(
      /did you mean "fur"\?$/,
    );
    expect(() => flatsArgument(flatsOf({ ground: 'bare' }), 'flats')).toThrow(RangeError);
  });

  it('refuses what are no flats', () => {
    for (const value of [undefined, null, 7, {}, raster(new Uint8Array(4), [2, 2])]) {
      expect(() => flatsArgument(value as unknown as FlatsLike, 'flats')).toThrow(TypeError);
    }
    expect(() => flatsArgument(flatsOf({ palette: undefined }), 'flats')).toThrow(TypeError);
  });
});
