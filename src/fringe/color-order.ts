/**
 * Place of each code in the order of its color, read as `0xrrggbb`, what is transparent first and equal
 * colors by code: an order that does not change when the picture is turned.
 */
export function rankColors(colors: Uint32Array): Uint16Array {
  const order = Array.from(colors, (_, code) => code);
  order.sort((a, b) => compareColors(colors[a]!, colors[b]!) || a - b);
  const rank = new Uint16Array(colors.length);
  for (let k = 0; k < order.length; k++) rank[order[k]!] = k;
  return rank;
}

/** Below 0 where word a comes first: less alpha, then less red, green, blue. */
export function compareColors(a: number, b: number): number {
  if (a >>> 24 !== b >>> 24) return (a >>> 24) - (b >>> 24);
  return rgb(a) - rgb(b);
}

function rgb(word: number): number {
  return ((word & 255) << 16) | (word & 0xff00) | ((word >>> 16) & 255);
}
