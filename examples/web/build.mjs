// Bundles the page and its worker into `out/`, with what they load: `node examples/web/build.mjs`,
// after `npm run build`.
import { cpSync, mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { build } from 'esbuild';

const here = (path) => fileURLToPath(new URL(path, import.meta.url));

/** Writes the page into a folder; `library` is the file to take for `underink`. */
export async function buildPage({ folder = here('out'), library } = {}) {
  mkdirSync(folder, { recursive: true });
  await build({
    entryPoints: { page: here('page/page.mjs'), worker: here('worker/sheet-worker.mjs') },
    outdir: folder,
    bundle: true,
    minify: true,
    format: 'esm',
    target: 'es2022',
    ...(library === undefined ? {} : { alias: { underink: library } }),
    // Chunks of the library that are imported for nothing but their order are left out.
    logOverride: { 'ignored-bare-import': 'silent' },
    // A branch for Node that no browser takes.
    external: ['node:worker_threads'],
  });
  for (const file of ['index.html', 'style.css']) cpSync(here(file), join(folder, file));
  cpSync(here('../saltmarrow/model-sheet.png'), join(folder, 'saltmarrow.png'));
  writeFileSync(join(folder, 'saltmarrow.json'), JSON.stringify(demoPlan()));
}

/** A start for the demo: the heron and the ground have names, the otter and the crab are left. */
function demoPlan() {
  const plan = JSON.parse(readFileSync(here('../saltmarrow/plan.json'), 'utf8'));
  const marks = plan.marks.filter(({ swatch }) => /^(heron|ground)/.test(swatch));
  const used = new Set(marks.map(({ swatch }) => swatch));
  return { ...plan, marks, palette: plan.palette.filter(({ name }) => used.has(name)) };
}

if (import.meta.url === pathToFileURL(process.argv[1]).href) await buildPage();
