// Rings of hostile coordinates, with laws that their pixels must keep.
import { pick } from './numbers.mjs';

const [WIDTH, HEIGHT] = [24, 16];
const FAR = [
  2 ** 30,
  -(2 ** 30),
  2 ** 20 + 0.5,
  -1e6,
  1e-300,
  -1e-300,
  5e-324,
  2 ** 30 + 1,
  NaN,
  1e300,
];

/** A coordinate: a border of pixels, a center, anything near, or far away. */
function coordinate(side, random) {
  switch (random(6)) {
    case 0:
      return random(side + 1);
    case 1:
      return random(side) + 0.5;
    case 2:
      return random(side) + 0.5 + pick([2 ** -50, -(2 ** -50), 2 ** -30], random);
    case 3:
      return (random(2 ** 30) / 2 ** 30) * (side + 8) - 4;
    case 4:
      return random(40) === 0 ? pick(FAR, random) : random(side);
    default:
      return random(3 * side) - side;
  }
}

/** Random rings, and the laws that hold for any. */
export function polygonCase(random, rasterize, must) {
  const rings = Array.from({ length: random(4) }, () =>
    Array.from({ length: random(9) }, () => [
      coordinate(WIDTH, random),
      coordinate(HEIGHT, random),
    ]),
  );
  const rule = pick(['evenodd', 'nonzero'], random);
  const paint = (own, how = rule) => rasterize(own, [WIDTH, HEIGHT], { rule: how }).data;
  const isSame = (a, b) => Buffer.compare(a, b) === 0;
  const run = () => {
    const mask = paint(rings);
    const turned = rings.map((ring) => [...ring.slice(1), ...ring.slice(0, 1)]);
    must(isSame(paint(turned), mask), 'the pixels depend on where a ring starts');
    must(isSame(paint([...rings].reverse()), mask), 'the pixels depend on the order of rings');
    const back = rings.map((ring) => [...ring].reverse());
    must(isSame(paint(back), mask), 'the pixels depend on the way round');
    must(
      paint([...rings, ...rings], 'evenodd').every((v) => v === 0),
      'twice even-odd is nothing',
    );
    must(
      paint([...rings, ...back], 'nonzero').every((v) => v === 0),
      'there and back is nothing',
    );
    const parts = rings.map((ring) => paint([ring], 'evenodd'));
    const odd = paint(rings, 'evenodd');
    const sum = (p) => parts.reduce((count, part) => count + part[p], 0) % 2;
    must(
      odd.every((v, p) => v === sum(p)),
      'even-odd is not the parity of its rings',
    );
  };
  return { kind: `${rule}, ${rings.length} rings`, run };
}
