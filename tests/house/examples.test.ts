import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import * as underink from '../../src/index.ts';
import { promised, root, run, type Snippet, typeFaults } from '../support/snippets.ts';

/** The block after `@example` of the exported thing that `name` says. */
interface Example extends Snippet {
  readonly file: string;
}

const examples = readdirSync(join(root, 'src'), { recursive: true, encoding: 'utf8' })
  .filter((file) => file.endsWith('.ts'))
  .sort()
  .flatMap((file) => examplesOf(file, readFileSync(join(root, 'src', file), 'utf8')));

/** The `ts` blocks after `@example` in doc comments that stand before an exported thing. */
function examplesOf(file: string, text: string): Example[] {
  const documented = /\/\*\*((?:(?!\*\/)[\s\S])*)\*\/\s*export (?:function|class|const) (\w+)/g;
  return [...text.matchAll(documented)].flatMap(([, comment, name]) => {
    const plain = comment!.replace(/^[ \t]*\* ?/gm, '');
    const after = plain.indexOf('@example');
    if (after < 0) return [];
    const blocks = plain.slice(after).matchAll(/^```ts\n([\s\S]*?)^```$/gm);
    return [...blocks].map(([, code]) => ({ name: name!, file, code: code! }));
  });
}

describe('the examples', () => {
  it.each(examples)('of $name ($file) print what they say', async ({ code }) => {
    const texts = promised(code);
    expect(texts.length).toBeGreaterThan(0);
    expect(await run(code, { underink })).toEqual(texts);
  });

  it('are there for every public function', () => {
    const shown = new Set(examples.map(({ name }) => name));
    const functions = Object.entries(underink).filter(
      ([, value]) => typeof value === 'function' && !/^class\b/.test(String(value)),
    );
    expect(functions.length).toBeGreaterThan(30);
    expect(functions.map(([name]) => name).filter((name) => !shown.has(name))).toEqual([]);
  });

  it('are all found: no doc comment holds one that is not run', () => {
    const tags = readdirSync(join(root, 'src'), { recursive: true, encoding: 'utf8' })
      .filter((file) => file.endsWith('.ts'))
      .flatMap((file) =>
        [...readFileSync(join(root, 'src', file), 'utf8').matchAll(/@example/g)].map(() => file),
      );
    expect(examples.map(({ file }) => file)).toEqual(tags.sort());
  });

  it('pass the type check of a strict project', () => {
    expect(typeFaults(examples)).toEqual([]);
  });
});
