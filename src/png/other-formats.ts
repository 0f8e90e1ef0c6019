/**
 * Files that are often given for a PNG, by what stands at their start: TIFF 6.0 (section 2) and
 * BigTIFF in both byte orders, JPEG (ISO 10918-1, SOI and a marker), GIF89a (section 17), PSD (Adobe's
 * file formats specification), WebP (RFC 9649, 2.4) and AVIF (AV1 Image File Format, 6).
 */
const STARTS: readonly (readonly [format: string, start: RegExp])[] = [
  ['TIFF', /^(II[*+]\0|MM\0[*+])/],
  ['JPEG', /^\xff\xd8\xff/],
  ['GIF', /^GIF8[79]a/],
  ['PSD', /^8BPS/],
  ['WebP', /^RIFF.{4}WEBP/s],
  ['AVIF', /^.{4}ftypavi[fs]/s],
];

/** Name of the format of a picture that is no PNG; undefined where it is none of the known ones. */
export function otherFormat(file: Uint8Array): string | undefined {
  const start = Array.from(file.subarray(0, 12), (byte) => String.fromCharCode(byte)).join('');
  return STARTS.find(([, pattern]) => pattern.test(start))?.[0];
}
