// Areas filled with black: hair, pupils, boots, shadows.
import { labelRegions, raster } from 'underink';
import { inkField } from './field.mjs';
import { between, pick, smoothNoise } from './random.mjs';

/** Share of the picture that the largest filled area has. */
const LARGEST = 0.05;

/** Paper regions of a drawing, and which of them touch its border. */
export function paperOf({ ink, width, height }) {
  const { labels, count } = labelRegions(raster(ink, [width, height]), { of: 0 });
  const label = labels.data;
  const areas = new Int32Array(count + 1);
  for (const id of label) areas[id]++;
  const outer = new Uint8Array(count + 1);
  for (let x = 0; x < width; x++) outer[label[x]] = outer[label[(height - 1) * width + x]] = 1;
  for (let y = 0; y < height; y++) outer[label[y * width]] = outer[label[(y + 1) * width - 1]] = 1;
  outer[0] = 0;
  return { label, areas, outer, count };
}

/** Fills some of the figure's regions, wholly, beyond a line, up to a rim, or but for a light. */
export function addBlacks(drawing, pen, random) {
  const { ink, width, height } = drawing;
  const { label, areas, outer, count } = paperOf(drawing);
  const share = random() < 0.45 ? between(random, 0.05, 0.3) : 0;
  const shareOfSmall = random() < 0.6 ? between(random, 0.1, 0.7) : 0;
  const small = 25 * pen * pen;
  const forms = [];
  let left = Math.max(3, 0.6 * count);
  for (let id = 1; id <= count; id++) {
    const isSmall = areas[id] < small;
    const wanted = random() < (isSmall ? shareOfSmall : share);
    if (!wanted || outer[id] || areas[id] > LARGEST * ink.length || left-- < 1) continue;
    forms[id] = isSmall && random() < 0.7 ? () => true : formOf(areas[id], pen, random);
  }
  if (forms.length === 0) return;
  const middles = middlesOf(label, width, count);
  const field = inkField(drawing);
  for (let y = 0, i = 0; y < height; y++) {
    for (let x = 0; x < width; x++, i++) {
      const form = forms[label[i]];
      if (form?.(x - middles.x[label[i]], y - middles.y[label[i]], field.distance(x, y)))
        ink[i] = 1;
    }
  }
}

/** Which points of a region are black, by their place from its middle and their distance from ink. */
function formOf(area, pen, random) {
  const side = Math.sqrt(area);
  const angle = random() * 2 * Math.PI;
  const [cos, sin] = [Math.cos(angle), Math.sin(angle)];
  const off = between(random, -0.3, 0.3) * side;
  const wave = smoothNoise(random);
  const ripple = between(random, 0, 0.25) * side;
  const pitch = between(random, 0.08, 0.5) * side;
  const rim = pen * between(random, 0.5, 1.6);
  const size = between(random, 0.08, 0.2) * side;
  const beyond = (x, y) =>
    x * cos + y * sin > off + ripple * wave((y * cos - x * sin) / pitch, 0.5);
  const unlit = (x, y) => {
    const [u, v] = [x + off - 0.1 * side, y + 0.2 * side];
    return (u * cos + v * sin) ** 2 + 5 * (v * cos - u * sin) ** 2 > size * size;
  };
  const within = (_x, _y, distance) => distance > rim;
  return pick(random, [() => true, () => true, beyond, beyond, unlit, within]);
}

function middlesOf(label, width, count) {
  const [x, y, n] = [0, 1, 2].map(() => new Float64Array(count + 1));
  for (let i = 0; i < label.length; i++) {
    x[label[i]] += i % width;
    y[label[i]] += Math.floor(i / width);
    n[label[i]]++;
  }
  return { x: x.map((sum, id) => sum / n[id]), y: y.map((sum, id) => sum / n[id]) };
}
