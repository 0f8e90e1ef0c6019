// Peers: native libraries by Python, OpenCV.js, and image-js.
import { createRequire } from 'node:module';
import { fileURLToPath } from 'node:url';
import { startNative } from '../native.mjs';

/** The native peer, undefined where Debian's python3-opencv is missing. */
export async function openNative(rounds) {
  const script = fileURLToPath(new URL('peer.py', import.meta.url));
  return await startNative(script, [], rounds).catch(() => undefined);
}

/** What OpenCV.js does of the same jobs: name of a job to `(page, request) => milliseconds`. */
export async function openWasm() {
  const cv = createRequire(import.meta.url)('@techstark/opencv-js');
  if (cv.Mat === undefined) {
    await new Promise((resolve) => {
      cv.onRuntimeInitialized = resolve;
    });
  }
  const simple = (call) => (page) => {
    const gray = matOf(page);
    const out = new cv.Mat();
    const start = performance.now();
    call(gray, out);
    const ms = performance.now() - start;
    gray.delete();
    out.delete();
    return ms;
  };
  const paperOf = (gray) => cv.threshold(gray, gray, 127, 255, cv.THRESH_BINARY);
  const onPaper = (call) => (page) => {
    const paper = matOf(page);
    paperOf(paper);
    const out = new cv.Mat();
    const start = performance.now();
    call(paper, out);
    const ms = performance.now() - start;
    paper.delete();
    out.delete();
    return ms;
  };
  function matOf({ data, width, height }) {
    const mat = new cv.Mat(height, width, cv.CV_8UC1);
    mat.data.set(data);
    return mat;
  }
  return {
    mask: simple((gray, out) => cv.threshold(gray, out, 127, 1, cv.THRESH_BINARY_INV)),
    otsu: simple((gray, out) =>
      cv.threshold(gray, out, 0, 1, cv.THRESH_BINARY_INV + cv.THRESH_OTSU),
    ),
    adaptive: simple((gray, out) =>
      cv.adaptiveThreshold(gray, out, 1, cv.ADAPTIVE_THRESH_MEAN_C, cv.THRESH_BINARY_INV, 51, 10),
    ),
    label4: onPaper((paper, out) => cv.connectedComponents(paper, out, 4)),
    distance: onPaper((paper, out) =>
      cv.distanceTransform(paper, out, cv.DIST_L2, cv.DIST_MASK_PRECISE),
    ),
    whole: simple((gray, out) => {
      const labels = new cv.Mat();
      paperOf(gray);
      cv.distanceTransform(gray, out, cv.DIST_L2, cv.DIST_MASK_PRECISE);
      cv.connectedComponents(gray, labels, 4);
      labels.delete();
    }),
  };
}

/**
 * The same of image-js, undefined where it is not installed. Its regions are those of ink and of paper
 * at once.
 */
export async function openImageJs() {
  const library = await import('image-js').catch(() => undefined);
  if (library === undefined) return undefined;
  const { fromMask, Image } = library;
  const imageOf = ({ data, width, height }) =>
    new Image(width, height, { data, colorModel: 'GREY' });
  const timed = (run) => {
    const start = performance.now();
    run();
    return performance.now() - start;
  };
  return {
    mask: (page) => timed(() => imageOf(page).threshold({ threshold: 0.5 })),
    otsu: (page) => timed(() => imageOf(page).threshold({ algorithm: 'otsu' })),
    label4: (page) => {
      const paper = imageOf(page).threshold({ threshold: 0.5 });
      return timed(() => fromMask(paper));
    },
  };
}
