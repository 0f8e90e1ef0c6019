import type { Resolution } from '../png/types.ts';
import { escapeAttribute, xmlText } from '../raster/escape-text.ts';
import type { LayerRole } from './types.ts';

/** A namespace of our own, so that attributes in it are an extension that others pass over. */
export const NAMESPACE = 'urn:underink:layers';
const VERSION = '0.0.6';
const METERS_PER_INCH = 0.0254;

/** A layer as it stands in stack.xml. */
export interface StackLayer {
  readonly name: string;
  readonly src: string;
  readonly offset: readonly [x: number, y: number];
  readonly mode: string;
  readonly role: LayerRole;
  readonly index?: number;
}

/**
 * stack.xml of a picture, the topmost layer first. With `grouped`, layers whose names have a first part
 * (`heron/scarf`) stand in a stack of that name, at the place of the topmost of them.
 *
 * Reference: OpenRaster 0.0.6 (freedesktop.org), Layer stack; `xres` and `yres` are whole pixels per inch.
 */
export function stackXml(
  layers: readonly StackLayer[],
  [width, height]: readonly [number, number],
  resolution: Resolution | undefined,
  grouped: boolean,
): string {
  const inch =
    resolution?.unit === 'meter'
      ? ` xres="${perInch(resolution.x)}" yres="${perInch(resolution.y)}"`
      : '';
  const blocks: string[][] = [];
  const groups = new Map<string, string[]>();
  for (const layer of layers) {
    const { name } = layer;
    const cut = grouped && layer.role === 'swatch' ? name.indexOf('/') : -1;
    if (cut <= 0 || cut === name.length - 1) {
      blocks.push([layerTag(layer, name)]);
      continue;
    }
    const group = name.slice(0, cut);
    let block = groups.get(group);
    if (block === undefined) {
      block = [`<stack${nameAttributes(group)}>`];
      groups.set(group, block);
      blocks.push(block);
    }
    block.push(layerTag(layer, name.slice(cut + 1)));
  }
  for (const block of groups.values()) block.push('</stack>');
  return [
    "<?xml version='1.0' encoding='UTF-8'?>",
    `<image xmlns:underink="${NAMESPACE}" version="${VERSION}" w="${width}" h="${height}"${inch}>`,
    '<stack>',
    ...blocks.flat(),
    '</stack>',
    '</image>\n',
  ].join('\n');
}

/** Whole pixels per inch, as OpenRaster has them; at least 1. */
export function perInch(perMeter: number): number {
  return Math.max(1, Math.round(perMeter * METERS_PER_INCH));
}

/** Whole pixels per meter, as a PNG can hold them. */
export function perMeter(perInch: number): number {
  return Math.min(Math.max(1, Math.round(perInch / METERS_PER_INCH)), 2 ** 31 - 1);
}

function layerTag({ src, offset, mode, role, index }: StackLayer, name: string): string {
  const place = index === undefined ? '' : ` underink:index="${index}"`;
  return `<layer${nameAttributes(name)} src="${src}" x="${offset[0]}" y="${offset[1]}" opacity="1.0" visibility="visible" composite-op="${mode}" underink:role="${role}"${place}/>`;
}

/** The name; where XML cannot hold it, the whole name too, as JSON in ASCII. */
function nameAttributes(name: string): string {
  const plain = ` name="${escapeAttribute(name)}"`;
  return xmlText(name) === name
    ? plain
    : `${plain} underink:name="${escapeAttribute(asciiJson(name))}"`;
}

function asciiJson(text: string): string {
  return JSON.stringify(text).replace(
    /[\u007f-\uffff]/g,
    (unit) => `\\u${unit.charCodeAt(0).toString(16).padStart(4, '0')}`,
  );
}
