// Files that are there whole or not at all, and the pages of a folder.
import { createHash } from 'node:crypto';
import { existsSync, readdirSync, readFileSync, renameSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';

/** The version of the library that lays the flats. */
export const VERSION = JSON.parse(
  readFileSync(new URL(import.meta.resolve('underink/package.json')), 'utf8'),
).version;

const DRAWING = '.png';
const PLAN = '.plan.json';
const UNFINISHED = '.unfinished';

/** Pages of a folder by name: `NAME.png`, and `NAME.plan.json` where there is one. */
export function listPages(folder) {
  return readdirSync(folder)
    .filter((file) => file.endsWith(DRAWING))
    .sort()
    .map((file) => {
      const name = file.slice(0, -DRAWING.length);
      const plan = join(folder, name + PLAN);
      return { name, drawing: join(folder, file), ...(existsSync(plan) ? { plan } : {}) };
    });
}

/** SHA-256 of all that a page's flats depend on: the drawing, the plan, the version of the library. */
export function keyOf({ drawing, plan }) {
  const digest = (path) => createHash('sha256').update(readFileSync(path)).digest('hex');
  const parts = [VERSION, digest(drawing), plan === undefined ? 'no plan' : digest(plan)];
  return createHash('sha256').update(parts.join('\n')).digest('hex');
}

/** Writes a file under another name first: whoever reads it finds all of it, or the one before. */
export function writeWhole(path, bytes) {
  const unfinished = `${path}.${process.pid}${UNFINISHED}`;
  writeFileSync(unfinished, bytes);
  renameSync(unfinished, path);
}

/** Removes what a run that was killed has left unfinished. */
export function sweep(folder) {
  for (const file of readdirSync(folder)) {
    if (file.endsWith(UNFINISHED)) rmSync(join(folder, file));
  }
}
