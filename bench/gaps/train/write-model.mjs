// Writes the fitted trees into the package: node bench/gaps/train/write-model.mjs <folder>
import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';

const folder = process.argv[2];
const read = (stage) => JSON.parse(readFileSync(join(folder, `${stage}.model.json`), 'utf8'));

function literal(name, words, { base, roots, column, limit, no }) {
  return `/** ${words} */
export const ${name}: Trees = {
  base: ${base},
  roots: [${wrap(roots)}],
  column: [${wrap(column)}],
  limit: [${wrap(limit)}],
  no: [${wrap(no)}],
};
`;
}

/** Numbers in lines of at most a hundred characters. */
function wrap(numbers) {
  let text = '';
  let line = '\n    ';
  for (const number of numbers) {
    if (line.length + `${number}`.length > 98) {
      text += line.trimEnd();
      line = '\n    ';
    }
    line += `${number}, `;
  }
  return `${text}${line.trimEnd()}\n  `;
}

const text = `// Written by bench/gaps/train/write-model.mjs; see docs/gap-model.md.
import type { Trees } from './trees.ts';

${literal('LOCAL', 'Log-odds of a proposal, by the columns of `EVIDENCE`.', read('local'))}
${literal('CLOSURE', 'Log-odds that two regions stay apart, by the columns of `SEPARATION`.', read('closure'))}`;
writeFileSync(new URL('../../../src/gaps/model.ts', import.meta.url), text);
