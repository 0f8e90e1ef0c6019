// How long each operation takes, in times of its peer: a chart of what docs/performance.md has measured.
import { readFileSync } from 'node:fs';
import { save } from './canvas.mjs';

const text = readFileSync(new URL('../performance.md', import.meta.url), 'utf8');
const [, table] = /^## A4 at 600 dpi\n([\s\S]*?)(?=^## |(?![\s\S]))/m.exec(text);
const rows = [...table.matchAll(/^\| ([^|]+?) +\|.+$/gm)]
  .map(([line, name]) => {
    const [, , , peer, , ratio, wanted] = line.split('|').map((cell) => cell.trim());
    return { name: name.replaceAll('`', ''), peer, ratio: Number(ratio), wanted: Number(wanted) };
  })
  .filter(({ ratio }) => ratio > 0);

const [LEFT, TOP, WIDTH, STEP] = [350, 78, 380, 24];
const TICKS = [0.05, 0.1, 0.2, 0.5, 1, 2, 5, 10];
const [LEAST, MOST] = [0.035, 16];
const bottom = TOP + STEP * rows.length;
const title = 'Time of each operation, in times of its peer';

save(
  'speed.svg',
  `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 740 ${bottom + 30}" width="740" height="${bottom + 30}" font-family="sans-serif" font-size="13" fill="#22262c">
<title>${title}</title>
<rect width="740" height="${bottom + 30}" fill="#ffffff"/>
<text x="20" y="26" font-size="15" font-weight="bold">${title}</text>
<text x="20" y="46" fill="#5a6069">left of 1 is faster than the peer; the tick is what was wanted</text>
${TICKS.map(
  (
    tick,
  ) => `<path d="M${u(tick)} ${TOP - 8}V${bottom}" stroke="${tick === 1 ? '#5a6069' : '#d9dce1'}"/>
<text x="${u(tick)}" y="${TOP - 14}" text-anchor="middle">${tick}</text>`,
).join('\n')}
${rows.map(bar).join('\n')}
</svg>
`,
);

function bar({ name, peer, ratio, wanted }, i) {
  const y = TOP + STEP * i;
  const [from, to] = [u(1), u(ratio)].sort((a, b) => a - b);
  const goal =
    wanted > 0 ? `<path d="M${u(wanted)} ${y}v18" stroke="#22262c" stroke-width="2.5"/>` : '';
  return `<text x="${LEFT - 14}" y="${y + 14}" text-anchor="end">${name} <tspan fill="#5a6069">· ${peer}</tspan></text>
<rect x="${from}" y="${y + 2}" width="${Math.max(1, to - from).toFixed(1)}" height="14" fill="${ratio < 1 ? '#0072b2' : '#d55e00'}"/>
${goal}<text x="${ratio < 1 ? from - 6 : to + 6}" y="${y + 14}" text-anchor="${ratio < 1 ? 'end' : 'start'}" font-size="12">${ratio}</text>`;
}

/** Place of a ratio on the logarithmic axis. */
function u(ratio) {
  const share = Math.log(ratio / LEAST) / Math.log(MOST / LEAST);
  return Number((LEFT + WIDTH * share).toFixed(1));
}
