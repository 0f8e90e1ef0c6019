import { createHash } from 'node:crypto';
import { PNG } from 'pngjs';
import { describe, expect, it } from 'vitest';
import {
  checkFlats,
  checkSheets,
  defineCheck,
  drawFindings,
  type Finding,
  findingsToHtml,
  findingsToText,
} from '../../src/checks/index.ts';
import { paintFlats } from '../../src/palette/paint-flats.ts';
import type { Flats } from '../../src/palette/types.ts';
import { raster } from '../../src/raster/raster.ts';
import { grid, literal, mask, symmetries } from '../support/grids.ts';

const PALETTE = [
  { name: 'bare', color: '#000000' },
  { name: 'sky', color: '#a0c8f0' },
  { name: 'fur', color: '#8a5d42' },
];
const flats = (text: string): Flats => ({ indices: mask(text), palette: PALETTE });
const ART = flats(`
  1 1 1 1 1 1
  1 2 2 2 1 1
  1 2 . 2 1 1
  1 2 2 2 1 1
`);
const FOUND = checkFlats(ART, { checks: ['bare'] });

const finding = (fields: Partial<Finding>): Finding => ({
  check: 'own',
  severity: 'warning',
  message: 'look',
  at: [1.5, 1.5],
  bounds: [1, 1, 2, 2],
  area: 1,
  swatches: [],
  ...fields,
});

const ERROR = [214, 0, 50, 255];
const WARNING = [201, 116, 0, 255];
const INFORMATION = [0, 106, 214, 255];
const pixel = ({ data, shape }: { data: Uint8Array; shape: number[] }, x: number, y: number) => [
  ...data.subarray(4 * (y * shape[0]! + x), 4 * (y * shape[0]! + x) + 4),
];

describe('drawFindings', () => {
  const opaque = ({ data, shape }: { data: Uint8Array; shape: number[] }) =>
    raster(
      Uint8Array.from({ length: data.length / 4 }, (_, i) => data[4 * i + 3]! / 255),
      [shape[0]!, shape[1]!],
    );

  it('fills the pixels and frames the bounds, which the border of the picture cuts', () => {
    const drawn = drawFindings([finding({ spans: [1, 1, 2] })], [8, 8]);
    expect(grid(opaque(drawn))).toBe(
      literal(`. . . . 1 1 . .
               . 1 . . 1 1 . .
               . . . . 1 1 . .
               . . . . 1 1 . .
               1 1 1 1 1 1 . .
               1 1 1 1 1 1 . .
               . . . . . . . .
               . . . . . . . .`),
    );
    expect(pixel(drawn, 1, 1)).toEqual(WARNING);
    expect(pixel(drawn, 0, 0)).toEqual([0, 0, 0, 0]);
  });

  it('is the same in all symmetries', () => {
    const drawn = (k: number) => {
      const indices = symmetries(ART.indices)[k]!;
      const found = checkFlats({ ...ART, indices }, { checks: ['bare'] });
      return opaque(drawFindings(found, indices.shape as [number, number]));
    };
    for (let k = 0; k < 8; k++) {
      expect(grid(drawn(k))).toBe(grid(symmetries(drawn(0))[k]!));
    }
  });

  it('draws graver findings over others, in any order', () => {
    const all = (['error', 'information', 'warning'] as const).map((severity, k) =>
      finding({ severity, bounds: [0, 0, 3, 1], spans: [0, 0, 3 - k] }),
    );
    for (const list of [all, [...all].reverse()]) {
      const drawn = drawFindings(list, [3, 1]);
      expect([0, 1, 2].map((x) => pixel(drawn, x, 0))).toEqual([ERROR, ERROR, ERROR]);
    }
    const drawn = drawFindings(all.slice(1), [3, 1]);
    expect([0, 1, 2].map((x) => pixel(drawn, x, 0))).toEqual([WARNING, INFORMATION, [0, 0, 0, 0]]);
  });

  it('draws over a picture, which it leaves as it is, and nothing of what is nowhere', () => {
    const picture = raster(
      Uint8Array.from({ length: 12 }, (_, i) => 10 * i),
      [4, 3],
    );
    const before = picture.data.slice();
    const drawn = drawFindings([finding({ spans: [1, 1, 2] })], [4, 3], { over: picture });
    expect(pixel(drawn, 1, 1)).toEqual(WARNING);
    expect(pixel(drawn, 3, 2)).toEqual([110, 110, 110, 255]);
    expect(picture.data).toEqual(before);
    const unused = finding({ area: 0, bounds: [0, 0, 4, 3] });
    expect(drawFindings([unused], [4, 3]).data).toEqual(new Uint8Array(48));
  });

  it('refuses what is no finding, or lies outside', () => {
    expect(() => drawFindings({} as never, [4, 4])).toThrow(
      new TypeError('findings must be an array of findings, got an empty object'),
    );
    expect(() => drawFindings([{ check: 'bare' } as never], [4, 4])).toThrow(
      /^findings\[0\] must be a finding of checkFlats, got /,
    );
    expect(() => drawFindings([finding({ severity: 'grave' as never })], [4, 4])).toThrow(
      /^findings\[0\]\.severity must be /,
    );
    expect(() => drawFindings([finding({ bounds: [3, 3, 5, 4] })], [4, 4])).toThrow(RangeError);
    const over = raster(new Uint8Array(9), [3, 3]);
    expect(() => drawFindings([], [4, 4], { over })).toThrow(/^over must have the size of size/);
  });
});

