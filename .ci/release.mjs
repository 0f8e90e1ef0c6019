// Makes a release of what is committed: `node .ci/release.mjs 0.2.0`, from the top of the repository.
// Gives the change log's unreleased part the version and the day, sets the version in the manifest and the
// lock, runs `.ci/run`, commits and tags. Publishing is left to the owner; the last lines say how. Where
// anything fails, the files are as they were.
import { execFileSync } from 'node:child_process';
import { readFileSync, writeFileSync } from 'node:fs';

const LOG = 'docs/CHANGELOG.md';
const MANIFESTS = ['package.json', 'package-lock.json'];
const [version = ''] = process.argv.slice(2);

try {
  release();
} catch (error) {
  console.error(error.message);
  process.exitCode = 1;
}

function release() {
  const manifest = JSON.parse(readFileSync('package.json', 'utf8'));
  const log = readFileSync(LOG, 'utf8');
  checkVersion(manifest.version);
  const dirty = git('status', '--porcelain');
  if (dirty !== '') throw new Error(`commit or put away first:\n${dirty}`);
  const [, changes = ''] = log.match(/^## Unreleased\n([\s\S]*?)(?=^## |(?![\s\S]))/m) ?? [];
  if (changes.trim() === '') throw new Error(`${LOG} has nothing under "## Unreleased"`);

  try {
    const day = new Date().toISOString().slice(0, 10);
    writeFileSync(LOG, log.replace('## Unreleased\n', `## ${version}, ${day}\n`));
    for (const file of MANIFESTS) setVersion(file);
    execFileSync('.ci/run', { stdio: 'inherit' });
  } catch (error) {
    git('checkout', '--', LOG, ...MANIFESTS);
    throw error;
  }
  git('commit', '--quiet', '-m', `Version ${version}`, '--', LOG, ...MANIFESTS);
  git('tag', '-a', `v${version}`, '-m', `${manifest.name} ${version}`);
  console.log(`v${version} is committed and tagged. Next, by the owner:
  git push --follow-tags
  npm publish --provenance   # in a CI job that may ask for an identity token`);
}

/** Three whole numbers, of which the first that differs from the present version is greater. */
function checkVersion(present) {
  if (!/^(0|[1-9]\d*)(\.(0|[1-9]\d*)){2}$/.test(version)) {
    throw new RangeError(
      `the version must be three whole numbers, as 1.2.3, got ${version || 'none'}`,
    );
  }
  const [next, now] = [version, present].map((text) => text.split('.').map(Number));
  const k = next.findIndex((number, at) => number !== now[at]);
  if (k < 0 || next[k] < now[k]) {
    throw new RangeError(`the version must be above ${present}, got ${version}`);
  }
}

function setVersion(file) {
  const content = JSON.parse(readFileSync(file, 'utf8'));
  content.version = version;
  if (content.packages?.[''] !== undefined) content.packages[''].version = version;
  writeFileSync(file, `${JSON.stringify(content, null, 2)}\n`);
}

function git(...args) {
  return execFileSync('git', args, { encoding: 'utf8' }).trim();
}
