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
  const axis = { xs: gaps, at: ({ gap }) => gap, lineOf: ({ label }) => label };
  return charts(set, mine, { ...axis, title: 'opening of the gaps in px (0: none)' });
}

/** The same over each numeric setting that was run with three values or more. */
export function sweepsOf(set, summary) {
  const mine = summary.filter((row) => row.set === set);
  return [...new Set(mine.flatMap(({ options }) => Object.keys(options)))].flatMap((key) => {
    const rows = mine.filter(({ options }) => typeof options[key] === 'number');
    const xs = [...new Set(rows.map(({ options }) => options[key]))].sort((a, b) => a - b);
    const at = ({ options }) => options[key];
    return xs.length < 3 ? [] : charts(`${set}-${key}`, rows, { xs, at, lineOf, title: key });

    function lineOf({ method, options, gap }) {
      const others = Object.entries(options).filter(([other]) => other !== key);
      const words = others.map(([other, value]) => `${other} ${value}`);
      return [method, ...words, ...(gap > 0 ? [`gap ${gap}`] : [])].join(' ');
    }
  });
}

function charts(name, rows, axis) {
  const most = Math.max(1, ...rows.map((row) => row.corrections));
  return [
    [
      `${name}-corrections.svg`,
      chart(`${name}: corrections needed`, rows, axis, 'corrections', most),
    ],
    [`${name}-f1.svg`, chart(`${name}: region F1 at IoU 0.9`, rows, axis, 'f1', 1)],
  ];
}

function chart(heading, rows, { xs, at, lineOf, title }, score, most) {
  const lines = [...new Set(rows.map(lineOf))];
  const widest = Math.max(...xs, Number.MIN_VALUE);
  const step = niceStep(most);
  const top = Math.ceil(most / step - 1e-9) * step;
  const x = (value) => LEFT + (WIDTH * value) / widest;
  const y = (value) => TOP + HEIGHT * (1 - value / top);
  const number = (value) => String(Number(value.toFixed(2)));
  const parts = [`<text x="${LEFT}" y="20" font-size="15">${heading}</text>`];
  for (let value = 0; value <= top + 1e-9; value += step) {
    parts.push(
      `<path d="M${LEFT} ${number(y(value))}h${WIDTH}" stroke="#ddd"/>`,
      `<text x="${LEFT - 8}" y="${number(y(value) + 4)}" text-anchor="end">${number(value)}</text>`,
    );
  }
  for (const value of xs) {
    parts.push(
      `<text x="${number(x(value))}" y="${TOP + HEIGHT + 18}" text-anchor="middle">${value}</text>`,
    );
  }
  parts.push(
    `<text x="${LEFT + WIDTH / 2}" y="${TOP + HEIGHT + 38}" text-anchor="middle">${title}</text>`,
  );
  lines.forEach((line, k) => {
    const color = COLORS[k % COLORS.length];
    const points = rows
      .filter((row) => lineOf(row) === line)
      .sort((a, b) => at(a) - at(b))
      .map((row) => `${number(x(at(row)))},${number(y(row[score]))}`);
    const dots = points.map((point) => {
      const [cx, cy] = point.split(',');
      return `<circle cx="${cx}" cy="${cy}" r="3" fill="${color}"/>`;
    });
    const height = TOP + 12 + 20 * k;
    parts.push(
      `<polyline points="${points.join(' ')}" fill="none" stroke="${color}" stroke-width="2"/>`,
      ...dots,
      `<path d="M${LEFT + WIDTH + 16} ${height - 4}h18" stroke="${color}" stroke-width="3"/>`,
      `<text x="${LEFT + WIDTH + 40}" y="${height}">${line}</text>`,
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
