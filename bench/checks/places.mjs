// Random places in a sheet, and the pixels round them.

/** Faults reach no farther than this from their middle. */
const REACH = 20;
/** Steps to the pixels around, the nearest first. */
const OFFSETS = Array.from({ length: (2 * REACH + 1) ** 2 }, (_, k) => [
  (k % (2 * REACH + 1)) - REACH,
  Math.floor(k / (2 * REACH + 1)) - REACH,
]).sort(([a, b], [c, d]) => a * a + b * b - c * c - d * d);

/** A pixel away from the border of which `isWanted` says yes, at random. */
export function anyPixel({ random, width, height }, isWanted) {
  for (let attempt = 0; attempt < 20_000; attempt++) {
    const x = 24 + Math.floor(random() * (width - 48));
    const y = 24 + Math.floor(random() * (height - 48));
    if (isWanted(y * width + x)) return y * width + x;
  }
  return undefined;
}

/** Whether all within a square round a pixel is of one swatch, and there is another one. */
export function room({ flats, width }, i, reach) {
  const { data } = flats.indices;
  for (let dy = -reach; dy <= reach; dy++) {
    for (let dx = -reach; dx <= reach; dx++) {
      if (data[i + dy * width + dx] !== data[i]) return false;
    }
  }
  return flats.palette.length > 2;
}

/** The pixels round one within 20, the nearest first. */
export function* nearest({ width }, at) {
  for (const [dx, dy] of OFFSETS) yield at + dy * width + dx;
}

/** The way from one pixel to another, `[dx, dy]`. */
export function between(width, from, to) {
  return [(to % width) - (from % width), Math.floor(to / width) - Math.floor(from / width)];
}

/**
 * A straight line across paper from ink to ink whose clear length lies in a range: its middle, its
 * `ends` on ink, and the `pixels` within 1 of it. Undefined where 2,000 attempts find none.
 */
export function chord(sheet, [least, most]) {
  const { ink, width, random } = sheet;
  for (let attempt = 0; attempt < 2000; attempt++) {
    const middle = anyPixel(sheet, (i) => ink.data[i] === 0);
    if (middle === undefined) return undefined;
    const turn = Math.PI * random();
    const ends = [turn, turn + Math.PI].map((angle) => toInk(sheet, middle, angle, most));
    if (ends.includes(undefined)) continue;
    const [dx, dy] = between(width, ...ends);
    const length = Math.hypot(dx, dy);
    if (length - 1 < least || length - 1 > most) continue;
    const points = ends.map((i) => [(i % width) + 0.5, Math.floor(i / width) + 0.5]);
    return { middle, ends: points, pixels: pixelsBetween(width, ends[0], [dx, dy]) };
  }
  return undefined;
}

/** The pixels at most 1 aside from the line from one pixel on by `[dx, dy]`. */
function pixelsBetween(width, from, [dx, dy]) {
  const length = Math.hypot(dx, dy);
  const pixels = new Set();
  for (let v = Math.min(0, dy) - 1; v <= Math.max(0, dy) + 1; v++) {
    for (let u = Math.min(0, dx) - 1; u <= Math.max(0, dx) + 1; u++) {
      const along = (u * dx + v * dy) / length;
      if (along < 0 || along > length || Math.abs(u * dy - v * dx) / length > 1) continue;
      pixels.add(from + v * width + u);
    }
  }
  return pixels;
}

/** The first pixel of ink from a pixel of paper on in a direction, within a reach. */
function toInk({ ink, width, height }, from, angle, reach) {
  for (let step = 0.5; step <= reach + 1; step += 0.5) {
    const x = Math.floor((from % width) + 0.5 + step * Math.cos(angle));
    const y = Math.floor(Math.floor(from / width) + 0.5 + step * Math.sin(angle));
    if (x < 1 || y < 1 || x >= width - 1 || y >= height - 1) return undefined;
    if (ink.data[y * width + x] === 1) return y * width + x;
  }
  return undefined;
}
