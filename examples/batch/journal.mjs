// What has happened, a line of JSON each: `{ page, key, state, at }` with the state `started`, `done`,
// `found` (done by a run that was killed before it could say so) or `failed` (with `error`).
import { appendFileSync, existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';

export class Journal {
  #file;

  constructor(out) {
    this.#file = join(out, 'journal.jsonl');
    // A line that a kill has cut short is ended, so that the next one stands by itself.
    if (existsSync(this.#file) && !readFileSync(this.#file, 'utf8').endsWith('\n')) {
      appendFileSync(this.#file, '\n');
    }
  }

  write(page, key, state, more = {}) {
    const line = { page, key, state, at: new Date().toISOString(), ...more };
    appendFileSync(this.#file, `${JSON.stringify(line)}\n`);
  }

  /** All lines that are whole. */
  read() {
    if (!existsSync(this.#file)) return [];
    return readFileSync(this.#file, 'utf8')
      .split('\n')
      .flatMap((line) => {
        try {
          return [JSON.parse(line)];
        } catch {
          return [];
        }
      });
  }
}

/** The record of a page that is done under a key; undefined for one that is not. */
export function readRecord(out, name, key) {
  const file = join(out, `${name}.json`);
  if (!existsSync(file) || !existsSync(join(out, `${name}.flats.png`))) return undefined;
  const record = JSON.parse(readFileSync(file, 'utf8'));
  return record.key === key ? record : undefined;
}
