// One page of `run.mjs` in a module worker of Chromium.
import { createServer } from 'node:http';
import { fileURLToPath } from 'node:url';
import { build } from 'esbuild';
import { chromium } from 'playwright-core';
import { CHROMIUM_ARGS } from '../chromium.mjs';
import { pageOf } from './pages.mjs';

/** Isolated, so that clocks are as fine as they get. */
const HEADERS = {
  'cross-origin-opener-policy': 'same-origin',
  'cross-origin-embedder-policy': 'require-corp',
};

/** The figures of a page in the Chromium at a path, as text. */
export async function measureInBrowser(executablePath, name, corrections) {
  const { pixels, plan } = pageOf(name);
  const files = {
    '/': ['text/html', '<!doctype html><title>page</title>'],
    '/worker.js': ['text/javascript', await bundled()],
    '/job': ['application/json', JSON.stringify({ name, shape: pixels.shape, plan, corrections })],
    '/pixels': ['application/octet-stream', pixels.data],
  };
  const server = createServer(({ url }, response) => {
    const [type, body] = files[url] ?? ['text/plain', ''];
    response.writeHead(url in files ? 200 : 404, { ...HEADERS, 'content-type': type }).end(body);
  });
  await new Promise((resolve) => server.listen(0, '127.0.0.1', resolve));
  const browser = await chromium.launch({ executablePath, args: CHROMIUM_ARGS });
  try {
    const tab = await browser.newPage();
    await tab.goto(`http://127.0.0.1:${server.address().port}/`);
    const text = await tab.evaluate(inWorker);
    return `chromium ${browser.version()}\n\n${text}\n`;
  } finally {
    await browser.close();
    server.close();
  }
}

/** Runs in the tab. */
function inWorker() {
  return new Promise((resolve, reject) => {
    const worker = new Worker('/worker.js', { type: 'module' });
    worker.onmessage = ({ data }) => resolve(data);
    worker.onerror = ({ message }) => reject(new Error(message));
  });
}

async function bundled() {
  const { outputFiles } = await build({
    entryPoints: [fileURLToPath(new URL('worker.mjs', import.meta.url))],
    bundle: true,
    format: 'esm',
    target: 'es2022',
    write: false,
    logLevel: 'error',
  });
  return outputFiles[0].text;
}
