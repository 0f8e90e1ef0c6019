/** Sides of a picture in pixels. */
export interface Sides {
  readonly width: number;
  readonly height: number;
}
