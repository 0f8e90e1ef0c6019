import { createHash } from 'node:crypto';
import { existsSync, readFileSync } from 'node:fs';
import { beforeAll, describe, expect, it } from 'vitest';

interface Drawing {
  group: string;
  half: string;
  name: string;
  markup: string;
  files: string[];
  lines: Set<string>;
}
interface Halves {
  openmojiDrawings(): Drawing[];
  brushDrawings(): Drawing[];
}

interface Page extends Drawing {
  parts: Drawing[];
}
interface Nib {
  nibDrawings(): Page[];
  drawNib(page: Page, size: number): { width: number; height: number; ink: Uint8Array };
}

const MODULE: string = new URL('../../bench/gaps/halves.mjs', import.meta.url).href;
const NIB: string = new URL('../../bench/gaps/nib.mjs', import.meta.url).href;
const FOLDER = '/usr/share/openclipart/svg';

/** What is in both of two lists. */
function common<T>(a: readonly T[], b: readonly T[]): T[] {
  const known = new Set(b);
  return a.filter((value) => known.has(value));
}

function split(drawings: readonly Drawing[]): [Drawing[], Drawing[]] {
  const [tune, report] = ['tune', 'report'].map((half) => drawings.filter((d) => d.half === half));
  expect(tune!.length + report!.length).toBe(drawings.length);
  return [tune!, report!];
}

describe('halves of the openmoji drawings', () => {
  let tune: Drawing[];
  let report: Drawing[];
  beforeAll(async () => {
    const { openmojiDrawings } = (await import(MODULE)) as Halves;
    [tune, report] = split(openmojiDrawings());
  });

  it('have about as many drawings', () => {
    expect(Math.min(tune.length, report.length)).toBeGreaterThan(800);
  });

  it('share no file, no lines and no drawing but for its skin tone', () => {
    const plain = (name: string) =>
      name
        .split('-')
        .filter((code) => !/^1F3F[B-F]$/.test(code))
        .join('-');
    const digest = ({ markup }: Drawing) => createHash('sha256').update(markup).digest('hex');
    const aspects: ((drawing: Drawing) => string[])[] = [
      ({ files }) => files,
      ({ files }) => files.map(plain),
      ({ lines }) => [...lines],
      (drawing) => [digest(drawing)],
    ];
    for (const aspect of aspects) {
      expect(common(tune.flatMap(aspect), report.flatMap(aspect))).toEqual([]);
    }
  });

  it('hold every drawing once', () => {
    const all = [...tune, ...report];
    for (const aspect of [(d: Drawing) => d.files, (d: Drawing) => [...d.lines]]) {
      const values = all.flatMap(aspect);
      expect(new Set(values).size).toBe(values.length);
    }
  });
});

describe('pages of the set nib', () => {
  let nib: Nib;
  let pages: Page[];
  beforeAll(async () => {
    nib = (await import(NIB)) as Nib;
    pages = nib.nibDrawings();
  });

  it('show figures of their own half only, themselves first', async () => {
    const { openmojiDrawings } = (await import(MODULE)) as Halves;
    const halves = new Map(openmojiDrawings().map(({ group, half }) => [group, half]));
    expect(pages.map(({ group, half }) => [group, half])).toEqual([...halves]);
    for (const { group, half, parts } of pages) {
      expect(parts[0]!.group).toBe(group);
      for (const part of parts) expect(halves.get(part.group)).toBe(half);
    }
  });

  it('share no lines', () => {
    const lines = pages.map(({ parts }) => parts.flatMap((part) => [...part.lines]));
    const [tune, report] = ['tune', 'report'].map((half) =>
      lines.filter((_, k) => pages[k]!.half === half).flat(),
    );
    expect(common(tune!, report!)).toEqual([]);
  });

  it('are the same each time', () => {
    const [page] = pages;
    const [once, again] = [nib.drawNib(page!, 256), nib.drawNib(page!, 256)];
    expect(once.ink.includes(1)).toBe(true);
    expect(once).toEqual(again);
  });
});

describe.skipIf(!existsSync(FOLDER))('halves of the brush drawings', () => {
  let tune: Drawing[];
  let report: Drawing[];
  beforeAll(async () => {
    const { brushDrawings } = (await import(MODULE)) as Halves;
    [tune, report] = split(brushDrawings());
  });

  it('have at least 25 drawings each, by five artists or more', () => {
    for (const half of [tune, report]) {
      expect(half.length).toBeGreaterThanOrEqual(25);
      expect(new Set(half.map(({ group }) => group)).size).toBeGreaterThanOrEqual(5);
    }
  });

  it('share no drawing, no picture and no artist', () => {
    const read = ({ name }: Drawing) => readFileSync(`${FOLDER}/${name}`, 'utf8');
    const artist = (drawing: Drawing) =>
      /<dc:creator>.*?<dc:title>(.*?)<\/dc:title>/s.exec(read(drawing))?.[1]?.trim() ??
      `none in ${drawing.name}`;
    for (const aspect of [({ name }: Drawing) => name, read, artist, (d: Drawing) => d.group]) {
      expect(common(tune.map(aspect), report.map(aspect))).toEqual([]);
    }
  });
});
