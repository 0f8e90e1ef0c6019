// Scores over the opening of the gaps as SVG.

/** Plotting area, margins and lines, in pixels. */
const WIDTH = 460;
const HEIGHT = 260;
const LEFT = 56;
const TOP = 34;
const LEGEND = 210;
const COLORS = [
  '#1b6ca8',
  '#c8553d',
  '#3f7d20',
  '#8a4fff',
  '#b8860b',
  '#00798c',
  '#d1495b',
  '#5c5c5c',
];

/** File names and SVG texts of one set: corrections and F1, a line per method and setting. */
export function curvesOf(set, summary, gaps) {
  const mine = summary.filter((row) => row.set === set);
  const most = Math.max(1, ...mine.map((row) => row.corrections));
  return [
    [
      `${set}-corrections.svg`,
      chart(`${set}: corrections needed`, mine, gaps, 'corrections', most),
    ],
    [`${set}-f1.svg`, chart(`${set}: region F1 at IoU 0.9`, mine, gaps, 'f1', 1)],
  ];
}

function chart(title, rows, gaps, score, most) {
  const labels = [...new Set(rows.map((row) => row.label))];
  const widest = Math.max(...gaps, 1);
  const step = niceStep(most);
  const top = Math.ceil(most / step - 1e-9) * step;
  const x = (gap) => LEFT + (WIDTH * gap) / widest;
  const y = (value) => TOP + HEIGHT * (1 - value / top);
  const number = (value) => String(Number(value.toFixed(2)));
  const parts = [`<text x="${LEFT}" y="20" font-size="15">${title}</text>`];
  for (let value = 0; value <= top + 1e-9; value += step) {
    parts.push(
      `<path d="M${LEFT} ${number(y(value))}h${WIDTH}" stroke="#ddd"/>`,
      `<text x="${LEFT - 8}" y="${number(y(value) + 4)}" text-anchor="end">${number(value)}</text>`,
    );
  }
  for (const gap of gaps) {
    parts.push(
      `<text x="${number(x(gap))}" y="${TOP + HEIGHT + 18}" text-anchor="middle">${gap}</text>`,
    );
  }
  parts.push(
    `<text x="${LEFT + WIDTH / 2}" y="${TOP + HEIGHT + 38}" text-anchor="middle">opening of the gaps in px (0: none)</text>`,
  );
  labels.forEach((label, k) => {
    const color = COLORS[k % COLORS.length];
    const points = rows
      .filter((row) => row.label === label)
      .sort((a, b) => a.gap - b.gap)
      .map((row) => `${number(x(row.gap))},${number(y(row[score]))}`);
    const dots = points.map((point) => {
      const [cx, cy] = point.split(',');
      return `<circle cx="${cx}" cy="${cy}" r="3" fill="${color}"/>`;
    });
    const at = TOP + 12 + 20 * k;
    parts.push(
      `<polyline points="${points.join(' ')}" fill="none" stroke="${color}" stroke-width="2"/>`,
      ...dots,
      `<path d="M${LEFT + WIDTH + 16} ${at - 4}h18" stroke="${color}" stroke-width="3"/>`,
      `<text x="${LEFT + WIDTH + 40}" y="${at}">${label}</text>`,
    );
  });
  const [w, h] = [LEFT + WIDTH + LEGEND, TOP + HEIGHT + 50];
  return (
    `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 ${w} ${h}" width="${w}" height="${h}" ` +
    `font-family="sans-serif" font-size="12"><rect width="100%" height="100%" fill="#fff"/>\n` +
    `${parts.join('\n')}\n</svg>\n`
  );
}

/** 1, 2 or 5 times a power of ten, for four to nine steps. */
function niceStep(most) {
  const power = 10 ** Math.floor(Math.log10(most / 4));
  return [1, 2, 5, 10].map((k) => k * power).find((step) => most / step <= 8);
}
