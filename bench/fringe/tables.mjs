// The page of results.

const percent = (share, digits = 2) => `${(100 * share).toFixed(digits)} %`;
const count = (n) => n.toLocaleString('en-US');

export function writeTables({ resvg, cairo, speed, noise }) {
  const sets = [resvg, cairo].filter((set) => set !== undefined);
  const [{ drawings, leftOut, size }] = sets;
  return `# Fringe: what is found and what is hardened

Made by \`npm run bench:fringe\`. ${drawings} color drawings of openmoji 17 (CC BY-SA 4.0), ${size} pixels on each
side, over white; ${leftOut} were left out on the way for opacity, gradients, filters, masks or text. Each is rendered
crisp (\`shape-rendering="crispEdges"\`), antialiased, and crisp at 8 times the size, by two independent rasterisers:
\`resvg\`, which takes 4 × 4 samples of a pixel, and \`cairo\` (librsvg, by \`sharp\`), which is exact along rows and takes
15 samples down a pixel. \`even\` is the mean of the 8 × 8 crisp samples: antialiasing without rounding.

The truth of a pixel is the color of most of its 8 × 8 crisp samples. Pixels of more than one color are border; those
whose two leading colors are within 4 of 64 samples are ties, and not counted.

## findFringe

A blend is a pixel of the antialiased rendering whose color no area of the drawing has.

| rasteriser | blends | recall | precision | reported on crisp renderings |
|---|---|---|---|---|
${sets.map(fringeRow).join('\n')}

## hardenEdges

The *reference* knows which colors the truth has in the 3 × 3 pixels round each pixel, and takes the nearest. *Colors*
counts the drawings whose swatches are not one for each color of the drawing; after JPEG, a swatch counts as the nearest
of the drawing's colors. *True mixes* is the share of border pixels that are, within 3 levels of 255, the mean of their
8 × 8 crisp samples, that is the mix of the colors in them; *right of those* counts them alone.

| picture | border pixels | right | reference | wrong / reference's | true mixes | right of those | ties | wrong off the border | colors |
|---|---|---|---|---|---|---|---|---|---|
${sets.flatMap(hardenRows).join('\n')}

What a picture does not hold cannot be read from it. A straight edge along rows or columns that lies anywhere between
3/8 and 5/8 of a pixel is one half in each of its pixels where there are 4 × 4 samples, so that half of those that are
no ties come out wrong whatever is done. Two shapes drawn over one another with the same edge darken it twice, so that
the pixel is no mix of what lies in it: see *true mixes*. The rows *crisp* say how often the rasteriser's own choice of one color a pixel is right by the same count, the rows
*even* how often \`hardenEdges\` is where the blends are exact.
${speed === undefined ? '' : speedPart(speed)}${noise === undefined ? '' : noisePart(noise)}`;
}

function fringeRow({ renderer, rows }) {
  const { blends, found, right, crisp } = rows.fringe;
  return `| ${renderer} | ${count(blends)} | ${percent(right / blends, 3)} | ${percent(right / found, 3)} | ${crisp} |`;
}

function hardenRows({ renderer, rows }) {
  const names = { soft: 'antialiased', even: 'even', hard: 'crisp' };
  const keys = Object.keys(rows).filter((key) => key !== 'fringe' && !key.endsWith('reference'));
  return keys.map((key) => {
    const { border, wrong, mixes, wrongMixes, ties, off, wrongOff, failed } = rows[key];
    const reference = rows[`${key} reference`];
    const cells = [
      `${renderer}, ${names[key] ?? key}`,
      count(border),
      percent(1 - wrong / border),
      percent(1 - reference.wrong / reference.border),
      (wrong / reference.wrong).toFixed(2),
      percent(mixes / border, 1),
      percent(1 - wrongMixes / mixes),
      count(ties),
      `${count(wrongOff)} of ${count(off)}`,
      failed,
    ];
    return `| ${cells.join(' | ')} |`;
  });
}

function speedPart({ width, height, pages }) {
  const rows = pages.map(({ tile, blends, checksum, times }) => {
    const copy = median(times.copy);
    const cells = [
      tile,
      count(blends),
      ratio(times.find, copy),
      ratio(times.harden, copy),
      checksum,
    ];
    return `| ${cells.join(' | ')} |`;
  });
  return `
## Speed

A page of ${width} × ${height} pixels, RGBA, tiled with drawings; medians over the median of a copy of the same
pixels (\`slice\`), interleaved in one run, with the least and the most.

| side of a drawing | blends | findFringe / copy | hardenEdges / copy | checksum |
|---|---|---|---|---|
${rows.join('\n')}
`;
}

function noisePart({ side, pictures }) {
  const calls = Object.keys(pictures[0].times);
  const rows = pictures.map(
    ({ name, times }) =>
      `| ${[name, ...calls.map((call) => count(Math.round(times[call])))].join(' | ')} |`,
  );
  return `
## Worst cases

${side} × ${side} pixels in which no color has an area; nanoseconds a pixel, one call each.

| picture | ${calls.join(' | ')} |
|---${'|---'.repeat(calls.length)}|
${rows.join('\n')}
`;
}

function median(list) {
  return [...list].sort((a, b) => a - b)[list.length >> 1];
}

function ratio(list, copy) {
  const [least, most] = [Math.min(...list) / copy, Math.max(...list) / copy];
  return `${(median(list) / copy).toFixed(1)} (${least.toFixed(1)} to ${most.toFixed(1)})`;
}
