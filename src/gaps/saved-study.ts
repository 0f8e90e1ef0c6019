import { checkSize } from '../raster/checks.ts';
import { wrongKind, wrongValue } from '../raster/errors.ts';
import type { Bounds } from '../raster/types.ts';
import type { StrokeEnd } from '../strokes/stroke-ends.ts';
import type { StrokeWidth } from '../strokes/stroke-width.ts';
import type { Candidate } from './bridge.ts';

const KIND = 'underink gap study';
const VERSION = 1;

/**
 * A study as plain data: what structured clone, `postMessage` and IndexedDB take. What it holds beside
 * the first three fields is for `restoreStudy` alone, and may differ in another version.
 */
export interface SavedStudy {
  readonly kind: typeof KIND;
  readonly version: typeof VERSION;
  /** `[width, height]` of the ink. */
  readonly size: readonly [number, number];
  /** The ink, 32 pixels a word, each row from a word of its own on. */
  readonly ink: Uint32Array;
  readonly stroke: StrokeWidth;
  readonly ends: readonly StrokeEnd[];
  readonly candidates: readonly Candidate[];
  readonly texture: readonly Bounds[];
}

/** Names the kind and the version of data that is saved. */
export function studyHead(
  size: readonly [number, number],
): Pick<SavedStudy, 'kind' | 'version' | 'size'> {
  return { kind: KIND, version: VERSION, size };
}

/** Refuses what is no saved study, or one of another version. */
export function checkSavedStudy(data: SavedStudy, name: string): SavedStudy {
  checkHead(data, name, KIND, VERSION, 'what save() of a study gives');
  const [width, height] = checkSize(data.size, `${name}.size`);
  const words = Math.ceil(width / 32) * height;
  if (!(data.ink instanceof Uint32Array) || data.ink.length !== words) {
    throw wrongKind(`${name}.ink`, `a Uint32Array of ${words} words`, data.ink);
  }
  return data;
}

/** Refuses saved data of another kind or version. */
export function checkHead(
  data: { readonly kind: unknown; readonly version: unknown },
  name: string,
  kind: string,
  version: number,
  allowed: string,
): void {
  if (typeof data !== 'object' || data === null || data.kind !== kind) {
    throw wrongKind(name, allowed, data);
  }
  if (data.version !== version) {
    throw wrongValue(`${name}.version`, `${version}, the format of this release`, data.version);
  }
}
