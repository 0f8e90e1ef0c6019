// Plugin of typedoc: groups the reference by stage, in the order of src/index.ts, puts each type behind
// the call it belongs to, names pages by their headings, and links names of public things in prose.
import { readFileSync } from 'node:fs';
import { basename, join } from 'node:path';
import { Converter, KindRouter, ReflectionGroup, ReflectionKind } from 'typedoc';

const root = new URL('../..', import.meta.url).pathname;
const text = (path) => readFileSync(join(root, path), 'utf8');

/** The stages, in the order of the data. */
const STAGES = [...text('src/index.ts').matchAll(/'\.\/(\w+)\/index\.ts'/g)].map(
  ([, name]) => name,
);
/** What each stage is, from the map of the README. */
const MAP = new Map(
  [...text('README.md').matchAll(/^\| \d +\| `(\w+)` +\| (.+?) +\|$/gm)].map((row) => row.slice(1)),
);
/** Names that are common words in prose, where they stand for a folder or an option. */
const WORDS = new Set(['raster']);

/** @param {import('typedoc').Application} app */
export function load(app) {
  /** The file that declares each public thing, or holds a page. */
  const files = new Map();
  app.converter.on(Converter.EVENT_CREATE_DECLARATION, (context, reflection) => {
    if (reflection.parent !== context.project) return;
    const symbol = context.getSymbolFromReflection(reflection);
    files.set(reflection, symbol?.declarations?.[0]?.getSourceFile().fileName);
  });
  app.converter.on(Converter.EVENT_CREATE_DOCUMENT, (_, document) => {
    const file = document.project.files.getReflectionPath(document);
    files.set(document, file);
    document.name = heading(document.content, file);
  });
  app.renderer.defineRouter('underink', routerBy(files));
  // Before the groups by kind are made, which keeps groups that are there.
  app.converter.on(Converter.EVENT_RESOLVE_END, ({ project }) => group(project, files), 1000);
  app.converter.on(Converter.EVENT_RESOLVE_END, ({ project }) => linkNames(project), -1000);
}

/** Pages have the address of their file, calls and types that of their kind and name. */
function routerBy(files) {
  return class extends KindRouter {
    getIdealBaseName(reflection) {
      if (!reflection.isDocument()) return super.getIdealBaseName(reflection);
      return `pages/${basename(files.get(reflection), '.md')}`;
    }
  };
}

/** The heading of the first level that a page begins with, without marks of code. */
function heading([first], file) {
  const [, title] = /^\s*# (.+)\n/.exec(first?.text ?? '') ?? [];
  if (title === undefined) throw new Error(`${file} must begin with a heading of the first level`);
  return title.replaceAll('`', '');
}

function group(project, files) {
  const groups = [
    pages('Guide', (path) => path.includes('/docs/guide/')),
    ...STAGES.map(stage),
    pages('More to read', (path) => /\/docs\/(?!.*-bench)[\w-]+\.md$/.test(path)),
    pages('Measured', (path) => path.endsWith('-bench.md')),
  ];
  const placed = groups.flatMap(({ children }) => children);
  const lost = project.childrenIncludingDocuments.filter((child) => !placed.includes(child));
  if (lost.length > 0) throw new Error(`no group takes ${lost.map(({ name }) => name)}`);
  project.groups = groups;
  project.childrenIncludingDocuments = placed;
  project.children = placed.filter((child) => child.isDeclaration());
  project.documents = placed.filter((child) => child.isDocument());

  function pages(title, isIn) {
    const own = project.documents.filter((page) => isIn(files.get(page)));
    own.sort((a, b) => compare(files.get(a), files.get(b)));
    return made(title, own);
  }

  /** Calls by name, the types of a call's file behind it; then the types that several calls share. */
  function stage(folder) {
    const own = project.children.filter((child) => stageOf(files.get(child)) === folder);
    const sources = [...new Set(own.map((child) => files.get(child)))];
    const parts = sources.map((file) =>
      own
        .filter((child) => files.get(child) === file)
        .sort((a, b) => isCall(b) - isCall(a) || compare(a.name, b.name)),
    );
    parts.sort(([a], [b]) => isCall(b) - isCall(a) || compare(a.name, b.name));
    if (!MAP.has(folder)) throw new Error(`the map of the README lacks ${folder}`);
    const what = MAP.get(folder).replaceAll('`', '');
    const text = `${what.charAt(0).toUpperCase()}${what.slice(1)}.`;
    const description = [{ kind: 'text', text }];
    return Object.assign(made(`underink/${folder}`, parts.flat()), { description });
  }

  function made(title, children) {
    return Object.assign(new ReflectionGroup(title, project), { children });
  }
}

function stageOf(file) {
  const [, folder] = /\/src\/(\w+)\//.exec(file ?? '') ?? [];
  return folder;
}

function isCall(reflection) {
  return Number(reflection.kindOf(ReflectionKind.Function));
}

function compare(a, b) {
  return a.localeCompare(b, 'en');
}

/** A code span that is the name of a public thing, with or without a call, links to it. */
function linkNames(project) {
  const targets = new Map(project.children.map((child) => [child.name, child]));
  const linked = (parts, self) =>
    parts.map((part) => {
      const [, name] = (part.kind === 'code' && /^`(\w+)(?:\(.*\))?`$/.exec(part.text)) || [];
      const target = WORDS.has(name) ? undefined : targets.get(name);
      if (target === undefined || target === self) return part;
      return { kind: 'inline-tag', tag: '@linkcode', text: part.text.slice(1, -1), target };
    });
  if (project.readme !== undefined) {
    const [first, ...rest] = project.readme;
    // The theme prints the name of the project above it.
    const text = first.text.replace(/^\s*# .+\n/, '');
    project.readme = linked([{ ...first, text }, ...rest]);
  }
  for (const page of project.documents) page.content = linked(page.content);
  for (const reflection of Object.values(project.reflections)) {
    const { comment } = reflection;
    if (comment === undefined) continue;
    let self = reflection;
    while (self.parent && self.parent !== project) self = self.parent;
    comment.summary = linked(comment.summary, self);
    for (const tag of comment.blockTags) tag.content = linked(tag.content, self);
  }
}
