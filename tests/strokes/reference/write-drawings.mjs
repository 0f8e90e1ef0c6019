// Writes the masks that `skeletons.test.ts` thins, 200 drawings of openmoji, as PNGs of 0 and 255 for
// `generate-skeletons.py`:
//
//     node tests/ink/reference/write-drawings.mjs FOLDER
import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { createViteServer } from 'vitest/node';

const root = new URL('../../..', import.meta.url).pathname;
const server = await createViteServer({
  root,
  configFile: false,
  server: { middlewareMode: true },
});
const { inkDrawings } = await server.ssrLoadModule('/tests/flats/drawings.ts');
const { writePng } = await server.ssrLoadModule('/src/png/index.ts');
const { raster } = await server.ssrLoadModule('/src/raster/index.ts');

const folder = process.argv[2];
mkdirSync(folder, { recursive: true });
for (const { name, ink } of inkDrawings(200, 512)) {
  const gray = raster(
    ink.data.map((v) => 255 * v),
    ink.shape,
  );
  writeFileSync(join(folder, `${name}.png`), writePng(gray));
}
await server.close();
