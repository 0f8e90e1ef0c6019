// Writes the fitted trees into the package: node bench/gaps/train/write-model.mjs <folder>
import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { packTrees } from './pack.mjs';

const folder = process.argv[2];
const read = (stage) => JSON.parse(readFileSync(join(folder, `${stage}.model.json`), 'utf8'));

function literal(name, words, trees) {
  const { base, columns, node, limit } = packTrees(trees);
  return `/** ${words} */
export const ${name}: PackedTrees = {
  base: ${base},
  columns: ${JSON.stringify(columns)},
  node: '${node}',
  limit: '${limit}',
};
`;
}

const text = `// Written by bench/gaps/train/write-model.mjs; what it was fitted on is told in docs/gap-model.md.
import type { PackedTrees } from './trees.ts';

${literal('LOCAL', 'Log-odds of a proposal.', read('local'))}
${literal('CLOSURE', 'Log-odds that two regions stay apart.', read('closure'))}`;
writeFileSync(new URL('../../../src/gaps/model.ts', import.meta.url), text);