describe('findingsToText', () => {
  it('is a line a finding', () => {
    const found = checkFlats(ART, { checks: ['bare', 'specks'] });
    expect(findingsToText(found)).toBe(
      [
        '2 findings: 1 error, 1 warning',
        '',
        '1  error    bare    1 pixel bare at [2, 2]',
        '2  warning  specks  speck of 8 pixels of "fur" at [1, 1]',
        '',
      ].join('\n'),
    );
    expect(findingsToText([])).toBe('no findings\n');
  });

  it('tells sheets, clean ones too, and places that a message leaves out', () => {
    const own = defineCheck('own rule', () => [{ message: 'two\nlines', at: [3.5, 1.5] }]);
    const sheets = [
      { name: 'heron', flats: ART },
      { name: 'otter', flats: flats('1 1') },
    ];
    const found = checkSheets(sheets, {
      checks: { own: [own], bare: true, slivers: false, specks: false },
    });
    const [heron] = found.filter(({ sheet }) => sheet === 'heron');
    expect(heron?.check).toBe('bare');
    expect(
      findingsToText(
        found.filter(({ sheet }) => sheet === 'heron'),
        { sheets: ['heron', 'otter'] },
      ),
    ).toBe(
      [
        '2 findings on 1 of 2 sheets: 1 error, 1 warning',
        '',
        'heron: 2 findings: 1 error, 1 warning',
        '1  error    bare      1 pixel bare at [2, 2]',
        '2  warning  own rule  two lines at [3, 1]',
        '',
        'otter: no findings',
        '',
      ].join('\n'),
    );
    expect(findingsToText([], { sheets: ['otter'] })).toBe(
      'no findings on 1 sheet\n\notter: no findings\n',
    );
    expect(findingsToText(JSON.parse(JSON.stringify(found)))).toBe(findingsToText(found));
    expect(() => findingsToText([], { sheets: [1] as never })).toThrow(
      new TypeError('sheets[0] must be a string, got 1'),
    );
  });
});

