import { describe, expect, it } from 'vitest';
import { formatColor, parseColor } from '../../src/color/hex.ts';

describe('parseColor and formatColor', () => {
  it('are each other turned round, in lower case', () => {
    expect(parseColor('#0180ff', 'color')).toEqual([1, 128, 255]);
    expect(parseColor('#ABCDEF', 'color')).toEqual([0xab, 0xcd, 0xef]);
    expect(formatColor(1, 128, 255)).toBe('#0180ff');
    expect(formatColor(0, 0, 0)).toBe('#000000');
    for (let v = 0; v < 256; v++) {
      const samples = [v, 255 - v, (v * 7) & 255] as const;
      expect(parseColor(formatColor(...samples), 'color')).toEqual(samples);
    }
  });

  it.each([
    ['#fff', '; write #ffffff'],
    ['C84', '; write #cc8844'],
    ['C86400', '; write #c86400'],
    ['#c8640080', '; write #c86400'],
    ['c8640080', '; write #c86400'],
    ['#c86', '; write #cc8866'],
    ['#12345', ''],
    ['#1234567', ''],
    ['#123456789', ''],
    ['#12', ''],
    ['x#123456', ''],
    ['#123456x', ''],
    ['##fff', ''],
    ['#fffx', ''],
    ['#gggggg', ''],
    ['', ''],
  ])('%s is no color; the near form is told', (text, hint) => {
    expect(() => parseColor(text, 'color')).toThrow(
      new RangeError(`color must be a color '#rrggbb', got "${text}"${hint}`),
    );
  });

  it('what is no text is refused as such', () => {
    expect(() => parseColor(0xc86400 as never, 'color')).toThrow(TypeError);
  });
});
