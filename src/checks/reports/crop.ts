import { encodePng } from '../../png/encode.ts';
import { outlineRegions } from '../../polygon/outline.ts';
import { ringData } from '../../polygon/ring-data.ts';
import { base64 } from '../../raster/base64.ts';
import { raster } from '../../raster/raster.ts';
import type { Bounds, Dense, PixelData } from '../../raster/types.ts';
import { eachSpan, type Finding } from '../finding.ts';
import { shrink } from './shrink.ts';

/** A part of a picture to be shown, with where a finding lies in it. */
export interface Crop {
  /** Address of the picture itself, a PNG. */
  readonly href: string;
  /** Sides in its own pixels. */
  readonly width: number;
  readonly height: number;
  /** Outline of the finding in these pixels, as SVG path data. */
  readonly outline: string;
  /** Sides of the square of the sheet's pixels that a pixel of the crop is the mean of. */
  readonly factor: number;
  /** What is shown of the sheet. */
  readonly bounds: Readonly<Bounds>;
}

/** A crop has at most so many pixels along a side, and shows so many round its finding at least. */
const MOST_SIDE = 320;
const MARGIN = 12;

/** The surroundings of a finding. O(pixels shown + spans). */
export function cropRound(picture: Dense<PixelData>, finding: Finding): Crop {
  const { width, height } = picture;
  const [left, top, right, bottom] = finding.bounds;
  const margin = Math.max(MARGIN, Math.ceil(Math.max(right - left, bottom - top) / 4));
  return cropOf(
    picture,
    [
      Math.max(0, left - margin),
      Math.max(0, top - margin),
      Math.min(width, right + margin),
      Math.min(height, bottom + margin),
    ],
    MOST_SIDE,
    finding,
  );
}

/** A part of a picture with at most `mostSide` pixels along a side, shrunk by a whole number. */
export function cropOf(
  picture: Dense<PixelData>,
  bounds: Readonly<Bounds>,
  mostSide: number,
  finding?: Finding,
): Crop {
  const [x0, y0, x1, y1] = bounds;
  const factor = Math.ceil(Math.max(x1 - x0, y1 - y0) / mostSide);
  const { data, width, height } = shrink(picture, bounds, factor);
  const bytes = encodePng({ data, width, height, channels: 4 }, 'pixels', []);
  const href = `data:image/png;base64,${base64(bytes)}`;
  const marked = new Int32Array(width * height);
  const size = [picture.width, picture.height] as const;
  if (finding !== undefined) {
    eachSpan(finding, size, (y, from, to) => {
      const row = Math.floor((y - y0) / factor) * width;
      marked.fill(1, row + Math.floor((from - x0) / factor), row + Math.ceil((to - x0) / factor));
    });
  }
  const outlines = outlineRegions(raster(marked, [width, height]));
  const outline = outlines.flatMap(({ rings }) => rings.map(ringData)).join('');
  return { href, width, height, outline, factor, bounds };
}
