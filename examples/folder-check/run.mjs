// Checks the sheets of a folder: see README.md beside this file.
import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { parseArgs } from 'node:util';
import { checkFolder } from './check-folder.mjs';

try {
  const { values, positionals } = parseArgs({
    options: { palette: { type: 'string' }, html: { type: 'string' } },
    allowPositionals: true,
  });
  const [folder] = positionals;
  if (folder === undefined) throw new Error('a folder must be given');
  const palette = values.palette && JSON.parse(readFileSync(values.palette, 'utf8'));
  const { text, html, isClean } = checkFolder(folder, { palette });
  process.stdout.write(text);
  writeFileSync(values.html ?? join(folder, 'findings.html'), html);
  process.exitCode = isClean ? 0 : 1;
} catch (error) {
  console.error(error.message);
  process.exitCode = 2;
}
