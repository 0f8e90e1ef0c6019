import { it } from 'vitest';
import { fillNearest } from '../../src/distance/nearest-label.ts';
import { squaredDistance } from '../../src/distance/squared-distance.ts';
import { expectTicks } from '../support/ticks.ts';

it('kernels over rows tell their share of the work every 64 rows', () => {
  const [width, height] = [3, 1000];
  const labels = new Int32Array(width * height).fill(4, 0, 1);
  expectTicks((tick) => fillNearest(labels, width, height, tick), { least: (2 * height) / 64 });
  const mask = new Uint8Array(width * height).fill(1, 0, 1);
  expectTicks((tick) => void squaredDistance(mask, width, height, tick), {
    least: (2 * height) / 64,
  });
});
