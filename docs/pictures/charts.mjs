// Charts of what docs/gap-model.md has measured, and of the settings on the demo's sheet
// (docs/guide/04-gaps.md).
import { readFileSync } from 'node:fs';
import { save } from './canvas.mjs';
import { gaps, laid } from './saltmarrow.mjs';

const COLORS = ['#0072b2', '#d55e00', '#009e73'];
const text = readFileSync(new URL('../gap-model.md', import.meta.url), 'utf8');

/** The rows of the table: what is called `set, method`, and corrections at each opening. */
const rows = [...text.matchAll(/^\| (\w+), (none|seal) +\|(.+)\|$/gm)].map(
  ([, set, method, cells]) => {
    const values = cells.split('|').map((cell) => Number.parseFloat(cell));
    return { set, method, corrections: values.slice(0, -1) };
  },
);
const [, head] = /^\| +\| control +\|(.+)\| mean/m.exec(text);
const openings = [0, ...head.split('|').map((cell) => Number.parseFloat(cell))];

save(
  'gap-curves.svg',
  chart({
    title: 'Corrections a drawing needs, by the width of its gaps',
    x: { label: 'width of the gaps, pixels', ticks: openings, most: 24 },
    y: { label: 'corrections', ticks: [0, 1, 2, 3, 4, 5, 6], most: 6 },
    curves: rows.map(({ set, method, corrections }) => ({
      name: `${set}, ${method === 'none' ? 'gaps left open' : 'defaults'}`,
      color: COLORS[['vector', 'hand', 'brush'].indexOf(set)],
      dashed: method === 'none',
      points: corrections.map((value, i) => [openings[i], value]),
    })),
  }),
);

const cautions = [0.1, 0.2, 0.3, 0.4, 0.5, 0.6, 0.7, 0.8, 0.9];
const sealed = cautions.map((caution) => laid.study.seal({ caution, maxGap: 'auto' }));
const isNear = ({ from, to }, { x, y, opening }) =>
  Math.hypot((from[0] + to[0]) / 2 - x, (from[1] + to[1]) / 2 - y) < opening + 16;
const drawn = sealed.map(({ bridges }) => bridges.filter((one) => one.drawn));

const cutGaps = drawn.map(
  (some) => gaps.filter((gap) => some.some((one) => isNear(one, gap))).length,
);
save(
  'caution.svg',
  chart({
    title: 'The demo’s sheet under every caution',
    x: { label: 'caution', ticks: cautions, most: 1 },
    y: { label: 'number', ticks: [0, 20, 40, 60, 80, 100, 120, 140], most: 140 },
    curves: [
      curve(
        'bridges drawn',
        COLORS[0],
        drawn.map((some) => some.length),
      ),
      curve('gaps closed, of 14 that were cut', COLORS[1], cutGaps),
    ],
  }),
);

function curve(name, color, values) {
  return { name, color, points: values.map((value, i) => [cautions[i], value]) };
}

/** Curves over a grid, each with its name at a legend on the right. */
function chart({ title, x, y, curves }) {
  const [left, top, w, h] = [58, 46, 400, 250];
  const u = (value) => left + (w * value) / x.most;
  const v = (value) => top + h - (h * value) / y.most;
  const parts = [
    `<text x="${left}" y="24" font-size="15" font-weight="bold">${title}</text>`,
    ...y.ticks.map(
      (tick) =>
        `<path d="M${left} ${v(tick)}h${w}" stroke="#d9dce1"/>` +
        `<text x="${left - 8}" y="${v(tick) + 4}" text-anchor="end">${tick}</text>`,
    ),
    ...x.ticks.map(
      (tick) =>
        `<path d="M${u(tick)} ${top + h}v5" stroke="#8a8f98"/>` +
        `<text x="${u(tick)}" y="${top + h + 20}" text-anchor="middle">${tick}</text>`,
    ),
    `<path d="M${left} ${top}V${top + h}H${left + w}" fill="none" stroke="#8a8f98"/>`,
    `<text x="${left + w / 2}" y="${top + h + 42}" text-anchor="middle">${x.label}</text>`,
    `<text x="${-(top + h / 2)}" y="18" transform="rotate(-90)" text-anchor="middle">${y.label}</text>`,
    ...curves.flatMap(({ name, color, dashed, points }, i) => {
      const line = dashed ? ' stroke-dasharray="6 5"' : '';
      const path = points.map(([a, b]) => `${u(a).toFixed(1)} ${v(b).toFixed(1)}`).join('L');
      const at = top + 12 + 24 * i;
      return [
        `<path d="M${path}" fill="none" stroke="${color}" stroke-width="2.5"${line}/>`,
        ...points.map(
          ([a, b]) =>
            `<circle cx="${u(a).toFixed(1)}" cy="${v(b).toFixed(1)}" r="3" fill="${color}"/>`,
        ),
        `<path d="M${left + w + 18} ${at}h30" stroke="${color}" stroke-width="2.5"${line}/>`,
        `<text x="${left + w + 56}" y="${at + 4}">${name}</text>`,
      ];
    }),
  ];
  return `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 740 360" width="740" height="360" font-family="sans-serif" font-size="13" fill="#22262c">
<title>${title}</title>
<rect width="740" height="360" fill="#ffffff"/>
${parts.join('\n')}
</svg>
`;
}
