// Builds of the library that are timed: the state at hand, or another one that git knows.
import { execFileSync } from 'node:child_process';
import { existsSync, mkdirSync, mkdtempSync, rmSync, symlinkSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';

const root = fileURLToPath(new URL('../..', import.meta.url));

/** The public calls, and `squaredDistance`, which is none; of a git revision where one is given. */
export async function buildOf(revision) {
  return await withBundle(revision, loadBundle);
}

/** What `use` gives of the folder of such a bundle, which is gone afterwards. */
export async function withBundle(revision, use) {
  if (revision === undefined) return await bundled(root, use);
  const folder = mkdtempSync(join(tmpdir(), 'underink-build-'));
  const git = (...args) => execFileSync('git', args, { cwd: root, stdio: 'pipe' });
  git('worktree', 'add', '--detach', folder, revision);
  try {
    if (!existsSync(join(folder, 'node_modules'))) {
      symlinkSync(join(root, 'node_modules'), join(folder, 'node_modules'));
    }
    return await bundled(folder, use);
  } finally {
    git('worktree', 'remove', '--force', folder);
  }
}

async function bundled(folder, use) {
  const out = join(folder, 'bench/speed/out'); // from there node_modules is found
  mkdirSync(out, { recursive: true });
  const to = mkdtempSync(join(out, 'bundle-'));
  try {
    const entries = ['src/index.ts', 'src/distance/squared-distance.ts'];
    const options = ['--format', 'esm', '--out-dir', to, '--no-config', '--silent'];
    execFileSync('npx', ['tsup', ...entries, ...options], { cwd: folder });
    return await use(to);
  } finally {
    rmSync(to, { recursive: true });
  }
}

/** The calls of a bundle in a folder. */
export async function loadBundle(folder) {
  const load = (name) => {
    const file = [`${name}.mjs`, `${name}.js`].map((end) => join(folder, end)).find(existsSync);
    return import(pathToFileURL(file).href);
  };
  const { squaredDistance } = await load('distance/squared-distance');
  return { ...(await load('index')), squaredDistance };
}
