import { pixelsArgument } from '../raster/arguments.ts';
import { sampleOffsets } from '../raster/samples.ts';
import type { Dense, PixelData } from '../raster/types.ts';
import { clearPaper } from './clear-paper.ts';

/** A line on transparent paper: as it is, or a scan whose paper and blue pencil are cleared. */
export function lineAlone(line: Dense<PixelData>): Dense<PixelData> {
  return isSeeThrough(line) ? line : pixelsArgument(clearPaper(line, { dropHue: 'blue' }), 'line');
}

/** Whether any pixel has an alpha below full. */
function isSeeThrough(line: Dense<PixelData>): boolean {
  const { data, channels } = line;
  const { alpha, full } = sampleOffsets(line);
  if (alpha < 0) return false;
  for (let i = alpha; i < data.length; i += channels) if (data[i]! < full) return true;
  return false;
}
