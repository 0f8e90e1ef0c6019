/** Pixels per unit on either axis, as pHYs holds them: whole numbers from 1 to 2^31 − 1. */
export interface Resolution {
  readonly x: number;
  readonly y: number;
  /**
   * `meter`: 300 dots per inch are `Math.round(300 / 0.0254)`, 11811. `unknown`: `x` and `y` say
   * no more than the proportions of a pixel.
   */
  readonly unit: 'meter' | 'unknown';
}

/** Bytes of a file; a Node `Buffer` is a Uint8Array. */
export type PngBytes = Uint8Array | ArrayBuffer | SharedArrayBuffer;
