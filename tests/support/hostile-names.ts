import type { Flats } from '../../src/palette/types.ts';
import { raster } from '../../src/raster/raster.ts';

/** Names that XML, file systems, spreadsheets or programs stumble over. */
export const HOSTILE_NAMES: readonly string[] = [
  'heron/scarf',
  'heron\\scarf',
  '../../etc/passwd',
  '/',
  'a/',
  '/a',
  'CON',
  'con',
  'nul.png',
  'Scarf',
  'scarf',
  'scarf.',
  'scarf ',
  ' scarf',
  '<layer name="x"/>',
  '&amp;',
  ']]>',
  '"quoted"',
  "it's",
  'line\nfeed\tand tab\r',
  '\u0000zero',
  '\u001b[31mred',
  '\ud800 alone',
  '\uffff',
  '\ufffe/\u0001',
  'é',
  'e\u0301',
  '狐の毛',
  '🦊 fur',
  '\u202eright to left',
  '\u00a0',
  '=SUM(A1:A9)',
  '+1',
  '-2',
  '@cmd',
  'a,b;c\td',
  '__proto__',
  'constructor',
  'x'.repeat(300),
];

/** A pixel of each name, in a color of its own. */
export function hostileFlats(): Flats {
  const palette = ['bare', ...HOSTILE_NAMES].map((name, i) => ({
    name,
    color: `#0000${i.toString(16).padStart(2, '0')}`,
  }));
  return {
    indices: raster(
      Uint8Array.from(palette, (_, i) => i),
      [palette.length, 1],
    ),
    palette,
    ground: '🦊 fur',
  };
}
