// What happens to drawings and flats on their way: scanned, scaled, noisy.
import { raster } from 'underink';

/** Half the size, each pixel the mean of four. */
export function halved({ data, shape: [width, height] }) {
  const [w, h] = [width >> 1, height >> 1];
  const out = raster(new Uint8Array(3 * w * h), [w, h, 3]);
  for (let y = 0, k = 0; y < h; y++) {
    for (let x = 0; x < w; x++) {
      const at = 4 * (2 * y * width + 2 * x);
      const below = at + 4 * width;
      for (let c = 0; c < 3; c++, k++) {
        out.data[k] = (data[at + c] + data[at + 4 + c] + data[below + c] + data[below + 4 + c]) / 4;
      }
    }
  }
  return out;
}

/** Yellowed paper, light that falls off to the right, and lines in blue pencil across. */
export function scanned({ data, shape: [width, height, channels = 1] }) {
  const out = raster(new Uint8Array(3 * width * height), [width, height, 3]);
  for (let y = 0, k = 0; y < height; y++) {
    for (let x = 0; x < width; x++) {
      const light = (data[channels * (y * width + x)] / 255) * (1 - (0.3 * x) / width);
      const isPencil = Math.abs(((y + 0.3 * x) % 400) - 200) < 3;
      const paper = isPencil ? [150, 190, 240] : [244, 238, 222];
      for (let c = 0; c < 3; c++, k++) out.data[k] = paper[c] * light;
    }
  }
  return out;
}

/** Grain of the given strength in levels, and specks of one to nine pixels; the same at every run. */
export function noisy({ data, shape: [width, height, channels = 1] }, { grain, specks }) {
  const random = mulberry(7);
  const out = raster(new Uint8Array(width * height), [width, height]);
  for (let i = 0; i < out.data.length; i++) {
    const normal = random() + random() + random() + random() - 2;
    const tone = 236 * (data[channels * i] / 255) + 12;
    out.data[i] = Math.max(0, Math.min(255, tone + grain * normal * Math.sqrt(3)));
  }
  for (let n = 0; n < specks; n++) {
    const [x0, y0] = [Math.floor(random() * (width - 3)), Math.floor(random() * (height - 3))];
    const [w, h] = [1 + Math.floor(random() * 3), 1 + Math.floor(random() * 3)];
    for (let y = y0; y < y0 + h; y++) out.data.fill(40, y * width + x0, y * width + x0 + w);
  }
  return out;
}

/** Numbers in [0, 1) of a seed. */
function mulberry(seed) {
  let state = seed;
  return () => {
    state = (state + 0x6d2b79f5) | 0;
    let t = Math.imul(state ^ (state >>> 15), 1 | state);
    t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t;
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  };
}
