import { existsSync } from 'node:fs';
import { chromium } from 'playwright-core';
// @ts-expect-error: a script without types
import { CHROMIUM_ARGS } from '../../../bench/chromium.mjs';
import type { JobResult } from './job.ts';

const executablePath = '/usr/bin/chromium';

/** Why there is no browser to test with; `.ci/run` says that there must be one. */
export const missing: string | undefined =
  existsSync(executablePath) || process.env.UNDERINK_NEEDS_CHROMIUM !== undefined
    ? undefined
    : `${executablePath} is not installed (Debian package chromium)`;

/** The page's own scripts and files, and nothing made of strings. */
const POLICY = "default-src 'none'; script-src 'self'; connect-src 'self'";
const START = `fetch('/input.json').then((answer) => answer.text()).then(underinkJob).then(
  (result) => { document.title = JSON.stringify(result); },
  (error) => { document.title = JSON.stringify(String(error?.stack ?? error)); },
);`;

/** What the job gives in a page of its own under a strict policy. */
export async function runInChromium(script: string, text: string): Promise<JobResult> {
  const files: Record<string, [type: string, body: string]> = {
    '/': ['text/html', '<!doctype html><script src="/job.js"></script>'],
    '/job.js': ['text/javascript', `${script}\n${START}`],
    '/input.json': ['application/json', text],
  };
  const browser = await chromium.launch({ executablePath, args: CHROMIUM_ARGS });
  try {
    const page = await browser.newPage();
    await page.route('**/*', (route) => {
      const [contentType, body] = files[new URL(route.request().url()).pathname] ?? ['', ''];
      const headers = { 'content-security-policy': POLICY };
      return route.fulfill({ contentType, body, headers });
    });
    await page.goto('https://underink.test/');
    // the title is read from outside, so that nothing is evaluated in the page
    for (let tries = 0; tries < 1000; tries++) {
      const title = await page.title();
      if (title !== '') return JSON.parse(title);
      await new Promise((done) => setTimeout(done, 100));
    }
    throw new Error('the page gave no result');
  } finally {
    await browser.close();
  }
}
