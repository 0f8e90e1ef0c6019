import { LayersError } from './layers-error.ts';

/** A tag of an XML text. */
export interface XmlTag {
  readonly name: string;
  readonly kind: 'open' | 'close';
  readonly attributes: ReadonlyMap<string, string>;
}

const NAME = /[^\s<>/="'&]+/y;
const ATTRIBUTE = /\s+([^\s<>/="'&]+)\s*=\s*(?:"([^"<]*)"|'([^'<]*)')/y;
const TAG_END = /\s*(\/?)>/y;
const REFERENCE = /&(?:#(\d{1,7})|#x([0-9a-fA-F]{1,6})|(lt|gt|amp|quot|apos));|&/g;
const NAMED: Readonly<Record<string, string>> = {
  lt: '<',
  gt: '>',
  amp: '&',
  quot: '"',
  apos: "'",
};
const NO_ATTRIBUTES: ReadonlyMap<string, string> = new Map();
const MAX_DEPTH = 1000;

/**
 * The tags of an XML text in order, checked for what opens and closes; an empty element gives two.
 * Comments, processing instructions and text are passed over.
 *
 * A document type is refused, and with it every entity but the five of XML and character references: a
 * stack needs none, and they are what makes readers fetch files or grow without bound. Beyond that
 * XML 1.0 is not validated. O(text).
 */
export function* xmlTags(text: string): Generator<XmlTag, void, void> {
  const open: string[] = [];
  let rooted = false;
  let at = text.indexOf('<');
  for (; at >= 0; at = text.indexOf('<', at)) {
    if (text.startsWith('<!--', at)) {
      at = behind(text, '-->', at + 4);
    } else if (text.startsWith('<?', at)) {
      at = behind(text, '?>', at + 2);
    } else if (text.startsWith('<![CDATA[', at)) {
      at = behind(text, ']]>', at + 9);
    } else if (text.startsWith('<!', at)) {
      throw new LayersError('stack.xml must have no document type and no entities of its own');
    } else if (text.startsWith('</', at)) {
      const name = match(NAME, text, at + 2)[0];
      if (name !== open.pop()) {
        throw new LayersError(`stack.xml closes <${name}>, which is not the element open there`);
      }
      const end = match(TAG_END, text, NAME.lastIndex);
      if (end[1] === '/') throw malformed(at);
      at = TAG_END.lastIndex;
      yield { name, kind: 'close', attributes: NO_ATTRIBUTES };
    } else {
      const name = match(NAME, text, at + 1)[0];
      if (rooted && open.length === 0)
        throw new LayersError('stack.xml must have one root element');
      if (open.length === MAX_DEPTH) throw new LayersError('stack.xml is nested too deep');
      rooted = true;
      const attributes = readAttributes(text, NAME.lastIndex);
      const [, empty] = match(TAG_END, text, attributes.end);
      at = TAG_END.lastIndex;
      if (empty === '') open.push(name);
      yield { name, kind: 'open', attributes: attributes.values };
      if (empty !== '') yield { name, kind: 'close', attributes: NO_ATTRIBUTES };
    }
  }
  if (open.length > 0) throw new LayersError(`stack.xml ends inside <${open.at(-1)}>`);
  if (!rooted) throw new LayersError('stack.xml must hold an element, got none');
}

function readAttributes(text: string, from: number): { values: Map<string, string>; end: number } {
  const values = new Map<string, string>();
  let end = from;
  for (;;) {
    ATTRIBUTE.lastIndex = end;
    const found = ATTRIBUTE.exec(text);
    if (found === null) return { values, end };
    const [, name, double, single] = found;
    if (values.has(name!))
      throw new LayersError(`stack.xml has the attribute ${name} twice in one tag`);
    values.set(name!, resolve((double ?? single)!));
    end = ATTRIBUTE.lastIndex;
  }
}

/** The value of an attribute: white space is a space each (XML 1.0, 3.3.3), references are resolved. */
function resolve(raw: string): string {
  return raw.replace(/\r\n|[\t\n\r]/g, ' ').replace(REFERENCE, (whole, decimal, hex, named) => {
    if (named !== undefined) return NAMED[named]!;
    const code = decimal === undefined ? Number.parseInt(hex, 16) : Number(decimal);
    if (whole === '&' || code === 0 || code >> 11 === 0x1b || code > 0x10ffff) {
      throw new LayersError('stack.xml has an entity that is not known, or a wrong character');
    }
    return String.fromCodePoint(code);
  });
}

function match(pattern: RegExp, text: string, at: number): RegExpExecArray {
  pattern.lastIndex = at;
  const found = pattern.exec(text);
  if (found === null) throw malformed(at);
  return found;
}

function behind(text: string, mark: string, from: number): number {
  const at = text.indexOf(mark, from);
  if (at < 0) throw malformed(from);
  return at + mark.length;
}

function malformed(at: number): LayersError {
  return new LayersError(`stack.xml is not well-formed at letter ${at}`);
}
