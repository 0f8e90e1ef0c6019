import { xmlText } from '../raster/escape-text.ts';
import { LayersError } from './layers-error.ts';
import { NAMESPACE } from './stack-xml.ts';
import type { LayerRole } from './types.ts';
import { type XmlTag, xmlTags } from './xml-tags.ts';

/** What stack.xml says. */
export interface Stack {
  readonly size: readonly [number, number];
  /** Pixels per inch; absent where it does not say. */
  readonly perInch?: readonly [number, number];
  /** The topmost first. */
  readonly layers: readonly StackedLayer[];
}

/** What it says of a layer. */
export interface StackedLayer {
  readonly name: string;
  readonly groups: readonly string[];
  readonly src: string;
  readonly offset: readonly [number, number];
  readonly opacity: number;
  readonly visible: boolean;
  readonly mode: string;
  readonly role?: LayerRole;
  readonly index?: number;
}

/** A stack that is open, with what its layers take from it. */
interface Open {
  readonly groups: readonly string[];
  readonly opacity: number;
  readonly visible: boolean;
}

const ROLES: readonly LayerRole[] = ['line', 'flats', 'swatch', 'ground'];
const MAX_SIDE = 2 ** 31 - 1;
const MAX_LAYERS = 2 ** 16;

/**
 * Reads stack.xml. Elements and attributes that are not of the standard are passed over. Offsets of stacks are
 * too: those of layers are on the whole picture. O(text).
 */
export function readStack(text: string): Stack {
  const layers: StackedLayer[] = [];
  const open: Open[] = [];
  let image: Image | undefined;
  for (const tag of xmlTags(text)) {
    if (image === undefined) {
      image = readImage(tag);
    } else if (tag.kind === 'close') {
      if (tag.name === 'stack') open.pop();
    } else if (tag.name === 'stack') {
      open.push(enter(tag, open.at(-1), image.prefix));
    } else if (tag.name === 'layer') {
      if (layers.length === MAX_LAYERS) {
        throw new LayersError(`stack.xml must have at most ${MAX_LAYERS} layers`);
      }
      layers.push(readLayer(tag, open.at(-1), image.prefix));
    }
  }
  const { size, perInch } = image!;
  return { size, layers, ...(perInch && { perInch }) };
}

interface Image {
  readonly size: readonly [number, number];
  readonly perInch?: readonly [number, number];
  /** What stands before the names of our own attributes. */
  readonly prefix: string;
}

function readImage({ name, attributes }: XmlTag): Image {
  if (name !== 'image') throw new LayersError(`stack.xml must start with <image>, got <${name}>`);
  const side = (key: string) => integer(attributes, key, 1, MAX_SIDE);
  const declared = [...attributes].find(([, value]) => value === NAMESPACE)?.[0] ?? '';
  const prefix = declared.startsWith('xmlns:') ? `${declared.slice(6)}:` : 'underink:';
  const [x, y] = [resolution(attributes, 'xres'), resolution(attributes, 'yres')];
  const perInch = x === undefined ? undefined : ([x, y ?? x] as const);
  return { size: [side('w'), side('h')], prefix, ...(perInch && { perInch }) };
}

function enter(tag: XmlTag, parent: Open | undefined, prefix: string): Open {
  const shown = shownIn(tag, parent);
  // The outermost stack is the picture itself.
  if (parent === undefined) return { groups: [], ...shown };
  return { groups: [...parent.groups, nameOf(tag, prefix)], ...shown };
}

function readLayer(tag: XmlTag, parent: Open | undefined, prefix: string): StackedLayer {
  const { attributes } = tag;
  if (parent === undefined) throw new LayersError('stack.xml must have its layers in a <stack>');
  const src = attributes.get('src');
  if (src === undefined) throw new LayersError('stack.xml must have a src for each layer');
  const role = ROLES.find((one) => one === attributes.get(`${prefix}role`));
  const index = attributes.get(`${prefix}index`);
  return {
    name: nameOf(tag, prefix),
    groups: parent.groups,
    src,
    offset: [
      integer(attributes, 'x', -MAX_SIDE, MAX_SIDE, 0),
      integer(attributes, 'y', -MAX_SIDE, MAX_SIDE, 0),
    ],
    ...shownIn(tag, parent),
    mode: attributes.get('composite-op') ?? 'svg:src-over',
    ...(role && { role }),
    ...(index !== undefined && /^\d{1,5}$/.test(index) && { index: Number(index) }),
  };
}

function shownIn({ attributes }: XmlTag, parent: Open | undefined): Omit<Open, 'groups'> {
  const text = attributes.get('opacity') ?? '1';
  const opacity = Number(text);
  if (text.trim() === '' || !(opacity >= 0 && opacity <= 1)) {
    throw new LayersError(`opacity in stack.xml must be a number from 0 to 1, got "${text}"`);
  }
  return {
    opacity: opacity * (parent?.opacity ?? 1),
    visible: attributes.get('visibility') !== 'hidden' && (parent?.visible ?? true),
  };
}

/** The name; from our own attribute where XML cannot hold it, unless it was changed since. */
function nameOf({ attributes }: XmlTag, prefix: string): string {
  const name = attributes.get('name') ?? '';
  const json = attributes.get(`${prefix}name`);
  if (json === undefined) return name;
  try {
    const own: unknown = JSON.parse(json);
    return typeof own === 'string' && xmlText(own) === name ? own : name;
  } catch {
    return name;
  }
}

function integer(
  attributes: ReadonlyMap<string, string>,
  key: string,
  min: number,
  max: number,
  otherwise?: number,
): number {
  const text = attributes.get(key);
  if (text === undefined && otherwise !== undefined) return otherwise;
  const value = Number(text);
  if (text === undefined || !/^\s*[+-]?\d+\s*$/.test(text) || value < min || value > max) {
    throw new LayersError(
      `${key} in stack.xml must be a whole number from ${min} to ${max}, got ${JSON.stringify(text)}`,
    );
  }
  return value;
}

/** Pixels per inch; programs write fractions too. Nothing where there is no positive number. */
function resolution(attributes: ReadonlyMap<string, string>, key: string): number | undefined {
  const value = Number(attributes.get(key) ?? 0);
  return value > 0 && value < Number.POSITIVE_INFINITY ? value : undefined;
}
