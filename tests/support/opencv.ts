import { createRequire } from 'node:module';

type OpenCV = typeof import('@techstark/opencv-js');

/**
 * OpenCV (general-purpose computer vision library) as `@techstark/opencv-js`, when it is ready.
 *
 * The module has a `then` that gives itself, so an import of it would wait for ever; for the same
 * reason it comes in a box.
 */
export function loadOpenCV(): Promise<{ cv: OpenCV }> {
  const cv: OpenCV = createRequire(import.meta.url)('@techstark/opencv-js');
  return new Promise((resolve) => {
    if (typeof cv.Mat === 'function') resolve({ cv });
    else cv.onRuntimeInitialized = () => resolve({ cv });
  });
}
