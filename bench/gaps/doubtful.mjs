// Whether the bridges that are listed as doubtful are the ones that are wrong:
//
//   node bench/gaps/doubtful.mjs [--sets vector,hand,brush] [--half tune] [--drawings 120]
//
// A drawn bridge is wrong when both of its sides are of one true region, one that is not drawn when
// its sides are of two.
import { parseArgs } from 'node:util';
import { labelRegions, raster, sealGaps } from 'underink';
import { eachDrawing, GAPS, REPORTED } from './dataset.mjs';

const { values } = parseArgs({
  options: {
    sets: { type: 'string', default: REPORTED.join() },
    half: { type: 'string', default: 'tune' },
    drawings: { type: 'string', default: '120' },
    limits: { type: 'string', default: '0.2,0.15,0.1,0.05' },
  },
});
const sets = values.sets.split(',');
const request = { gaps: GAPS, half: values.half, drawings: Number(values.drawings), size: 512 };
const limits = values.limits.split(',').map(Number);

for (const set of sets) {
  let [cases, wrong, listed, flagged, caught] = [0, 0, 0, 0, 0];
  const at = limits.map(() => ({ flagged: 0, caught: 0 }));
  for await (const some of eachDrawing({ ...request, sets: [set], doubled: false })) {
    for (const one of some) {
      cases++;
      const { bridges } = sealGaps(raster(one.ink, [one.width, one.height]));
      const wrongs = judge(one, bridges);
      bridges.forEach((bridge, k) => {
        listed++;
        wrong += wrongs[k];
        if (bridge.doubtful) {
          flagged++;
          caught += wrongs[k];
        }
        limits.forEach((limit, i) => {
          if (bridge.probability < limit || bridge.probability > 1 - limit) return;
          at[i].flagged++;
          at[i].caught += wrongs[k];
        });
      });
    }
  }
  const share = (count) => `${(count / cases).toFixed(2)} a drawing`;
  console.log(
    `${set}: ${share(listed)} listed, ${share(wrong)} wrong, ${share(flagged)} doubtful, which has ` +
      `${((100 * caught) / wrong).toFixed(0)} % of the wrong ones`,
  );
  limits.forEach((limit, i) => {
    console.log(
      `  probability ${limit} to ${1 - limit}: ${share(at[i].flagged)}, ` +
        `${((100 * at[i].caught) / wrong).toFixed(0)} %`,
    );
  });
}

/** Per bridge 1 where it is wrong, by the true regions on its sides when all are drawn. */
function judge({ ink, truth, width, height }, bridges) {
  const all = ink.slice();
  const lines = bridges.map(({ from, to }) => pointsOf(from, to));
  for (const points of lines)
    for (const [x, y] of points) all[Math.floor(y) * width + Math.floor(x)] = 1;
  const { labels } = labelRegions(raster(all, [width, height]), { of: 0 });
  const sums = new Map();
  labels.data.forEach((label, i) => {
    if (label === 0 || truth[i] === 0) return;
    const sum = sums.get(label) ?? new Map();
    sums.set(label, sum.set(truth[i], (sum.get(truth[i]) ?? 0) + 1));
  });
  const most = (votes) => [...votes].reduce((a, b) => (b[1] > a[1] ? b : a), [0, 0])[0];
  const regionOf = new Map([...sums].map(([label, sum]) => [label, most(sum)]));
  return bridges.map(({ from, to, drawn, length }, k) => {
    const [nx, ny] = [(from[1] - to[1]) / length, (to[0] - from[0]) / length];
    const [left, right] = [new Map(), new Map()];
    for (const [x, y] of lines[k]) {
      for (const [votes, side] of [
        [left, 1.6],
        [right, -1.6],
      ]) {
        const u = Math.floor(x + side * nx);
        const v = Math.floor(y + side * ny);
        if (u < 0 || v < 0 || u >= width || v >= height) continue;
        const label = labels.data[v * width + u];
        if (label > 0) votes.set(label, (votes.get(label) ?? 0) + 1);
      }
    }
    const [a, b] = [regionOf.get(most(left)) ?? 0, regionOf.get(most(right)) ?? 0];
    if (a === 0 || b === 0) return 0;
    return (a !== b) !== drawn ? 1 : 0;
  });
}

function pointsOf([x0, y0], [x1, y1]) {
  const steps = 4 * Math.ceil(Math.abs(x1 - x0) + Math.abs(y1 - y0)) + 1;
  return Array.from({ length: steps + 1 }, (_, i) => [
    x0 + ((x1 - x0) * i) / steps,
    y0 + ((y1 - y0) * i) / steps,
  ]);
}
