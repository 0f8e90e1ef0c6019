// Checks the package as a stranger gets it: packs it, installs the tarball in an empty folder, and
// uses it there. Prints a line per check; the exit code is 1 if one of them fails.
// It takes `dist` as it is: run `npm run build` before.
import { execFileSync } from 'node:child_process';
import { mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { delimiter, dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import vm from 'node:vm';
import { build } from 'esbuild';
import { CONSUMER, JOB } from './consumer.mjs';

/** Declared, but carried in `dist`, where they are evaluated at the first strided copy only. */
const CARRIED = ['ndarray', 'ndarray-ops'];

/** Beside the repository's own: the oldest TypeScript that the types are for, and the newest there is. */
const COMPILERS = ['5.4.5', '7.0.2'];

const root = fileURLToPath(new URL('../..', import.meta.url));
const path = join(root, 'node_modules/.bin') + delimiter + process.env.PATH;
const manifest = JSON.parse(readFileSync(join(root, 'package.json'), 'utf8'));
const entries = Object.keys(manifest.exports).filter((entry) => !entry.endsWith('.json'));
const specifiers = entries.map((entry) => manifest.name + entry.slice(1));

const work = mkdtempSync(join(tmpdir(), 'underink-package-'));
const home = join(work, 'home');
const dist = join(home, 'node_modules', manifest.name, 'dist');
const quiet = {
  cwd: home,
  encoding: 'utf8',
  env: { ...process.env, PATH: path, NO_COLOR: '1' },
  stdio: ['ignore', 'pipe', 'pipe'],
};
let failures = 0;

try {
  mkdirSync(home);
  const tarball = check('pack', pack);
  if (tarball !== undefined && check('install in an empty folder', () => install(tarball))) {
    checkInstalled();
    await checkReadme();
    checkTools(tarball);
    checkTypes();
  }
} finally {
  rmSync(work, { recursive: true, force: true });
}
console.log(failures === 0 ? 'the package is sound' : `${failures} checks failed`);
process.exitCode = failures === 0 ? 0 : 1;

/** Runs a check, prints how it went, and gives back what it returned; undefined when it failed. */
function check(name, run) {
  try {
    const { value = true, note = '' } = run() ?? {};
    console.log(`ok    ${name}${note && `: ${note}`}`);
    return value;
  } catch (error) {
    failures++;
    const output = [error.stdout, error.stderr].filter(Boolean).join('\n').trim();
    console.log(`FAIL  ${name}: ${error.message}${output && `\n${output}`}`);
    return undefined;
  }
}

function command(file, args, cwd = home) {
  return execFileSync(file, args, { ...quiet, cwd });
}

function expect(condition, message) {
  if (!condition) throw new Error(message);
}

/** Packs; the tarball holds what a user needs and nothing else. */
function pack() {
  const out = command('npm', ['pack', '--json', '--pack-destination', work], root);
  const [{ filename, files, size }] = JSON.parse(out);
  const paths = files.map(({ path }) => path);
  const wanted = ['LICENSE', 'package.json', 'docs/CHANGELOG.md', 'docs/plan.schema.json'];
  const missing = [...wanted, 'dist/index.js', 'dist/index.cjs'].filter((p) => !paths.includes(p));
  expect(missing.length === 0, `the tarball lacks ${missing.join(', ')}`);
  const shown = linkedFrom(['README.md', 'docs/CHANGELOG.md']);
  const lost = [...shown].filter((path) => !paths.includes(path));
  expect(lost.length === 0, `the pages show ${lost.join(', ')}, not packed`);
  const code = /^dist\/[^/]+\.(js|cjs|d\.ts|d\.cts)$/;
  const odd = paths.filter(
    (path) => !wanted.includes(path) && !shown.has(path) && !code.test(path),
  );
  expect(odd.length === 0, `the tarball holds ${odd.join(', ')}`);
  return {
    value: join(work, filename),
    note: `${paths.length} files, ${Math.ceil(size / 1024)} KiB`,
  };
}

/** Pages, and what they show and link to, directly or through other pages. */
function linkedFrom(pages) {
  const found = new Set(pages);
  for (const page of found) {
    if (!page.endsWith('.md')) continue;
    const text = readFileSync(join(root, page), 'utf8');
    for (const [, target] of text.matchAll(/\]\((?!https?:)([^)\s#]+)[^)]*\)/g)) {
      found.add(join(dirname(page), target));
    }
  }
  return found;
}

function install(tarball) {
  const own = { name: 'home', version: '1.0.0', private: true };
  writeFileSync(join(home, 'package.json'), JSON.stringify(own));
  command('npm', ['install', '--no-audit', '--no-fund', '--ignore-scripts', tarball]);
  const lock = JSON.parse(readFileSync(join(home, 'package-lock.json'), 'utf8'));
  const names = Object.keys(lock.packages).filter((path) => path !== '');
  return { note: `${names.length} packages with what it depends on` };
}

function checkInstalled() {
  check('dependencies are what dist imports', dependencies);
  check('every file of dist is used by an entry', reachable);
  check('every entry gives the same names to import and to require', sameNames);
  writeFileSync(join(home, 'job.mjs'), `import * as underink from 'underink';\n${JOB}`);
  writeFileSync(join(home, 'job.cjs'), `const underink = require('underink');\n${JOB}`);
  const refused = '--disallow-code-generation-from-strings';
  const printed = new Set();
  for (const [name, args] of [
    ['the job by import', ['job.mjs']],
    ['the job by require', ['job.cjs']],
    ['the job by import, where code from strings is refused', [refused, 'job.mjs', 'refused']],
    ['the job by require, where code from strings is refused', [refused, 'job.cjs', 'refused']],
  ]) {
    check(name, () => {
      const note = command(process.execPath, ['--throw-deprecation', ...args]).trim();
      printed.add(note);
      return { note };
    });
  }
  check('the four jobs agree', () => expect(printed.size === 1, [...printed].join(' / ')));
}

/** What a file of `dist` imports, comments left out. */
function importsOf(file) {
  const text = readFileSync(join(dist, file), 'utf8').replace(/^\s*\*.*$/gm, '');
  const imports = /(?:\bfrom |\bimport |\bimport\(|\brequire\()['"]([a-z@.][^'"]*)['"]/g;
  return [...text.matchAll(imports)].map(([, name]) => name);
}

/** Packages that the code or the types in `dist` name, against `dependencies`. */
function dependencies() {
  const named = new Set();
  for (const file of readdirSync(dist)) {
    const types = /\.d\.c?ts$/.test(file);
    for (const name of importsOf(file).filter((name) => !name.startsWith('.'))) {
      named.add(types && `@types/${name}` in manifest.dependencies ? `@types/${name}` : name);
    }
  }
  const declared = Object.keys(manifest.dependencies);
  const undeclared = [...named].filter((name) => !declared.includes(name));
  const unused = declared.filter((name) => !named.has(name) && !CARRIED.includes(name));
  expect(undeclared.length === 0, `dist imports ${undeclared.join(', ')}, not declared`);
  expect(unused.length === 0, `dist does not import ${unused.join(', ')}, declared`);
  return { note: declared.join(', ') };
}

/** Chunks left by an older build would be packed and never loaded. */
function reachable() {
  const used = new Set();
  const todo = JSON.stringify(manifest.exports).match(/(?<=\.\/dist\/)[^"]+/g);
  for (let file = todo.pop(); file !== undefined; file = todo.pop()) {
    if (used.has(file)) continue;
    used.add(file);
    const types = /\.d\.c?ts$/.test(file);
    for (const name of importsOf(file).filter((name) => name.startsWith('./'))) {
      todo.push(types ? name.slice(2).replace(/\.(c?)js$/, '.d.$1ts') : name.slice(2));
    }
  }
  const stale = readdirSync(dist).filter((file) => !used.has(file));
  expect(stale.length === 0, `no entry uses ${stale.join(', ')}`);
}

/** The index is the union of the entries, and both module systems see the same. */
function sameNames() {
  const list = (load) =>
    `(async () => { const all = {}; for (const s of ${JSON.stringify(specifiers)}) all[s] = Object.keys(${load}).sort(); console.log(JSON.stringify(all)); })()`;
  writeFileSync(join(home, 'names.mjs'), list('await import(s)'));
  writeFileSync(join(home, 'names.cjs'), list('require(s)'));
  const imported = command(process.execPath, ['names.mjs']);
  const required = command(process.execPath, ['names.cjs']);
  expect(imported === required, `import gives ${imported}require gives ${required}`);
  const { [manifest.name]: index, ...stages } = JSON.parse(imported);
  const union = [...new Set(Object.values(stages).flat())].sort();
  expect(union.join() === index.join(), `the entries give ${union}, the index ${index}`);
  const empty = Object.keys(stages).filter((stage) => stages[stage].length === 0);
  expect(empty.length === 0, `${empty.join(', ')} export nothing`);
  return { note: `${entries.length} entries, ${index.length} names` };
}

/**
 * The first block of code of the README on the demo's page, as what each kind of project has: a module,
 * a CommonJS file, a bundle for browsers, which runs with nothing of Node but a file to read.
 */
async function checkReadme() {
  const text = readFileSync(join(home, 'node_modules', manifest.name, 'README.md'), 'utf8');
  const [, block = ''] = text.match(/^```ts\n([\s\S]*?)^```$/m) ?? [];
  const page = readFileSync(join(root, 'examples/saltmarrow/model-sheet.png'));
  const path = join(home, block.match(/readFileSync\('(.+?)'\)/)?.[1] ?? 'page.png');
  mkdirSync(dirname(path), { recursive: true });
  writeFileSync(path, page);
  writeFileSync(join(home, 'readme.mjs'), block);
  writeFileSync(join(home, 'readme.mts'), block);
  const required = block.replace(/^import (.+) from (.+);$/gm, 'const $1 = require($2);');
  writeFileSync(join(home, 'readme.cjs'), required);
  const bundled = await bundleForBrowsers(block);
  const said = new Set();
  for (const [name, run] of [
    ['a module', () => command(process.execPath, ['readme.mjs'])],
    ['CommonJS', () => command(process.execPath, ['readme.cjs'])],
    ['a bundle for browsers', () => runAlone(bundled, page)],
  ]) {
    check(`the main job of the README, ${name}`, () => {
      const note = run().trim().replace('\n', ', ');
      expect(/^\d+ regions, \d+ gaps closed, 0 findings$/.test(note), `flats laid, got ${note}`);
      said.add(note);
      return { note };
    });
  }
  check('the three agree', () => expect(said.size === 1, [...said].join(' / ')));
}

/** One script with all it imports, `node:fs` as what the page gives it. */
async function bundleForBrowsers(contents) {
  const files = {
    name: 'files',
    setup({ onResolve, onLoad }) {
      onResolve({ filter: /^node:fs$/ }, () => ({ path: 'files', namespace: 'files' }));
      onLoad({ filter: /.*/, namespace: 'files' }, () => ({
        contents: 'export const { readFileSync, writeFileSync } = globalThis.files;',
      }));
    },
  };
  const { outputFiles } = await build({
    stdin: { contents, resolveDir: home },
    bundle: true,
    platform: 'browser',
    format: 'iife',
    write: false,
    plugins: [files],
    logOverride: { 'ignored-bare-import': 'silent' },
  });
  return outputFiles[0].text;
}

/** What a script prints that has only what every browser has. */
function runAlone(script, page) {
  const lines = [];
  const written = [];
  const files = {
    readFileSync: () => new Uint8Array(page),
    writeFileSync: (name, bytes) => written.push(`${name} ${bytes.length > 0}`),
  };
  const console = { log: (...words) => lines.push(words.join(' ')) };
  vm.runInNewContext(script, { files, console, TextDecoder, TextEncoder, performance });
  expect(written.join() === 'flats.png true,sheet.png true', `two files, got ${written}`);
  return lines.join('\n');
}

function checkTools(tarball) {
  check('publint', () => void execFileSync('publint', ['run', tarball, '--strict'], quiet));
  // node10 knows no `exports`; Node 20 and every bundler do.
  check('attw', () => void execFileSync('attw', [tarball, '--profile', 'node16'], quiet));
}

/** A strict consumer's type check, the library's own declarations included. */
function checkTypes() {
  const all = specifiers.map((s, i) => `import * as entry${i} from '${s}';`).join('\n');
  const use = `export const entries: object[] = [${specifiers.map((_, i) => `entry${i}`)}];`;
  for (const file of ['consumer.mts', 'consumer.cts', 'consumer.ts']) {
    writeFileSync(join(home, file), `${CONSUMER}\n${all}\n${use}\n`);
  }
  const compilers = [['', 'tsc']];
  for (const version of COMPILERS) {
    const folder = join(work, `typescript-${version}`);
    mkdirSync(folder);
    check(`install TypeScript ${version}`, () => {
      writeFileSync(join(folder, 'package.json'), '{ "private": true }');
      command('npm', ['install', '--no-audit', '--no-fund', `typescript@${version}`], folder);
      compilers.push([`, TypeScript ${version}`, join(folder, 'node_modules/.bin/tsc')]);
    });
  }
  const strict = ['--noEmit', '--strict', '--target', 'es2022', '--lib', 'es2022'];
  const node = ['--types', 'node', '--typeRoots', join(root, 'node_modules/@types')];
  for (const [suffix, tsc] of compilers) {
    for (const [name, file, ...options] of [
      ['node16, import', 'consumer.mts', '--module', 'node16'],
      ['node16, require', 'consumer.cts', '--module', 'node16'],
      ['a bundler', 'consumer.ts', '--module', 'esnext', '--moduleResolution', 'bundler'],
      [
        'a bundler, require',
        'consumer.cts',
        '--module',
        'preserve',
        '--moduleResolution',
        'bundler',
      ],
      ['node16, the README', 'readme.mts', '--module', 'node16', ...node],
    ]) {
      check(`types under ${name}${suffix}`, () => void command(tsc, [...strict, ...options, file]));
    }
  }
}
