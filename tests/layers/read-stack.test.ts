import { describe, expect, it } from 'vitest';
import { LayersError } from '../../src/layers/layers-error.ts';
import { readStack } from '../../src/layers/read-stack.ts';
import { type XmlTag, xmlTags } from '../../src/layers/xml-tags.ts';

/** The tags of a text in a short form. */
const tagsOf = (text: string) =>
  [...xmlTags(text)].map(({ kind, name, attributes }: XmlTag) =>
    kind === 'close'
      ? `/${name}`
      : [name, ...[...attributes].map(([k, v]) => `${k}=${v}`)].join(' '),
  );

describe('xmlTags', () => {
  it('gives what opens and closes, with attributes, and passes over the rest', () => {
    const text = `<?xml version='1.0'?> <!-- <a> --> <a x = "1" y='"2"'
      z="'>">text<![CDATA[<b>]]><b/><c.d-e:f /><?p <g>?>more</a > <!----> `;
    expect(tagsOf(text)).toEqual([`a x=1 y="2" z='>`, 'b', '/b', 'c.d-e:f', '/c.d-e:f', '/a']);
    expect(tagsOf('\ufeff<a></a>')).toEqual(['a', '/a']);
  });

  it('resolves the five entities and character references, and makes white space spaces', () => {
    expect(tagsOf('<a x="&lt;&gt;&amp;&quot;&apos;"/>')[0]).toBe(`a x=<>&"'`);
    expect(tagsOf('<a x="&#65;&#x41;&#x1F98a;&#9;&#1114111;"/>')[0]).toBe('a x=AA🦊\t\u{10ffff}');
    expect(tagsOf('<a x="1\t2\n3\r\n4\r5"/>')[0]).toBe('a x=1 2 3 4 5');
  });

  it.each([
    '',
    'text',
    '<!-- only -->',
    '<a>',
    '<a><b></a></b>',
    '</a>',
    '<a></b>',
    '<a/><b/>',
    '<a></a><b></b>',
    '<a x="1" x="2"/>',
    '<a x=1/>',
    '<a x="1"y="2"/>',
    '<a x="<"/>',
    "<a x='<'/>",
    '<a x="1/>',
    '<a x/>',
    '< a/>',
    '<a',
    '<a b',
    '<a></a',
    '<a></a/>',
    '<a><!-- </a>',
    '<a><? </a>',
    '<a><![CDATA[ ]] </a>',
    '<!DOCTYPE a><a/>',
    '<a><!ENTITY x "y"></a>',
    '<a x="&nbsp;"/>',
    '<a x="&"/>',
    '<a x="&#0;"/>',
    '<a x="&#xd800;"/>',
    '<a x="&#xDFFF;"/>',
    '<a x="&#x110000;"/>',
    '<a x="&#12345678;"/>',
    '<a x="&#xFFFFFFF;"/>',
  ])('refuses %j', (text) => {
    expect(() => tagsOf(text)).toThrow(LayersError);
  });

  it('takes elements 1000 deep, and no deeper', () => {
    const nested = (depth: number) => `${'<a>'.repeat(depth)}${'</a>'.repeat(depth)}`;
    expect(tagsOf(nested(1000))).toHaveLength(2000);
    expect(() => tagsOf(nested(1001))).toThrow('nested too deep');
    expect(tagsOf(`<r>${'<a/>'.repeat(3000)}</r>`)).toHaveLength(6002);
  });
});

