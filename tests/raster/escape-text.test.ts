import { describe, expect, it } from 'vitest';
import { escapeAttribute, escapeText, xmlText } from '../../src/raster/escape-text.ts';
import { xmlId } from '../../src/raster/xml-id.ts';

describe('escapeText', () => {
  it('leaves nothing that XML gives a meaning or cannot hold', () => {
    expect(escapeText('a&b<c>"d"\t\n')).toBe('a&amp;b&lt;c&gt;&quot;d&quot;\t\n');
    expect(escapeText('\u0001\ufffe\udc00x\ud83e\udd8a\ud83e')).toBe('\ufffd\ufffd\ufffdx🦊\ufffd');
  });
});

describe('xmlText', () => {
  it('keeps the characters of XML 1.0, 2.2, and no others', () => {
    const isChar = (code: number) =>
      code === 9 ||
      code === 10 ||
      code === 13 ||
      (code >= 0x20 && code <= 0xd7ff) ||
      (code >= 0xe000 && code <= 0xfffd) ||
      code >= 0x1_0000;
    const codes = [...Array(0x1_0000).keys(), 0x1_0000, 0x1_f98a, 0x10_ffff];
    const wrong = codes.filter((code) => {
      const letter = String.fromCodePoint(code);
      return xmlText(`a${letter}b`) !== `a${isChar(code) ? letter : '\ufffd'}b`;
    });
    expect(wrong).toEqual([]);
  });

  it('keeps pairs of surrogates and replaces lone ones, in either order', () => {
    expect(xmlText('\ud83e\udd8a')).toBe('\ud83e\udd8a');
    expect(xmlText('\udd8a\ud83e')).toBe('\ufffd\ufffd');
    expect(xmlText('\ud83e\ud83e\udd8a\udd8a')).toBe('\ufffd🦊\ufffd');
  });
});

describe('escapeAttribute', () => {
  it('makes references of what a reader of attributes makes spaces of (XML 1.0, 3.3.3)', () => {
    expect(escapeAttribute('a\tb\nc\rd e"<')).toBe('a&#9;b&#10;c&#13;d e&quot;&lt;');
  });
});

describe('xmlId', () => {
  const idOf = (name: string) => xmlId(name, new Set());

  it('keeps what is a Name of XML 1.0 (fifth edition, 2.3)', () => {
    for (const name of [
      'fur',
      'Fur_2',
      'a-b.c',
      '_x',
      'é',
      '狐の毛',
      'a·',
      '\u{10000}',
      'k\u0301',
    ]) {
      expect(idOf(name)).toBe(name);
    }
  });

  it('replaces what a name cannot hold, and what it cannot begin with is led by a letter', () => {
    expect(idOf('scarf, left')).toBe('scarf__left');
    expect(idOf('a:b')).toBe('a_b');
    expect(idOf('×')).toBe('_');
    expect(idOf('1st shell')).toBe('_1st_shell');
    expect(idOf('-x')).toBe('_-x');
    expect(idOf('.x')).toBe('_.x');
    expect(idOf('·')).toBe('_·');
    expect(idOf('')).toBe('_');
  });

  it('tells those apart that would be the same, and takes each', () => {
    const taken = new Set(['fur-2']);
    expect(['fur', 'fur', 'fur', 'a b', 'a,b'].map((name) => xmlId(name, taken))).toEqual([
      'fur',
      'fur-3',
      'fur-4',
      'a_b',
      'a_b-2',
    ]);
    expect(taken).toEqual(new Set(['fur-2', 'fur', 'fur-3', 'fur-4', 'a_b', 'a_b-2']));
  });
});
