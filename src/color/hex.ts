import { wrongKind, wrongValue } from '../raster/errors.ts';

const HEX = /^#[0-9a-f]{6}$/i;

/** The three samples, 0 to 255, of a color `#rrggbb` in either case; no other form is read. */
export function parseColor(
  value: string,
  name: string,
): readonly [r: number, g: number, b: number] {
  if (typeof value !== 'string') throw wrongKind(name, "a color '#rrggbb'", value);
  if (!HEX.test(value)) throw wrongValue(name, "a color '#rrggbb'", value, hexHint(value));
  const rgb = Number.parseInt(value.slice(1), 16);
  return [rgb >> 16, (rgb >> 8) & 255, rgb & 255];
}

/** The six digits that a near form of a color stands for: `#fff`, `ffffff`, `#ffffff80`. */
function hexHint(value: string): string {
  const [, short, whole] = /^#?(?:([0-9a-f]{3})|([0-9a-f]{6})(?:[0-9a-f]{2})?)$/i.exec(value) ?? [];
  const digits = whole ?? short?.replace(/./g, '$&$&');
  return digits === undefined ? '' : `; write #${digits.toLowerCase()}`;
}

/** `#rrggbb` in lower case of three whole samples, 0 to 255. */
export function formatColor(r: number, g: number, b: number): string {
  return `#${((1 << 24) | (r << 16) | (g << 8) | b).toString(16).slice(1)}`;
}
