// Trees as text, as `src/gaps/trees.ts` reads them.
const DIGITS = 'ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/';
const LEAF = 63;

/** Packs `{ columns, base, column, limit }`, nodes in depth-first order, limits of four digits. */
export function packTrees({ columns, base, column, limit }) {
  return {
    base,
    columns,
    node: column.map((place) => DIGITS[place < 0 ? LEAF : place]).join(''),
    limit: limit.map(digitsOf).join(''),
  };
}

function digitsOf(number) {
  const [, digits, fraction = '', exponent = '0'] = /^(\d+)\.?(\d*)(?:e([+-]?\d+))?$/.exec(
    String(Math.abs(number)),
  );
  let whole = Number(digits + fraction);
  let power = Number(exponent) - fraction.length;
  while (whole > 0 && whole % 10 === 0) {
    whole /= 10;
    power++;
  }
  if (whole > 0x3ffff || power < -16 || power > 15) throw new RangeError(`cannot pack ${number}`);
  let bits = ((number < 0 ? 32 : 0) + power + 16) * 2 ** 18 + whole;
  let text = '';
  for (let k = 0; k < 4; k++) {
    text = DIGITS[bits % 64] + text;
    bits = Math.floor(bits / 64);
  }
  return text;
}
