import { describe, expect, it } from 'vitest';
import { layFlats } from '../../src/flats/lay-flats.ts';
import { recolor } from '../../src/palette/recolor.ts';
import { selectSwatch } from '../../src/palette/select-swatch.ts';
import { readFlats } from '../../src/png/read-flats.ts';
import { writeFlats } from '../../src/png/write-flats.ts';
import { drawings } from './drawings.ts';

describe('laid flats, recolored', () => {
  const all = drawings(4, 192, 311).map(({ name, pixels }) => ({ name, ...layFlats(pixels) }));

  it.each(all)('$name: a swatch is picked to the same pixel', ({ flats }) => {
    const name = flats.palette.at(-1)!.name;
    const before = selectSwatch(flats, name);
    const written = readFlats(writeFlats(recolor(flats, { [name]: '#123456' })).bytes).flats;
    expect(written.palette.at(-1)).toEqual({ name, color: '#123456' });
    expect(selectSwatch(written, name).data).toEqual(before.data);
    expect(before.data).toContain(1);
  });

  it.each(all)('$name: the old colors give the old file, byte by byte', ({ flats }) => {
    const { bytes } = writeFlats(flats);
    const names = flats.palette.slice(1).map(({ name }) => name);
    const night = recolor(flats, Object.fromEntries(names.map((n, i) => [n, `#0000${10 + i}`])));
    expect(writeFlats(night).bytes).not.toEqual(bytes);
    const back = Object.fromEntries(flats.palette.slice(1).map(({ name, color }) => [name, color]));
    expect(writeFlats(recolor(readFlats(writeFlats(night).bytes).flats, back)).bytes).toEqual(
      bytes,
    );
  });
});
