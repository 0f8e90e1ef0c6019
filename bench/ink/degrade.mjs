// What a scanner, a camera or a pencil does to a page of ink, in steps. Each way gives RGB.
import { seeded, smoothNoise } from '../gaps/random.mjs';
import { HEIGHT, WIDTH } from './pages.mjs';

/** Tones of the paper, solid ink and pencil, 0 to 255, and the grain of the paper in levels. */
const PAPER = 240;
const INK = 30;
const PENCIL = 150;
const GRAIN = 1.5;

/** The ways and their steps, weakest first. */
export const DEGRADATIONS = [
  { name: 'noise', unit: 'σ in levels', steps: [2, 5, 10, 15, 20] },
  { name: 'fall-off of light', unit: '% from left to right', steps: [10, 20, 30, 45] },
  { name: 'fall-off of light on pencil', unit: '% from left to right', steps: [10, 20, 30, 45] },
  { name: 'blur', unit: 'σ in pixels', steps: [0.5, 1, 1.5, 2] },
  { name: 'blue pencil', unit: '% of the density of `#a4dded`', steps: [50, 100, 150, 250] },
  { name: 'specks', unit: 'in 100,000 pixels', steps: [10, 30, 100, 300] },
];

/** RGB of a page after one step of one way. */
export function degrade({ name, cover }, way, step) {
  const random = seeded(`${name} ${way} ${step}`);
  const normal = normalNumbers(random);
  const blurred = way === 'blur' ? blur(cover, step) : cover;
  const marks = way === 'specks' ? addSpecks(blurred, step, random) : blurred;
  const under = way === 'blue pencil' ? pencilLines(step, random) : undefined;
  const noise = way === 'noise' ? step : 0;
  const fall = way.startsWith('fall-off') ? step / 100 : 0;
  const ink = way.endsWith('on pencil') ? PENCIL : INK;
  const mottle = smoothNoise(random);
  const rgb = new Uint8Array(3 * WIDTH * HEIGHT);
  for (let y = 0; y < HEIGHT; y++) {
    for (let x = 0; x < WIDTH; x++) {
      const i = y * WIDTH + x;
      const light = 1 - (fall * x) / (WIDTH - 1);
      const grain = GRAIN * normal() + 2 * mottle(x / 40, y / 40);
      const shot = noise * normal();
      for (let c = 0; c < 3; c++) {
        const paper = (PAPER + grain) * (under === undefined ? 1 : under[3 * i + c]);
        const tone = light * (paper + marks[i] * (ink - paper)) + shot;
        rgb[3 * i + c] = Math.min(255, Math.max(0, Math.round(tone)));
      }
    }
  }
  return rgb;
}

/** Normally distributed numbers, by Box and Muller. */
function normalNumbers(random) {
  return () => Math.sqrt(-2 * Math.log(1 - random())) * Math.cos(2 * Math.PI * random());
}

function blur(cover, sigma) {
  const reach = Math.ceil(3 * sigma);
  const weights = Array.from({ length: 2 * reach + 1 }, (_, k) =>
    Math.exp(-((k - reach) ** 2) / (2 * sigma * sigma)),
  );
  const total = weights.reduce((a, b) => a + b);
  const along = (source, stride, at, n) => {
    const out = new Float32Array(source.length);
    for (let i = 0; i < source.length; i++) {
      const place = at(i);
      let sum = 0;
      for (let k = -reach; k <= reach; k++) {
        const to = Math.min(n - 1, Math.max(0, place + k));
        sum += weights[k + reach] * source[i + (to - place) * stride];
      }
      out[i] = sum / total;
    }
    return out;
  };
  const rows = along(cover, 1, (i) => i % WIDTH, WIDTH);
  return along(rows, WIDTH, (i) => Math.floor(i / WIDTH), HEIGHT);
}

/** Dark specks of one to nine pixels, as dust on the glass leaves them. */
function addSpecks(cover, density, random) {
  const out = cover.slice();
  const count = Math.round((density * cover.length) / 1e5);
  for (let s = 0; s < count; s++) {
    let at = Math.floor(random() * cover.length);
    const size = 1 + Math.floor(9 * random() ** 2);
    for (let k = 0; k < size; k++) {
      out[at] = Math.max(out[at], 0.7 + 0.3 * random());
      const next = at + [1, -1, WIDTH, -WIDTH][Math.floor(4 * random())];
      if (next >= 0 && next < cover.length) at = next;
    }
  }
  return out;
}

/** What twenty long pencil lines across the page leave of each sample, 0 to 1. */
function pencilLines(strength, random) {
  const left = new Float32Array(3 * WIDTH * HEIGHT).fill(1);
  // Non-photo blue, #a4dded, as shares of white; at twice the density it takes them twice.
  const solid = [164 / 255, 221 / 255, 237 / 255].map((share) => share ** (strength / 100));
  for (let line = 0; line < 20; line++) {
    const [x0, y0] = [random() * WIDTH, random() * HEIGHT];
    const angle = random() * Math.PI;
    const [nx, ny] = [-Math.sin(angle), Math.cos(angle)];
    const half = 1 + 2 * random();
    for (let y = 0; y < HEIGHT; y++) {
      for (let x = 0; x < WIDTH; x++) {
        const off = Math.abs((x + 0.5 - x0) * nx + (y + 0.5 - y0) * ny);
        const share = Math.min(1, Math.max(0, half + 0.5 - off));
        if (share === 0) continue;
        for (let c = 0; c < 3; c++) {
          const k = 3 * (y * WIDTH + x) + c;
          left[k] = Math.min(left[k], 1 - share * (1 - solid[c]));
        }
      }
    }
  }
  return left;
}
