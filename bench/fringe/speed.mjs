// Times on a page of A4 at 600 dpi beside a copy of the same pixels, interleaved in one run.
import { createHash } from 'node:crypto';
import { findFringe, hardenEdges } from 'underink';
import { colorDrawings, RENDERERS } from './drawings.mjs';

const WIDTH = 4960;
const HEIGHT = 7016;
const ROUNDS = 7;
/** Sides of the drawings that tile the page, in pixels. */
const TILES = [1240, 496];

export async function measureSpeed() {
  const pages = [];
  for (const tile of TILES) pages.push(await measurePage(tile));
  return { width: WIDTH, height: HEIGHT, pages };
}

async function measurePage(tile) {
  const data = await pageOf(tile);
  const pixels = { data, width: WIDTH, height: HEIGHT, channels: 4 };
  const times = { copy: [], find: [], harden: [] };
  let found;
  let flats;
  for (let round = 0; round <= ROUNDS; round++) {
    const copy = time(() => data.slice());
    const find = time(() => {
      found = findFringe(pixels);
    });
    const harden = time(() => {
      flats = hardenEdges(pixels);
    });
    if (round === 0) continue; // warm-up
    times.copy.push(copy);
    times.find.push(find);
    times.harden.push(harden);
  }
  const checksum = createHash('sha256').update(flats.indices.data).digest('hex').slice(0, 12);
  return { tile, blends: found.count, checksum, times };
}

async function pageOf(tile) {
  const page = new Uint32Array(WIDTH * HEIGHT).fill(0xffffffff);
  const { drawings } = colorDrawings(Math.floor(WIDTH / tile) * Math.floor(HEIGHT / tile));
  let k = 0;
  for (let y = 0; y + tile <= HEIGHT; y += tile) {
    for (let x = 0; x + tile <= WIDTH; x += tile) {
      const words = new Uint32Array(
        (await RENDERERS.resvg(drawings[k++].svg, tile, false)).slice().buffer,
      );
      for (let r = 0; r < tile; r++) {
        page.set(words.subarray(r * tile, (r + 1) * tile), (y + r) * WIDTH + x);
      }
    }
  }
  return new Uint8Array(page.buffer);
}

function time(run) {
  const start = performance.now();
  run();
  return performance.now() - start;
}
