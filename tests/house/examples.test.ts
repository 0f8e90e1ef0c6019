import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { format } from 'node:util';
import ts from 'typescript';
import { describe, expect, it } from 'vitest';
import * as underink from '../../src/index.ts';

const root = fileURLToPath(new URL('../..', import.meta.url));

interface Example {
  /** The exported thing whose doc comment holds it. */
  readonly name: string;
  readonly file: string;
  readonly code: string;
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

/** The comments behind the `console.log(…);` of a block, undefined where there is none. */
function promised(code: string): (string | undefined)[] {
  const source = ts.createSourceFile('example.ts', code, ts.ScriptTarget.ES2022, true);
  const texts: (string | undefined)[] = [];
  const visit = (node: ts.Node): void => {
    if (ts.isExpressionStatement(node) && node.expression.getText().startsWith('console.log(')) {
      const [comment] = ts.getTrailingCommentRanges(code, node.end) ?? [];
      texts.push(comment && code.slice(comment.pos, comment.end).replace(/^\/\/ ?/, ''));
    }
    ts.forEachChild(node, visit);
  };
  visit(source);
  return texts;
}

/** What a block prints, call by call. */
async function run(code: string): Promise<string[]> {
  const { outputText } = ts.transpileModule(code, {
    compilerOptions: { module: ts.ModuleKind.CommonJS, target: ts.ScriptTarget.ES2022 },
  });
  const printed: string[] = [];
  const log = (...values: unknown[]) => printed.push(format(...values));
  const load = (name: string) => {
    if (name !== 'underink') throw new Error(`an example imports from 'underink', not '${name}'`);
    return underink;
  };
  const AsyncFunction = (async () => {}).constructor as FunctionConstructor;
  await AsyncFunction('require', 'exports', 'console', outputText)(load, {}, { log });
  return printed;
}

describe('the examples', () => {
  it.each(examples)('of $name ($file) print what they say', async ({ code }) => {
    const texts = promised(code);
    expect(texts.length).toBeGreaterThan(0);
    expect(await run(code)).toEqual(texts);
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
    const pathOf = (i: number) => join(root, 'tests', `example-${i}.ts`);
    const blocks = new Map(examples.map(({ code }, i) => [pathOf(i), `${code}\nexport {};\n`]));
    const options: ts.CompilerOptions = {
      target: ts.ScriptTarget.ES2022,
      lib: ['lib.es2023.d.ts', 'lib.dom.d.ts'],
      module: ts.ModuleKind.ESNext,
      moduleResolution: ts.ModuleResolutionKind.Bundler,
      strict: true,
      esModuleInterop: true,
      skipLibCheck: true,
      noEmit: true,
      allowImportingTsExtensions: true,
      types: [],
      paths: { underink: [join(root, 'src/index.ts')] },
    };
    const host = ts.createCompilerHost(options);
    const { fileExists, readFile, getSourceFile } = host;
    host.fileExists = (path) => blocks.has(path) || fileExists(path);
    host.readFile = (path) => blocks.get(path) ?? readFile(path);
    host.getSourceFile = (path, ...rest) => {
      const block = blocks.get(path);
      return block === undefined
        ? getSourceFile(path, ...rest)
        : ts.createSourceFile(path, block, ts.ScriptTarget.ES2022);
    };
    const program = ts.createProgram([...blocks.keys()], options, host);
    const faults = examples.flatMap(({ name }, i) => {
      const source = program.getSourceFile(pathOf(i))!;
      return [
        ...program.getSyntacticDiagnostics(source),
        ...program.getSemanticDiagnostics(source),
      ].map(({ messageText }) => `${name}: ${ts.flattenDiagnosticMessageText(messageText, ' ')}`);
    });
    expect(faults).toEqual([]);
  });
});
