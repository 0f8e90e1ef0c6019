import { readdirSync, readFileSync } from 'node:fs';
import { dirname, join, relative } from 'node:path';
import { fileURLToPath } from 'node:url';
import ts from 'typescript';
import { describe, expect, it } from 'vitest';

const src = fileURLToPath(new URL('../../src', import.meta.url));

/** From the lowest floor up. A folder imports only from floors below its own. */
const FLOORS = [
  ['raster'],
  ['color', 'distance', 'runs'],
  ['regions', 'strokes', 'measure'],
  ['ink', 'passages', 'polygon', 'fill', 'palette'],
  ['gaps', 'fringe', 'halo', 'png'],
  ['flats', 'checks', 'layers'],
];

/** Public stages in the order of the data. */
const ORDER = [
  'raster',
  'png',
  'ink',
  'strokes',
  'passages',
  'gaps',
  'regions',
  'measure',
  'polygon',
  'fill',
  'fringe',
  'halo',
  'color',
  'palette',
  'flats',
  'checks',
  'layers',
];

const PACKAGES = ['fast-png', 'fflate', 'ndarray', 'ndarray-ops'];

interface Import {
  /** Path of the importing file under `src`, with `/`. */
  readonly from: string;
  /** What is named in the import. */
  readonly what: string;
  /** Path of the imported file under `src`; undefined for a package. */
  readonly to: string | undefined;
  readonly typeOnly: boolean;
}

/** Source files under `src` but the build's own configuration. */
const files = readdirSync(src, { recursive: true, encoding: 'utf8' })
  .map((file) => file.replaceAll('\\', '/'))
  .filter((file) => file.endsWith('.ts') && file !== 'tsup.config.ts')
  .sort();

const parsed = new Map(
  files.map((file) => {
    const text = readFileSync(join(src, file), 'utf8');
    return [file, ts.createSourceFile(file, text, ts.ScriptTarget.ES2022, true)] as const;
  }),
);

const imports = files.flatMap((file) => importsOf(file, parsed.get(file)!));

function importsOf(from: string, source: ts.SourceFile): Import[] {
  const found: Import[] = [];
  const add = (node: ts.Node | undefined, typeOnly: boolean) => {
    if (node === undefined || !ts.isStringLiteralLike(node)) return;
    const what = node.text;
    const to = what.startsWith('.')
      ? relative(src, join(src, dirname(from), what)).replaceAll('\\', '/')
      : undefined;
    found.push({ from, what, to, typeOnly });
  };
  const visit = (node: ts.Node): void => {
    if (ts.isImportDeclaration(node)) add(node.moduleSpecifier, isTypeOnly(node.importClause));
    else if (ts.isExportDeclaration(node)) add(node.moduleSpecifier, node.isTypeOnly);
    else if (ts.isImportTypeNode(node) && ts.isLiteralTypeNode(node.argument))
      add(node.argument.literal, true);
    else if (ts.isCallExpression(node) && loads(node.expression)) add(node.arguments[0], false);
    ts.forEachChild(node, visit);
  };
  visit(source);
  return found;
}

/** `import type …`, or an import whose every name is a type. */
function isTypeOnly(clause: ts.ImportClause | undefined): boolean {
  if (clause === undefined) return false;
  if (clause.phaseModifier === ts.SyntaxKind.TypeKeyword) return true;
  const names = clause.namedBindings;
  if (clause.name !== undefined || names === undefined || !ts.isNamedImports(names)) return false;
  return names.elements.every((element) => element.isTypeOnly);
}

function loads(callee: ts.Expression): boolean {
  return (
    callee.kind === ts.SyntaxKind.ImportKeyword ||
    (ts.isIdentifier(callee) && callee.text === 'require')
  );
}

const folderOf = (file: string) => (file.includes('/') ? file.slice(0, file.indexOf('/')) : '');
const floorOf = (folder: string) => FLOORS.findIndex((folders) => folders.includes(folder));
const show = ({ from, what }: Import) => `${from} imports ${what}`;

