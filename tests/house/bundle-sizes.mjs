// What the library weighs in a browser, minified and gzipped: each sub-path whole, and some calls alone.
// `node tests/house/bundle-sizes.mjs [--write]` after a build. Fails where one is heavier than
// docs/bundle-sizes.md allows, by more than 2 %; `--write` writes what is measured there.
import { readFileSync, writeFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { gzipSync } from 'node:zlib';
import { build } from 'esbuild';

const ROOM = 1.02;
const CALLS = [
  'rasterizePolygon',
  'recolor',
  'paintFlats',
  'labelRegions',
  'floodFill',
  'readPng',
  'writeFlats',
  'hardenEdges',
  'studyGaps',
  'checkFlats',
  'applyPlan',
  'layFlats',
  'carryPlan',
  'openPage',
  'writeLayers',
];

const root = fileURLToPath(new URL('../..', import.meta.url));
const table = fileURLToPath(new URL('../../docs/bundle-sizes.md', import.meta.url));
const { exports } = JSON.parse(
  readFileSync(new URL('../../package.json', import.meta.url), 'utf8'),
);
const paths = Object.keys(exports).filter((path) => exports[path].import !== undefined);

const measured = new Map();
for (const path of paths) {
  const name = path.replace('.', 'underink');
  measured.set(name, await weigh(`export * from '${name}'`));
}
for (const call of CALLS) measured.set(call, await weigh(`export { ${call} } from 'underink'`));

if (process.argv.includes('--write')) writeFileSync(table, text());
else {
  const heavier = [
    ...readFileSync(table, 'utf8').matchAll(/^\| `(.+?)` +\| +([\d.]+) +\| +([\d.]+)/gm),
  ]
    .map(([, name, , gzipped]) => ({
      name,
      allowed: Number(gzipped),
      is: measured.get(name)?.gzipped,
    }))
    .filter(({ allowed, is }) => !(is <= allowed * ROOM));
  for (const { name, allowed, is } of heavier) {
    console.log(`FAIL  ${name} weighs ${is?.toFixed(1)} kB gzipped, ${allowed} allowed`);
  }
  if (heavier.length > 0) process.exitCode = 1;
  else console.log(`ok    ${measured.size} bundles weigh what docs/bundle-sizes.md says`);
}

/** Kilobytes of a module that a browser loads, with all that it imports. */
async function weigh(contents) {
  const { outputFiles } = await build({
    stdin: { contents, resolveDir: root },
    bundle: true,
    minify: true,
    format: 'esm',
    platform: 'browser',
    write: false,
    logLevel: 'error',
    logOverride: { 'ignored-bare-import': 'silent' },
  });
  const [{ contents: bytes }] = outputFiles;
  return { minified: bytes.length / 1000, gzipped: gzipSync(bytes, { level: 9 }).length / 1000 };
}

function text() {
  const rows = [...measured].map(([name, { minified, gzipped }]) => [
    `\`${name}\``,
    minified.toFixed(1),
    gzipped.toFixed(1),
  ]);
  const widths = ['sub-path or call', 'kB minified', 'kB gzipped'].map((head, k) =>
    Math.max(head.length, ...rows.map((row) => row[k].length)),
  );
  const line = (cells) =>
    `| ${cells.map((cell, k) => (k === 0 ? cell.padEnd(widths[k]) : cell.padStart(widths[k]))).join(' | ')} |`;
  const rule = `| ${'-'.repeat(widths[0])} | ${widths
    .slice(1)
    .map((width) => `${'-'.repeat(width - 1)}:`)
    .join(' | ')} |`;
  return `# What it weighs in a browser

Each sub-path whole and some calls alone, bundled and minified by esbuild with all that they import, in
kilobytes of 1000 bytes; gzipped at level 9. Written by \`node tests/house/bundle-sizes.mjs --write\`; \`npm run check:package\` fails where one
grows by more than 2 %. What may copy a strided raster holds 6.9 kB gzipped of \`ndarray\` and
\`ndarray-ops\`; 23 kB of \`studyGaps\` and what holds it are the fitted model.

${line(['sub-path or call', 'kB minified', 'kB gzipped'])}
${rule}
${rows.map(line).join('\n')}
`;
}
