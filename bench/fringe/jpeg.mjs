// hardenEdges without and with the palette on color drawings after JPEG: how many colors it finds, and how
// many pixels beside an edge come out wrong. `node bench/fringe/jpeg.mjs [--drawings 100] [--list]`, after
// `npm run build`; `--list` names the drawings with another number of colors.
import { parseArgs } from 'node:util';
import * as underink from 'underink';
import { colorDrawings, truthOf } from './drawings.mjs';
import { colorOf, jpegTrip, scoreHarden } from './score.mjs';

const { values } = parseArgs({
  options: {
    drawings: { type: 'string', default: '100' },
    list: { type: 'boolean', default: false },
  },
});
const SIZE = 288;
const kinds = [60, 75, 85, 95].flatMap((quality) =>
  ['4:4:4', '4:2:0'].map((chroma) => ({
    quality,
    chroma,
    right: 0,
    wrong: 0,
    known: 0,
    more: 0,
    fewer: 0,
  })),
);
const { drawings } = colorDrawings(Number(values.drawings));
for (const { name, svg } of drawings) {
  const truth = await truthOf(svg, SIZE, 'resvg');
  const palette = truth.colors.map((word, i) => ({ name: `color ${i}`, color: colorOf(word) }));
  for (const kind of kinds) {
    const pixels = await jpegTrip(truth.soft, SIZE, kind.quality, kind.chroma);
    const found = scoreHarden(underink, truth, pixels, { exact: false });
    const given = scoreHarden(underink, truth, pixels, { exact: false, palette });
    const by = found.swatches - truth.colors.length;
    if (by === 0) kind.right++;
    else if (by > 0) kind.more++;
    else kind.fewer++;
    kind.wrong += found.wrong + found.wrongOff;
    kind.known += given.wrong + given.wrongOff;
    if (values.list && by !== 0) {
      console.log(
        `${kind.quality} ${kind.chroma} ${name}: ${found.swatches} of ${truth.colors.length}`,
      );
    }
  }
}
for (const { quality, chroma, right, more, fewer, wrong, known } of kinds) {
  const share = ((100 * right) / drawings.length).toFixed(0);
  console.log(
    `JPEG ${quality}, ${chroma}: right number of colors on ${share} % (more on ${more}, fewer on ${fewer}), ` +
      `${wrong} pixels wrong, ${known} with the palette, ${(wrong / known).toFixed(2)} times`,
  );
}