describe('readStack', () => {
  const stack = (inner: string, image = 'w="7" h="5"') =>
    readStack(`<image ${image}><stack>${inner}</stack></image>`);
  const one = (attributes: string) => stack(`<layer src="a.png" ${attributes}/>`).layers[0]!;

  it('gives a layer all that it does not say', () => {
    expect(stack('<layer src="data/a.png"/>')).toEqual({
      size: [7, 5],
      layers: [
        {
          name: '',
          groups: [],
          src: 'data/a.png',
          offset: [0, 0],
          opacity: 1,
          visible: true,
          mode: 'svg:src-over',
        },
      ],
    });
  });

  it('reads what a layer says', () => {
    const said = `name="fur" x="-3" y=" +4 " opacity="0.25" visibility="hidden"
      composite-op="svg:multiply" underink:role="swatch" underink:index="65535"`;
    expect(one(said)).toEqual({
      name: 'fur',
      groups: [],
      src: 'a.png',
      offset: [-3, 4],
      opacity: 0.25,
      visible: false,
      mode: 'svg:multiply',
      role: 'swatch',
      index: 65_535,
    });
    expect(one('visibility="visible"').visible).toBe(true);
    for (const role of ['line', 'flats', 'swatch', 'ground']) {
      expect(one(`underink:role="${role}"`).role).toBe(role);
    }
    expect(one('underink:role="lines" underink:index="-1"')).not.toHaveProperty('role');
    for (const index of ['-1', '1.5', '123456', '', 'x1', '1x']) {
      expect(one(`underink:index="${index}"`)).not.toHaveProperty('index');
    }
  });

  it('takes names, opacity and visibility from the stacks around it, but the outermost name', () => {
    const { layers } = readStack(`<image w="1" h="1">
      <stack name="root" opacity="0.5"><stack name="otter" opacity="0.5">
        <stack name="arm" visibility="hidden"><layer src="1"/></stack>
        <layer src="2" opacity="0.5"/></stack><layer src="3"/><other><layer src="4"/></other></stack>
      </image>`);
    expect(
      layers.map(({ src, groups, opacity, visible }) => [src, groups, opacity, visible]),
    ).toEqual([
      ['1', ['otter', 'arm'], 0.25, false],
      ['2', ['otter'], 0.125, true],
      ['3', [], 0.5, true],
      ['4', [], 0.5, true],
    ]);
  });

  it('takes a name that XML cannot hold from our attribute, unless it was changed since', () => {
    const named = (name: string, own: string) => one(`name="${name}" underink:name='${own}'`).name;
    expect(named('a\ufffd', '"a\\u0001"')).toBe('a\u0001');
    expect(named('b', '"a\\u0001"')).toBe('b');
    expect(named('b', 'no JSON')).toBe('b');
    expect(named('7', '7')).toBe('7');
    const other = 'xmlns:u="urn:underink:layers" w="1" h="1"';
    const layer = `<layer src="a" name="a\ufffd" u:name='"a\\u0001"' u:role="line"/>`;
    expect(stack(layer, other).layers[0]).toMatchObject({ name: 'a\u0001', role: 'line' });
    const odd = 'notation="urn:underink:layers" w="1" h="1"';
    expect(stack(`<layer src="a" underink:role="line"/>`, odd).layers[0]!.role).toBe('line');
  });

  it('reads the resolution, one way for both where the other is not said', () => {
    const perInch = (said: string) => stack('', `w="1" h="1" ${said}`).perInch;
    expect(perInch('xres="300" yres="150.5"')).toEqual([300, 150.5]);
    expect(perInch('xres="300"')).toEqual([300, 300]);
    expect(perInch('xres="300" yres="0"')).toEqual([300, 300]);
    for (const none of ['', 'yres="300"', 'xres="0"', 'xres="-1"', 'xres="x"', 'xres="Infinity"']) {
      expect(perInch(none)).toBeUndefined();
    }
  });

  it.each([
    '<picture w="1" h="1"></picture>',
    '<image h="1"><stack/></image>',
    '<image w="0" h="1"><stack/></image>',
    '<image w="1.5" h="1"><stack/></image>',
    '<image w="1e3" h="1"><stack/></image>',
    '<image w="2147483648" h="1"><stack/></image>',
    '<image w="x1" h="1"><stack/></image>',
    '<image w="1x" h="1"><stack/></image>',
    '<image w="1" h="1"><layer src="a"/></image>',
    '<image w="1" h="1"><stack/><layer src="a"/></image>',
    '<image w="1" h="1"><stack><layer/></stack></image>',
    '<image w="1" h="1"><stack><layer src="a" x="0.5"/></stack></image>',
    '<image w="1" h="1"><stack><layer src="a" y="-2147483648"/></stack></image>',
    '<image w="1" h="1"><stack><layer src="a" opacity="1.1"/></stack></image>',
    '<image w="1" h="1"><stack><layer src="a" opacity="-0.1"/></stack></image>',
    '<image w="1" h="1"><stack><layer src="a" opacity=" "/></stack></image>',
    '<image w="1" h="1"><stack opacity="x"/></image>',
  ])('refuses %s', (text) => {
    expect(() => readStack(text)).toThrow(LayersError);
  });

  it('takes 65,536 layers and no more', () => {
    const layer = '<layer src="a"/>';
    expect(stack(layer.repeat(2 ** 16)).layers).toHaveLength(2 ** 16);
    expect(() => stack(layer.repeat(2 ** 16 + 1))).toThrow('at most 65536 layers');
  });
});
