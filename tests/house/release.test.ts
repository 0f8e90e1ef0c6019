/** `.ci/release.mjs` in a repository of its own, whose `.ci/run` does what the test wants. */
import { execFileSync, spawnSync } from 'node:child_process';
import { chmodSync, mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { root } from '../support/snippets.ts';

const LOG = '# Changes\n\n## Unreleased\n\n- `ferry` sails.\n\n## 0.1.0\n\n- The first.\n';

describe('a release', () => {
  let home: string;
  const read = (file: string): string => readFileSync(join(home, file), 'utf8');
  const git = (...args: string[]): string =>
    execFileSync('git', args, { cwd: home, encoding: 'utf8' }).trim();
  const release = (version: string) =>
    spawnSync(process.execPath, [join(root, '.ci/release.mjs'), version], {
      cwd: home,
      encoding: 'utf8',
    });
  const commit = (log: string, run: string): void => {
    writeFileSync(join(home, 'docs/CHANGELOG.md'), log);
    writeFileSync(join(home, '.ci/run'), `#!/bin/sh\n${run}\n`);
    chmodSync(join(home, '.ci/run'), 0o755);
    git('add', '.');
    git('commit', '-qm', 'All there is');
  };

  beforeEach(() => {
    home = mkdtempSync(join(tmpdir(), 'underink-release-'));
    for (const folder of ['docs', '.ci']) mkdirSync(join(home, folder));
    const own = { name: 'pilots', version: '0.1.0' };
    const lock = { ...own, packages: { '': own, 'node_modules/crab': { version: '0.1.0' } } };
    writeFileSync(join(home, 'package.json'), JSON.stringify(own));
    writeFileSync(join(home, 'package-lock.json'), JSON.stringify(lock));
    git('init', '-q');
    git('config', 'user.name', 'A pilot');
    git('config', 'user.email', 'pilot@example.com');
  });
  afterEach(() => rmSync(home, { recursive: true }));

  it('gives version and day to the changes, sets the version, commits and tags', () => {
    commit(LOG, 'grep -q 0.2.0 package.json');
    const { status, stdout } = release('0.2.0');
    expect(status).toBe(0);
    expect(stdout).toContain('v0.2.0 is committed and tagged');
    const day = new Date().toISOString().slice(0, 10);
    expect(read('docs/CHANGELOG.md')).toBe(LOG.replace('Unreleased', `0.2.0, ${day}`));
    expect(JSON.parse(read('package.json')).version).toBe('0.2.0');
    const { version, packages } = JSON.parse(read('package-lock.json'));
    expect([version, packages[''].version, packages['node_modules/crab'].version]).toEqual([
      '0.2.0',
      '0.2.0',
      '0.1.0',
    ]);
    expect(git('status', '--porcelain')).toBe('');
    expect(git('describe', '--exact-match')).toBe('v0.2.0');
    expect(git('log', '-1', '--format=%s')).toBe('Version 0.2.0');
  });

  it('leaves everything as it was where the checks fail', () => {
    commit(LOG, 'exit 3');
    const { status, stderr } = release('0.2.0');
    expect(status).toBe(1);
    expect(stderr).toContain('.ci/run');
    expect(git('status', '--porcelain')).toBe('');
    expect(git('tag')).toBe('');
    expect(read('docs/CHANGELOG.md')).toBe(LOG);
  });

  it.each([
    ['', 'three whole numbers, as 1.2.3, got none'],
    ['v0.2.0', 'three whole numbers, as 1.2.3, got v0.2.0'],
    ['0.2', 'three whole numbers, as 1.2.3, got 0.2'],
    ['0.1.0', 'above 0.1.0, got 0.1.0'],
    ['0.0.9', 'above 0.1.0, got 0.0.9'],
  ])('refuses the version %j', (version, why) => {
    commit(LOG, 'exit 0');
    const { status, stderr } = release(version);
    expect(status).toBe(1);
    expect(stderr).toContain(`the version must be ${why}`);
    expect(git('tag')).toBe('');
  });

  it('refuses what is not committed, and a change log without changes', () => {
    commit(LOG.replace('- `ferry` sails.\n\n', ''), 'exit 0');
    expect(release('1.0.0').stderr).toContain('nothing under "## Unreleased"');
    writeFileSync(join(home, 'heron.txt'), 'new');
    expect(release('1.0.0').stderr).toContain('commit or put away first:\n?? heron.txt');
    expect(git('tag')).toBe('');
  });
});
