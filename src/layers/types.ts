import type { Swatch } from '../palette/types.ts';
import type { Resolution } from '../png/types.ts';
import type { Pixels, PixelsLike } from '../raster/types.ts';

/** What `writeLayers` notes of a layer; files of other programs say nothing of it. */
export type LayerRole = 'line' | 'flats' | 'swatch' | 'ground';

/** A picture that lies on those after it in the list. */
export interface Layer {
  /** Its own name, without those of the stacks that it stands in; may be empty, and need not be unique. */
  readonly name: string;
  /** Names of the stacks that it stands in, the outermost first. */
  readonly groups: readonly string[];
  /** `[w, h, c]` as its PNG holds them, 8 or 16 bit. */
  readonly pixels: Pixels<Uint8Array | Uint16Array>;
  /** Where its first pixel lies on the whole picture, in whole pixels; may be negative. */
  readonly offset: readonly [x: number, y: number];
  /** 0 to 1, those of its stacks multiplied in. */
  readonly opacity: number;
  /** Whether it is shown, and all its stacks with it. */
  readonly visible: boolean;
  /** The `composite-op` of the layer itself: `svg:src-over` lays it over what is below. */
  readonly mode: string;
  readonly role?: LayerRole;
  /** Place of its swatch in the palette that was written. */
  readonly index?: number;
  /** The palette that was written, with a layer that holds all flats. */
  readonly palette?: readonly Swatch[];
}

/** What a layered file holds. */
export interface LayeredPicture {
  /** The topmost first. */
  readonly layers: readonly Layer[];
  /** `[width, height]` of the whole picture, in pixels. */
  readonly size: readonly [number, number];
  /** Absent where the file does not say. */
  readonly resolution?: Resolution;
}

/** A layer as an argument: a raster with a name; the rest has the values of a plain layer. */
export interface LayerLike {
  readonly name: string;
  readonly pixels: PixelsLike;
  /** @default [0, 0] */
  readonly offset?: readonly [x: number, y: number] | undefined;
  /** @default none */
  readonly groups?: readonly string[] | undefined;
  /** @default 1 */
  readonly opacity?: number | undefined;
  /** @default true */
  readonly visible?: boolean | undefined;
  /** @default 'svg:src-over' */
  readonly mode?: string | undefined;
  readonly role?: LayerRole | undefined;
  readonly index?: number | undefined;
  readonly palette?: readonly Swatch[] | undefined;
}