describe('findingsToHtml', () => {
  const page = findingsToHtml(FOUND, { picture: paintFlats(ART), title: 'Heron & <crab>' });
  const pictures = (html: string) =>
    [...html.matchAll(/href="data:image\/png;base64,([^"]+)"/g)].map(([, text]) =>
      PNG.sync.read(Buffer.from(text!, 'base64')),
    );

  it('is one file without a script, whose own policy allows its style and pictures alone', () => {
    const style = page.match(/<style>([\s\S]*?)<\/style>/)![1]!;
    const hash = createHash('sha256').update(style).digest('base64');
    expect(page).toContain(
      `content="default-src 'none'; img-src data:; style-src 'sha256-${hash}'"`,
    );
    expect(page).not.toMatch(/<script|<link|\sstyle=|\son\w+=|https?:/);
  });

  it('closes what it opens, has each id once, and links only to what is there', () => {
    const open: string[] = [];
    for (const [, close, name, end] of page.matchAll(/<(\/?)([a-z0-9]+)\b[^>]*?(\/?)>/g)) {
      if (end === '/' || name === 'meta') continue;
      if (close === '') open.push(name!);
      else expect(open.pop()).toBe(name);
    }
    expect(open).toEqual([]);
    const ids = [...page.matchAll(/\sid="([^"]+)"/g)].map(([, id]) => id);
    expect(new Set(ids).size).toBe(ids.length);
    for (const [, id] of page.matchAll(/href="#([^"]+)"/g)) expect(ids).toContain(id);
    expect(page).toContain('<h1>Heron &amp; &lt;crab&gt;</h1>');
    for (const [, tag] of page.matchAll(/<svg([^>]*)>/g))
      expect(tag).toMatch(/role=.*aria-label="[^"]/);
  });

  it('shows the sheet and each place to the pixel, the place outlined', () => {
    const [sheet, crop] = pictures(page);
    for (const shown of [sheet!, crop!]) {
      expect([shown.width, shown.height]).toEqual([6, 4]);
      expect([...shown.data]).toEqual([...paintFlats(ART).data]);
    }
    expect(page).toContain('<path class="over error" d="M2 2h1v1h-1z"/>');
    expect(page).toContain('Pixels [0, 0] to [6, 4], shown 53:1');
  });

  it('shrinks what is large by means, and marks every cell that the place touches', () => {
    const [w, h] = [1000, 500];
    const art = { indices: raster(new Uint8Array(w * h).fill(1), [w, h]), palette: PALETTE };
    for (let x = 0; x < w; x++) art.indices.set(x, 250, 0);
    const found = checkFlats(art, { checks: ['bare'] });
    const html = findingsToHtml(found, { picture: paintFlats(art) });
    const [sheet, crop] = pictures(html);
    expect([sheet!.width, sheet!.height]).toEqual([500, 250]);
    expect([crop!.width, crop!.height]).toEqual([250, 125]);
    expect([...crop!.data.subarray(0, 4)]).toEqual([160, 200, 240, 255]);
    // one row of four is bare: alpha 3/4, in the color of the others
    expect([...crop!.data.subarray(4 * 250 * 62, 4 * 250 * 62 + 4)]).toEqual([160, 200, 240, 191]);
    expect(html).toContain('d="M0 62h250v1h-250z"');
    expect(html).toContain('shown 1:4');
  });

  it('tells sheets one after another, and asks for a picture once, where there is a finding', () => {
    const sheets = [
      { name: 'heron', flats: ART },
      { name: 'otter', flats: flats('1 1') },
      { name: 'crab "2"', flats: ART },
    ];
    const found = checkSheets(sheets, { checks: ['bare'] });
    const asked: string[] = [];
    const html = findingsToHtml(found, {
      sheets: sheets.map(({ name }) => name),
      picture: (name) => {
        asked.push(name);
        return name === 'heron' ? paintFlats(ART) : undefined;
      },
    });
    expect(asked).toEqual(['heron', 'crab "2"']);
    expect(pictures(html)).toHaveLength(2);
    expect(html).toContain('<p>2 findings on 2 of 3 sheets: 2 errors</p>');
    expect(html).toContain('<tr><th scope="row">otter</th><td>no findings</td></tr>');
    expect(html).toContain('<h2>crab &quot;2&quot;</h2>');
  });

  it('stops at so many crops, and does without a picture', () => {
    const many = flats('. 1 . 1 . 1 .');
    const found = checkFlats(many, { checks: ['bare'] });
    expect(found).toHaveLength(4);
    const html = findingsToHtml(found, { picture: paintFlats(many), crops: 2 });
    expect(pictures(html)).toHaveLength(3);
    expect(html.match(/<li /g)).toHaveLength(4);
    expect(pictures(findingsToHtml(found))).toEqual([]);
    expect(findingsToHtml([])).toContain('<p>no findings</p>');
    expect(() => findingsToHtml([], { crop: 2 } as never)).toThrow(/did you mean|crops/);
    const small = raster(new Uint8Array(4), [2, 2]);
    expect(() => findingsToHtml(found, { picture: small })).toThrow(RangeError);
  });
});
