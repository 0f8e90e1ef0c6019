// Writes the fitted trees into the package: node bench/gaps/train/write-model.mjs <folder>
import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';

const folder = process.argv[2];
const read = (stage) => JSON.parse(readFileSync(join(folder, `${stage}.model.json`), 'utf8'));

function literal(name, words, { base, roots, column, limit, no }) {
  return `/** ${words} */
export const ${name}: Trees = {
  base: ${base},
  roots: [${roots}],
  column: [${column}],
  limit: [${limit}],
  no: [${no}],
};
`;
}

const text = `// Written by bench/gaps/train/write-model.mjs; see docs/gap-model.md.
import type { Trees } from './trees.ts';

${literal('LOCAL', 'Log-odds of a proposal, by the columns of `EVIDENCE`.', read('local'))}
${literal('CLOSURE', 'Log-odds that two regions stay apart, by the columns of `SEPARATION`.', read('closure'))}`;
writeFileSync(new URL('../../../src/gaps/model.ts', import.meta.url), text);
