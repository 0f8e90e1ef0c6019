// Times of each call a pixel on pictures of the worst kind, in a run of their own.
import { checkFlats, findFringe, hardenEdges } from 'underink';

const SIDE = 2048;
const CALLS = {
  findFringe,
  hardenEdges,
  checkFlats: (pixels) => checkFlats(pixels, { checks: ['blended'] }),
};
const PICTURES = {
  noise: (_x, _y, i) => Math.imul(i ^ (i >>> 7), 0x9e3779b1) >>> 8,
  checkerboard: (x, y) => ((x + y) % 2 === 0 ? 0x2030c0 : 0xffffff),
  'stripes of 1 pixel': (x) => (x % 2 === 0 ? 0x2030c0 : 0xffffff),
};

/** Nanoseconds a pixel by picture and call. */
export function measureNoise() {
  const pictures = Object.entries(PICTURES).map(([name, value]) => {
    const words = Uint32Array.from({ length: SIDE * SIDE }, (_, i) => {
      return value(i % SIDE, Math.floor(i / SIDE), i) | 0xff000000;
    });
    const pixels = { data: new Uint8Array(words.buffer), width: SIDE, height: SIDE, channels: 4 };
    const times = Object.entries(CALLS).map(([call, run]) => {
      const start = performance.now();
      run(pixels);
      return [call, ((performance.now() - start) * 1e6) / words.length];
    });
    return { name, times: Object.fromEntries(times) };
  });
  return { side: SIDE, pictures };
}
