import { execFileSync } from 'node:child_process';
import { existsSync, mkdtempSync, rmSync } from 'node:fs';
import type { AddressInfo } from 'node:net';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { type Browser, chromium, type Page } from 'playwright-core';
// @ts-expect-error: a script without types
import { CHROMIUM_ARGS } from '../../bench/chromium.mjs';
// @ts-expect-error: a script without types
import { buildPage } from '../../examples/web/build.mjs';
// @ts-expect-error: a script without types
import { serve } from '../../examples/web/serve.mjs';

const executablePath = '/usr/bin/chromium';
const root = fileURLToPath(new URL('../..', import.meta.url));

/** Why there is no browser to test with; `.ci/run` says that there must be one. */
export const missing: string | undefined =
  existsSync(executablePath) || process.env.UNDERINK_NEEDS_CHROMIUM !== undefined
    ? undefined
    : `${executablePath} is not installed (Debian package chromium)`;

export interface Worksheet {
  readonly browser: Browser;
  readonly url: string;
  close(): Promise<void>;
}

/** Builds the library and the page from the sources, serves it, and starts a browser. */
export async function startWorksheet(): Promise<Worksheet> {
  const folder = mkdtempSync(join(root, 'examples/web/out-'));
  const library = join(folder, 'library');
  const tsup = join(root, 'node_modules/.bin/tsup');
  const build = ['--config', 'src/tsup.config.ts', '--no-dts', '--silent', '--out-dir', library];
  execFileSync(tsup, build, { cwd: root });
  const site = join(folder, 'site');
  await buildPage({ folder: site, library: join(library, 'index.js') });
  const server = await serve(0, site);
  const browser = await chromium.launch({ executablePath, args: CHROMIUM_ARGS });
  return {
    browser,
    url: `http://127.0.0.1:${(server.address() as AddressInfo).port}/`,
    async close() {
      await browser.close();
      server.close();
      rmSync(folder, { recursive: true });
    },
  };
}

/** Drops a file on the page. */
export async function dropFile(
  page: Page,
  name: string,
  type: string,
  bytes: Uint8Array,
): Promise<void> {
  const file = { name, type, text: Buffer.from(bytes).toString('base64') };
  const transfer = await page.evaluateHandle(({ name, type, text }) => {
    const bytes = Uint8Array.from(atob(text), (letter) => letter.charCodeAt(0));
    const transfer = new DataTransfer();
    transfer.items.add(new File([bytes], name, { type }));
    return transfer;
  }, file);
  await page.dispatchEvent('#drop', 'drop', { dataTransfer: transfer });
}

/** Presses Tab until an element has the focus, at most some hundred times. */
export async function tabTo(page: Page, selector: string): Promise<void> {
  for (let i = 0; i < 200; i++) {
    if (await page.evaluate((s) => document.activeElement?.matches(s), selector)) return;
    await page.keyboard.press('Tab');
  }
  throw new Error(`Tab does not come to ${selector}`);
}
