import { mkdirSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { Piscina } from 'piscina';
import { keyOf, listPages, sweep } from './files.mjs';
import { Journal, readRecord } from './journal.mjs';
import { writeSummaries } from './summary.mjs';

const LAY_PAGE = fileURLToPath(new URL('lay-page.mjs', import.meta.url));
/**
 * Lays the pages of a folder that are not done under their keys, and writes the summaries. Gives
 * `{ name, record }` or `{ name, error }` for each page.
 *
 * @param onProgress - Called with `{ name, state, done, failed, count }` for each page that ends, those
 * done before first: `state` is `before`, `done` or `failed`.
 */
export async function runBatch({ folder, out, workers, onProgress }) {
  mkdirSync(out, { recursive: true });
  sweep(out);
  const journal = new Journal(out);
  const pages = listPages(folder).map((page) => ({ ...page, key: keyOf(page), out }));
  const told = toldPages(journal);
  const outcomes = new Map();
  const end = (name, state, outcome) => {
    outcomes.set(name, { name, ...outcome });
    const failed = [...outcomes.values()].filter(({ error }) => error !== undefined).length;
    onProgress({ name, state, done: outcomes.size - failed, failed, count: pages.length });
  };

  const open = [];
  for (const page of pages) {
    const { name, key } = page;
    const record = readRecord(out, name, key);
    if (record === undefined) {
      open.push(page);
      continue;
    }
    if (!told.has(`${name} ${key}`)) journal.write(name, key, 'found');
    end(name, 'before', { record });
  }

  const pool = new Piscina({ filename: LAY_PAGE, minThreads: workers, maxThreads: workers });
  const lay = async (page) => {
    const { name, key } = page;
    journal.write(name, key, 'started');
    try {
      const record = await pool.run(page);
      journal.write(name, key, 'done', { ms: record.ms });
      end(name, 'done', { record });
    } catch ({ message }) {
      journal.write(name, key, 'failed', { error: message });
      end(name, 'failed', { error: message });
    }
  };
  // As many at a time as there are workers, so that what is started is being worked on.
  const takeNext = async () => {
    for (let page = open.shift(); page !== undefined; page = open.shift()) await lay(page);
  };
  await Promise.all(Array.from({ length: workers }, takeNext));
  await pool.close();

  const inOrder = pages.map(({ name }) => outcomes.get(name));
  writeSummaries(out, inOrder);
  return inOrder;
}

/** Pages with their keys that the journal has as done. */
function toldPages(journal) {
  const done = journal.read().filter(({ state }) => state === 'done' || state === 'found');
  return new Set(done.map(({ page, key }) => `${page} ${key}`));
}
