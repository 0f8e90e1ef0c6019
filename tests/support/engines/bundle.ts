import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { build, type Options } from 'tsup';
import config from '../../../src/tsup.config.ts';
import { root } from '../snippets.ts';

/** The job as one script without imports, built as the package is. */
export async function bundleJob(): Promise<string> {
  const [packaged] = (await (config as (flags: Options) => Options[])({ dts: false })) as [Options];
  const outDir = mkdtempSync(join(tmpdir(), 'underink-engines-'));
  try {
    await build({
      ...packaged,
      config: false,
      entry: { job: join(root, 'tests/support/engines/job.ts') },
      format: ['iife'],
      noExternal: [/./],
      splitting: false,
      dts: false,
      clean: false,
      silent: true,
      outDir,
    });
    return readFileSync(join(outDir, 'job.global.js'), 'utf8');
  } finally {
    rmSync(outDir, { recursive: true });
  }
}
