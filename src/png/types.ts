import type { Owned } from '../raster/types.ts';

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

/** An ICC profile as a PNG carries it. */
export interface IccProfile {
  /** 1 to 79 letters of ISO 8859-1 that can be printed, without spaces at either end. */
  readonly name: string;
  readonly bytes: Owned<Uint8Array>;
}
