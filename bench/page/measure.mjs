// What is measured of one page, in Node and in a browser's worker alike.
import { layFlats, openPage } from 'underink';
import { correctionsOf, MARKS, randomFrom } from './corrections.mjs';

function timed(work) {
  const start = performance.now();
  const result = work();
  return [performance.now() - start, result];
}
const sorted = (list) => [...list].sort((a, b) => a - b);
const median = (list) => sorted(list)[list.length >> 1];
const high = (list) => sorted(list)[Math.min(list.length - 1, Math.floor(0.95 * list.length))];
const ms = (value) => (value < 10 ? value.toFixed(1) : value.toFixed(0));

/** Prints the figures of a page; `held` gives the bytes that are held, where that can be known. */
export function measurePage({ name, pixels, plan, corrections, held, print }) {
  const [width, height] = pixels.shape;
  const settings = { unnamed: plan.marks.length === 0 ? 'each' : 'claim' };
  const first = { ...plan, settings };
  layFlats(pixels, { plan: first });
  openPage(pixels, { plan: first });
  const laying = [1, 2, 3].map(() => timed(() => layFlats(pixels, { plan: first }))[0]);
  const opening = [1, 2, 3].map(() => timed(() => openPage(pixels, { plan: first }))[0]);
  const before = held?.();
  const page = openPage(pixels, { plan: first });
  const bytes = held && held() - before;
  const saved = page.save();
  const restoring = [1, 2, 3].map(() => timed(() => openPage(saved))[0]);

  const random = randomFrom(7);
  const make = correctionsOf(first, page.report.bridges, random);
  const kinds = Object.keys(make);
  const times = Object.fromEntries(kinds.map((kind) => [kind, []]));
  const undo = [];
  const leaks = [];
  const read = new Set();
  for (const kind of kinds) page.update(make[kind]());
  page.update(first);
  for (let k = 0; k < corrections; k++) {
    const kind = kinds[k % kinds.length];
    const next = make[kind]();
    times[kind].push(timed(() => page.update(next))[0]);
    for (const conflict of page.report.conflicts) {
      const key = JSON.stringify([conflict.point, conflict.by]);
      if (!read.has(key)) leaks.push(timed(() => conflict.leaks)[0]);
      read.add(key);
    }
    undo.push(timed(() => page.update(first))[0]);
  }
  const lookup = timed(() => {
    let sum = 0;
    for (let k = 0; k < 1e6; k++) sum += page.regionAt([(k * 7919) % width, (k * 104729) % height]);
    return sum;
  })[0];
  const at = [Math.floor(width / 3), Math.floor(height / 3)];
  page.composeWithin([at[0], at[1], at[0] + 500, at[1] + 500]);
  const composing = Array.from({ length: 20 }, (_, k) => {
    return timed(() => page.composeWithin([at[0] + k, at[1], at[0] + k + 500, at[1] + 500]))[0];
  });
  const near = [
    ...new Set([...Array(400)].map(() => page.regionAt([random() * width, random() * height]))),
  ];
  const sized = near
    .map((id) => ({ id, ...page.regionMask(id) }))
    .filter(({ bounds: [x0, y0, x1, y1] }) => (x1 - x0) * (y1 - y0) <= 250_000)
    .sort((a, b) => b.mask.size - a.mask.size)
    .slice(0, 10);
  const masks = sized.map(({ id }) => timed(() => page.regionMask(id))[0]);
  const outlines = sized.map(({ id }) => timed(() => page.regionOutline(id))[0]);

  print(
    `## ${name}: ${width} × ${height}, ${page.report.regions} regions, ${plan.marks.length} marks\n`,
  );
  print('| correction | median ms | 95th percentile ms | times of layFlats |');
  print('|---|--:|--:|--:|');
  const row = (label, list) => {
    const share = (median(list) / median(laying)).toFixed(3);
    print(`| ${label} | ${ms(median(list))} | ${ms(high(list))} | ${share} |`);
  };
  row(
    'one mark of any kind',
    MARKS.flatMap((kind) => times[kind]),
  );
  for (const kind of kinds) row(kind, times[kind]);
  row('undo', undo);
  print('');
  print(
    `- layFlats ${ms(median(laying))} ms, openPage ${ms(median(opening))} ms, restoring ${ms(median(restoring))} ms`,
  );
  if (leaks.length > 0) {
    print(
      `- leaks of a conflict, when they are first read: median ${ms(median(leaks))} ms, 95th percentile ${ms(high(leaks))} ms of ${leaks.length}`,
    );
  }
  print(
    `- regionAt ${(lookup / 1000).toFixed(3)} µs, composeWithin of 500 × 500 ${ms(median(composing))} ms`,
  );
  print(
    `- mask ${ms(median(masks))} ms and outline ${ms(median(outlines))} ms of the ${sized.length} largest of ${near.length} regions with bounds of up to 500 × 500 pixels`,
  );
  if (bytes !== undefined) {
    print(
      `- an open page holds ${(bytes / (width * height)).toFixed(1)} bytes a pixel beside its input`,
    );
  }
}
