// What is counted on a drawing with known truth.
import sharp from 'sharp';

/** Levels of 255 by which a pixel may miss the mean of its crisp samples and be a true mix of them. */
const NEAR_MEAN = 3;
const LATTICE = [-1, 0, 1];

/** `#rrggbb` of a word. */
export function colorOf(word) {
  const samples = [word & 255, (word >>> 8) & 255, (word >>> 16) & 255];
  return `#${samples.map((v) => v.toString(16).padStart(2, '0')).join('')}`;
}

const pixelsOf = (data, size) => ({ data, width: size, height: size, channels: 4 });

/** With the library's calls first: blends found and missed in the antialiased rendering, and what is reported in the crisp one. */
export function scoreFringe({ findFringe }, { size, soft, hard, colors }) {
  const own = new Set(colors);
  const { mask } = findFringe(pixelsOf(soft, size));
  const words = new Uint32Array(soft.buffer, soft.byteOffset, size * size);
  const score = { blends: 0, found: 0, right: 0, crisp: findFringe(pixelsOf(hard, size)).count };
  for (let i = 0; i < words.length; i++) {
    const blend = !own.has(words[i]);
    if (blend) score.blends++;
    if (mask.data[i] === 1) score.found++;
    if (blend && mask.data[i] === 1) score.right++;
  }
  return score;
}

/**
 * With the library's calls first: wrong pixels on the border, of those the true mixes, and off it. Swatches are told by their exact color; after compression,
 * which moves the colors themselves, by the nearest of the drawing's.
 */
export function scoreHarden({ hardenEdges }, truth, pixels, { exact, palette }) {
  const { size, colors, lead, kind, even } = truth;
  const flats = hardenEdges(pixelsOf(pixels, size), palette && { palette });
  const own = colors.map(colorOf);
  const meant = flats.palette.map(({ color }) =>
    exact ? own.indexOf(color) : nearest(Number.parseInt(color.slice(1), 16), colors),
  );
  const { data } = flats.indices;
  const score = { border: 0, wrong: 0, mixes: 0, wrongMixes: 0, off: 0, wrongOff: 0, ties: 0 };
  for (let i = 0; i < data.length; i++) {
    const wrong = meant[data[i]] !== lead[i];
    if (kind[i] === 2) score.ties++;
    else if (kind[i] === 1) {
      score.border++;
      if (wrong) score.wrong++;
      if (isTrueMix(pixels, even, i)) {
        score.mixes++;
        if (wrong) score.wrongMixes++;
      }
    } else {
      score.off++;
      if (wrong) score.wrongOff++;
    }
  }
  score.swatches = flats.palette.length - 1;
  score.strange = flats.palette.slice(1).filter(({ color }) => !own.includes(color)).length;
  score.used = new Set(data).size;
  return score;
}

/** Whether a pixel is the mix that it claims to be: the mean of its crisp samples, but for little. */
function isTrueMix(pixels, even, i) {
  for (let p = 4 * i; p < 4 * i + 3; p++) {
    if (Math.abs(pixels[p] - even[p]) > NEAR_MEAN) return false;
  }
  return true;
}

/** `rgb` in the order of `#rrggbb`; the index of the nearest of some words. */
function nearest(rgb, words) {
  let best = -1;
  let least = Number.POSITIVE_INFINITY;
  words.forEach((word, k) => {
    const d = far((rgb >>> 16) & 255, (rgb >>> 8) & 255, rgb & 255, word);
    if (d < least) {
      least = d;
      best = k;
    }
  });
  return best;
}

function far(r, g, b, word) {
  const dr = r - (word & 255);
  const dg = g - ((word >>> 8) & 255);
  const db = b - ((word >>> 16) & 255);
  return dr * dr + dg * dg + db * db;
}

/**
 * Wrong pixels of a reference that is told which colors the truth has in the 3 × 3 pixels round each
 * pixel, and takes the nearest of them.
 */
export function scoreReference({ size, colors, lead, kind }, pixels) {
  const score = { border: 0, wrong: 0, off: 0, wrongOff: 0 };
  for (let i = 0; i < kind.length; i++) {
    if (kind[i] === 2) continue;
    const x = i % size;
    const y = (i - x) / size;
    let best = -1;
    let least = Number.POSITIVE_INFINITY;
    for (const dy of LATTICE) {
      for (const dx of LATTICE) {
        if (x + dx < 0 || y + dy < 0 || x + dx >= size || y + dy >= size) continue;
        const k = lead[i + dy * size + dx];
        const d = far(pixels[4 * i], pixels[4 * i + 1], pixels[4 * i + 2], colors[k]);
        if (d >= least) continue;
        least = d;
        best = k;
      }
    }
    const wrong = best === lead[i] ? 0 : 1;
    if (kind[i] === 1) {
      score.border++;
      score.wrong += wrong;
    } else {
      score.off++;
      score.wrongOff += wrong;
    }
  }
  return score;
}

/** RGBA after a JPEG round trip. */
export async function jpegTrip(rgba, size, quality, chromaSubsampling) {
  const raw = { width: size, height: size, channels: 4 };
  const jpeg = sharp(rgba, { raw }).removeAlpha().jpeg({ quality, chromaSubsampling });
  return new Uint8Array(
    await sharp(await jpeg.toBuffer())
      .ensureAlpha()
      .raw()
      .toBuffer(),
  ).slice();
}
