// How long a page that is kept open takes to follow corrections:
// `npm run bench:page -- [--corrections 200] [--pages saltmarrow,a4-300,a4-600] [--browser PATH]`.
// Prints the tables of `docs/page-bench.md`: medians and 95th percentiles by kind of correction,
// opening, restoring, views and memory. Every page is run in a fresh process, or with the path of a
// Chromium in a module worker of it, where memory can't be told.
import { execFileSync } from 'node:child_process';
import { availableParallelism, loadavg } from 'node:os';
import { fileURLToPath } from 'node:url';
import { parseArgs } from 'node:util';
import { measureInBrowser } from './browser.mjs';

const { values } = parseArgs({
  options: {
    corrections: { type: 'string', default: '200' },
    pages: { type: 'string', default: 'saltmarrow,a4-300,a4-600' },
    browser: { type: 'string' },
  },
});
const child = fileURLToPath(new URL('child.mjs', import.meta.url));
console.log(
  `node ${process.version}, ${availableParallelism()} cores, load ${loadavg()[0].toFixed(1)} at the start\n`,
);
for (const page of values.pages.split(',')) {
  if (values.browser !== undefined) {
    console.log(await measureInBrowser(values.browser, page, Number(values.corrections)));
    continue;
  }
  const args = ['--expose-gc', '--max-old-space-size=8000', child, page, values.corrections];
  console.log(execFileSync(process.execPath, args, { encoding: 'utf8' }));
}
