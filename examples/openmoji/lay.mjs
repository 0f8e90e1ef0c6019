// The main job on one drawing, checked on the file that it gives.
import { layFlats, writeFlats } from 'underink';
import { compareRegions, measureSeams, readBack } from './measure.mjs';

/** Lays flats, writes them, reads the file back and measures what is in it. */
export function layAndCheck(pixels, options) {
  const { flats: laid, ink, sealed, labels, report } = layFlats(pixels, options);
  const { flats, width, height, bare, blended } = readBack(writeFlats(laid).bytes);
  const drawn = report.bridges.filter((bridge) => bridge.drawn);
  const seams = measureSeams(labels, ink);
  const failures = [];
  const { regions, wrong } = compareRegions(flats, sealed);
  if (options?.plan === undefined) failures.push(...wrong);
  if (width !== pixels.shape[0] || height !== pixels.shape[1]) failures.push('the size differs');
  if (bare > 0) failures.push(`${bare} bare pixels`);
  if (blended > 0) failures.push(`${blended} blended pixels`);
  const bridged = drawn.reduce((sum, bridge) => sum + bridge.length, 0);
  if (drawn.length > 0 && seams.open > 1.1 * bridged) {
    failures.push(
      `open seams of ${seams.open.toFixed(1)} px over ${bridged.toFixed(1)} px of bridges`,
    );
  }
  if (drawn.length === 0 && regions > 1 && seams.open > 0.001 * seams.all) {
    failures.push(`open seams of ${seams.open.toFixed(1)} px without a bridge`);
  }
  const measured = { regions, bare, blended, bridges: drawn.length, bridged, seams };
  return { flats, ink, report, ...measured, failures };
}