describe('the floors', () => {
  it('hold every folder of src, and src itself only the index', () => {
    const folders = [...new Set(files.map(folderOf))].filter((folder) => folder !== '');
    expect(folders.length).toBeGreaterThan(8);
    expect(folders.filter((folder) => floorOf(folder) < 0)).toEqual([]);
    expect(files.filter((file) => folderOf(file) === '')).toEqual(['index.ts']);
  });

  it('are told apart by the reader of imports', () => {
    const text = `
      import a, { type B } from './b.ts';
      import { type C, type D } from './c.ts';
      import type E from '../raster/e.ts';
      export { f } from 'f';
      export type { G } from 'g';
      type H = import('./h.ts').H;
      const i = await import('i');
      const j = require('j');
    `;
    const source = ts.createSourceFile('x.ts', text, ts.ScriptTarget.ES2022, true);
    expect(
      importsOf('ink/x.ts', source).map(({ what, to, typeOnly }) => [what, to, typeOnly]),
    ).toEqual([
      ['./b.ts', 'ink/b.ts', false],
      ['./c.ts', 'ink/c.ts', true],
      ['../raster/e.ts', 'raster/e.ts', true],
      ['f', undefined, false],
      ['g', undefined, true],
      ['./h.ts', 'ink/h.ts', true],
      ['i', undefined, false],
      ['j', undefined, false],
    ]);
  });

  it('know nothing of higher ones, and look only down', () => {
    const wrong = imports.filter(({ from, to }) => {
      if (to === undefined || folderOf(from) === '' || folderOf(from) === folderOf(to))
        return false;
      return floorOf(folderOf(to)) >= floorOf(folderOf(from));
    });
    expect(wrong.map(show)).toEqual([]);
    expect(imports.filter(({ to }) => to !== undefined).length).toBeGreaterThan(100);
  });

  it('are entered by the file that defines a thing', () => {
    const wrong = imports.filter(
      ({ from, to }) => from !== 'index.ts' && to !== undefined && /(^|\/)index\.ts$/.test(to),
    );
    expect(wrong.map(show)).toEqual([]);
  });

  it('import files that are there, by their full names', () => {
    expect(imports.filter(({ to }) => to !== undefined && !parsed.has(to)).map(show)).toEqual([]);
  });

  it('take no other package at run time', () => {
    const packages = imports.filter(({ to }) => to === undefined);
    const used = new Set(packages.filter(({ typeOnly }) => !typeOnly).map(({ what }) => what));
    expect([...used].sort()).toEqual(PACKAGES);
    const types = packages.filter(({ typeOnly }) => typeOnly).map(({ what }) => what);
    expect(types.filter((what) => !PACKAGES.includes(what))).toEqual([]);
  });

  it('hold no circle of imports', () => {
    const done = new Set<string>();
    const circles: string[] = [];
    const walk = (file: string, path: string[]): void => {
      if (path.includes(file)) circles.push([...path.slice(path.indexOf(file)), file].join(' > '));
      if (done.has(file) || path.includes(file)) return;
      for (const { from, to, typeOnly } of imports) {
        if (from === file && to !== undefined && !typeOnly) walk(to, [...path, file]);
      }
      done.add(file);
    };
    for (const file of files) walk(file, []);
    expect(circles).toEqual([]);
  });
});

describe('an index', () => {
  const indexes = files.filter((file) => /(^|\/)index\.ts$/.test(file));

  it('only re-exports', () => {
    const other = indexes.filter((file) =>
      parsed
        .get(file)!
        .statements.some((s) => !ts.isExportDeclaration(s) || s.moduleSpecifier === undefined),
    );
    expect(other).toEqual([]);
  });

  it('of a folder re-exports its own files', () => {
    const foreign = imports.filter(
      ({ from, to }) =>
        /\/index\.ts$/.test(from) && (to === undefined || folderOf(to) !== folderOf(from)),
    );
    expect(foreign.map(show)).toEqual([]);
  });

  it('of src re-exports every stage, in the order of the data', () => {
    const stages = imports.filter(({ from }) => from === 'index.ts').map(({ to }) => to!);
    const existing = ORDER.map((stage) => `${stage}/index.ts`).filter((file) => parsed.has(file));
    expect(stages).toEqual(existing);
    expect([...indexes].sort()).toEqual([...existing, 'index.ts'].sort());
  });
});
