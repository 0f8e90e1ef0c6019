import type { Packed } from '../raster/pack.ts';
import type { Tick } from '../raster/progress.ts';
import { findParts, type Parts, partAt } from '../runs/parts.ts';

/** What is known of faces by their numbers. */
export interface FaceMeasures {
  /** Faces are 1..count. */
  readonly count: number;
  readonly area: Float64Array;
  /** Sides of pixels where a face meets ink, a bridge or the picture's border. */
  readonly perimeter: Float64Array;
  /** 1 where a face touches the border of the picture. */
  readonly outer: Uint8Array;
}

/** The faces that ink and bridges, all drawn at once, cut the paper into. */
export interface FaceMap extends FaceMeasures {
  readonly parts: Parts;
}

/** O(pixels / 32 + runs + bridge pixels); 12 bytes per run. */
export function mapFaces(packed: Packed, bridges: readonly Int32Array[], tick?: Tick): FaceMap {
  const { width, height, stride } = packed;
  const words = packed.words.slice();
  for (const pixels of bridges) {
    for (const p of pixels) {
      words[Math.floor(p / width) * stride + ((p % width) >>> 5)]! |= 1 << ((p % width) & 31);
    }
  }
  return facesOf(findParts({ words, width, height, stride }, tick));
}

/** The faces that are these parts of the paper. */
export function facesOf(parts: Parts): FaceMap {
  const { count, area, perimeter, rim } = parts;
  const outer = new Uint8Array(rim.length);
  for (let face = 0; face < rim.length; face++) outer[face] = rim[face]! > 0 ? 1 : 0;
  return { count, area, perimeter, outer, parts };
}

/** The face of a pixel; 0 on ink and bridges. */
export function faceAt({ parts }: FaceMap, x: number, y: number): number {
  return partAt(parts, x, y);
}
