import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { format } from 'node:util';
import ts from 'typescript';

export const root: string = fileURLToPath(new URL('../..', import.meta.url));

/** A block of TypeScript in a comment or a page. */
export interface Snippet {
  readonly name: string;
  readonly code: string;
}

/** The `ts` blocks of a page, each named by the heading it stands under. */
export function pageSnippets(text: string): Snippet[] {
  return text.split(/^##? /m).flatMap((part) =>
    [...part.matchAll(/^```ts\n([\s\S]*?)^```$/gm)].map(([, code]) => ({
      name: part.slice(0, part.indexOf('\n')),
      code: code!,
    })),
  );
}

/** The comments behind the `console.log(…);` of a block, undefined where there is none. */
export function promised(code: string): (string | undefined)[] {
  const source = ts.createSourceFile('snippet.ts', code, ts.ScriptTarget.ES2022, true);
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

/** What a block prints, call by call, with `modules` to import from and `globals` to see. */
export async function run(
  code: string,
  modules: Readonly<Record<string, unknown>>,
  globals: Readonly<Record<string, unknown>> = {},
): Promise<string[]> {
  const { outputText } = ts.transpileModule(code, {
    compilerOptions: { module: ts.ModuleKind.CommonJS, target: ts.ScriptTarget.ES2022 },
  });
  const printed: string[] = [];
  const log = (...values: unknown[]) => printed.push(format(...values));
  const load = (name: string) => {
    if (Object.hasOwn(modules, name)) return modules[name];
    throw new Error(`a snippet imports from ${Object.keys(modules)}, not from '${name}'`);
  };
  const seen = { require: load, exports: {}, console: { log }, ...globals };
  const AsyncFunction = (async () => {}).constructor as FunctionConstructor;
  await AsyncFunction(...Object.keys(seen), outputText)(...Object.values(seen));
  return printed;
}

/** Beyond `strict`, what the strictest project of Node sets. */
export const STRICTEST: ts.CompilerOptions = {
  types: ['node'],
  noUncheckedIndexedAccess: true,
  exactOptionalPropertyTypes: true,
};

/**
 * What the compiler says of blocks in a strict project that finds the library in `underink`.
 * `stricter` has options beyond `strict`.
 */
export function typeFaults(
  snippets: readonly Snippet[],
  stricter: ts.CompilerOptions = {},
): string[] {
  const pathOf = (i: number) => join(root, 'tests', `snippet-${i}.ts`);
  const blocks = new Map(snippets.map(({ code }, i) => [pathOf(i), `${code}\nexport {};\n`]));
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
    ...stricter,
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
  return snippets.flatMap(({ name }, i) => {
    const source = program.getSourceFile(pathOf(i))!;
    return [
      ...program.getSyntacticDiagnostics(source),
      ...program.getSemanticDiagnostics(source),
    ].map(({ messageText }) => `${name}: ${ts.flattenDiagnosticMessageText(messageText, ' ')}`);
  });
}
