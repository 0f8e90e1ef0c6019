import { inflateAtMost } from './inflate.ts';
import type { PngFile } from './parse-png.ts';
import { PngError } from './png-error.ts';
import type { IccProfile, Resolution } from './types.ts';

/** Compressed texts of a file inflate to no more than this, all together. */
const MAX_TEXT_BYTES = 2 ** 23;

/**
 * tEXt, zTXt and iTXt by keyword. Texts under one keyword are joined by line feeds, in the order
 * of the file.
 */
export function readTexts({ texts }: PngFile): Record<string, string> {
  const byKeyword = new Map<string, string>();
  let left = MAX_TEXT_BYTES;
  const inflated = (data: Uint8Array): Uint8Array => {
    const bytes = inflateAtMost(data, left, 'the compressed text of the file');
    left -= bytes.length;
    return bytes;
  };
  for (const { type, data } of texts) {
    const [key, rest] = splitAtZero(data, type);
    if (key.length === 0) throw new PngError(`chunk ${type} must have a keyword, got none`);
    const keyword = latin1(key);
    const text =
      type === 'tEXt'
        ? latin1(rest)
        : type === 'zTXt'
          ? latin1(inflated(afterMethod(rest, 'zTXt')))
          : internationalText(rest, inflated);
    const earlier = byKeyword.get(keyword);
    byKeyword.set(keyword, earlier === undefined ? text : `${earlier}\n${text}`);
  }
  // fromEntries defines its properties: the keyword `__proto__` is one like any other.
  return Object.fromEntries(byKeyword);
}

/** Pixels per unit of pHYs; nothing where it says nothing: 0 pixels, or an unknown unit code. */
export function readResolution({ ancillary }: PngFile): Resolution | undefined {
  const data = ancillary.get('pHYs');
  if (data === undefined) return undefined;
  const view = new DataView(data.buffer, data.byteOffset, data.byteLength);
  const x = view.getUint32(0);
  const y = view.getUint32(4);
  const unit = data[8]!;
  if (x === 0 || y === 0 || unit > 1) return undefined;
  return { x, y, unit: unit === 1 ? 'meter' : 'unknown' };
}

/** What an sRGB file says in gAMA and cHRM (PNG specification, 11.3.2.5). */
const SRGB_GAMMA = 45_455;
const SRGB_CHROMATICITIES: readonly number[] = [
  31_270, 32_900, 64_000, 33_000, 30_000, 60_000, 15_000, 6_000,
];
/** Primaries of BT.709, transfer function of IEC 61966-2-1, RGB, full range (ITU-T H.273). */
const SRGB_CODE_POINTS = '1-13-0-1';

/**
 * The color space that the file names, where it is another than sRGB. Of the chunks that speak of
 * it the first counts, in this order: cICP, iCCP, sRGB, gAMA with cHRM.
 */
export function readProfile({ ancillary }: PngFile): string | undefined {
  const codePoints = ancillary.get('cICP');
  if (codePoints !== undefined) {
    const codes = codePoints.join('-');
    return codes === SRGB_CODE_POINTS ? undefined : `cICP ${codes}`;
  }
  const icc = ancillary.get('iCCP');
  if (icc !== undefined) {
    const name = latin1(splitAtZero(icc, 'iCCP')[0]);
    return /srgb/i.test(name) ? undefined : name;
  }
  if (ancillary.has('sRGB')) return undefined;
  const [gamma = SRGB_GAMMA] = integers(ancillary.get('gAMA'));
  const chromaticities = integers(ancillary.get('cHRM'));
  const words: string[] = [];
  if (gamma !== SRGB_GAMMA) words.push(`gamma ${gamma / 100_000}`);
  if (chromaticities.some((value, i) => value !== SRGB_CHROMATICITIES[i])) {
    words.push(`chromaticities ${chromaticities.map((value) => value / 100_000).join(' ')}`);
  }
  return words.length === 0 ? undefined : words.join(', ');
}

/** An ICC profile inflates to no more than this; those of scanners have kilobytes, of printers few MiB. */
const MAX_PROFILE_BYTES = 2 ** 24;

/** The ICC profile of the file, whatever its name. */
export function readIcc({ ancillary }: PngFile): IccProfile | undefined {
  const data = ancillary.get('iCCP');
  if (data === undefined) return undefined;
  const [name, rest] = splitAtZero(data, 'iCCP');
  const bytes = inflateAtMost(afterMethod(rest, 'iCCP'), MAX_PROFILE_BYTES, 'the ICC profile');
  return { name: latin1(name), bytes: bytes.slice() };
}

/** iTXt after its keyword: flag, method, language, translated keyword, text in UTF-8. */
function internationalText(data: Uint8Array, inflated: (data: Uint8Array) => Uint8Array): string {
  const flag = data[0];
  if (flag !== 0 && flag !== 1) {
    throw new PngError(`the compression flag of iTXt must be 0 or 1, got ${flag}`);
  }
  if (flag === 1 && data[1] !== 0) {
    throw new PngError(`there is no compression method ${data[1]} (iTXt)`);
  }
  const [, afterLanguage] = splitAtZero(data.subarray(2), 'iTXt');
  const [, text] = splitAtZero(afterLanguage, 'iTXt');
  try {
    const decoder = new TextDecoder('utf-8', { fatal: true, ignoreBOM: true });
    return decoder.decode(flag === 1 ? inflated(text) : text);
  } catch (error) {
    if (error instanceof PngError) throw error;
    throw new PngError('the text of chunk iTXt is not UTF-8', { cause: error });
  }
}

/** The stream of zTXt or iCCP after its method byte. */
function afterMethod(data: Uint8Array, type: string): Uint8Array {
  if (data[0] !== 0) throw new PngError(`there is no compression method ${data[0]} (${type})`);
  return data.subarray(1);
}

function splitAtZero(data: Uint8Array, type: string): [before: Uint8Array, after: Uint8Array] {
  const zero = data.indexOf(0);
  if (zero < 0) throw new PngError(`chunk ${type} must hold a zero byte after each field`);
  return [data.subarray(0, zero), data.subarray(zero + 1)];
}

function integers(data: Uint8Array | undefined): number[] {
  if (data === undefined) return [];
  const view = new DataView(data.buffer, data.byteOffset, data.byteLength);
  return Array.from({ length: data.length / 4 }, (_, i) => view.getUint32(4 * i));
}

/** ISO 8859-1, which no TextDecoder reads: its `latin1` is windows-1252. */
function latin1(bytes: Uint8Array): string {
  let text = '';
  for (let at = 0; at < bytes.length; at += 4096) {
    text += String.fromCharCode(...bytes.subarray(at, at + 4096));
  }
  return text;
}
