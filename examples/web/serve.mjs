// Serves the built page under a strict Content-Security-Policy: `node examples/web/serve.mjs [PORT]`.
import { createReadStream, statSync } from 'node:fs';
import { createServer } from 'node:http';
import { extname, join, normalize } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';

const OUT = fileURLToPath(new URL('out', import.meta.url));

const TYPES = {
  '.html': 'text/html; charset=utf-8',
  '.css': 'text/css; charset=utf-8',
  '.js': 'text/javascript; charset=utf-8',
  '.json': 'application/json',
  '.png': 'image/png',
};

const HEADERS = {
  'Content-Security-Policy':
    "default-src 'none'; script-src 'self'; worker-src 'self'; style-src 'self'; " +
    "img-src 'self' blob: data:; connect-src 'self'; base-uri 'none'; form-action 'none'; frame-ancestors 'none'",
  // Memory can be shared with the worker then, so that an update can be stopped.
  'Cross-Origin-Opener-Policy': 'same-origin',
  'Cross-Origin-Embedder-Policy': 'require-corp',
  'X-Content-Type-Options': 'nosniff',
  'Referrer-Policy': 'no-referrer',
  'Cache-Control': 'no-cache',
};

/** A server of a built page, listening on this machine; port 0 takes a free one. */
export function serve(port = 0, folder = OUT) {
  const server = createServer((request, response) => {
    const file = request.method === 'GET' ? fileOf(folder, request.url) : undefined;
    if (file === undefined) {
      response.writeHead(404, HEADERS).end('not found');
      return;
    }
    response.writeHead(200, { ...HEADERS, 'Content-Type': TYPES[extname(file)] });
    createReadStream(file).pipe(response);
  });
  return new Promise((resolve, reject) => {
    server.once('error', reject);
    server.listen(port, '127.0.0.1', () => resolve(server));
  });
}

/** The file for a path; undefined for one that is not there, or of no known type. */
function fileOf(folder, url) {
  let path;
  try {
    path = decodeURIComponent(new URL(url, 'http://localhost').pathname);
  } catch {
    return undefined;
  }
  const file = join(folder, normalize(path === '/' ? '/index.html' : path));
  const isFile = statSync(file, { throwIfNoEntry: false })?.isFile() ?? false;
  return isFile && extname(file) in TYPES ? file : undefined;
}

if (import.meta.url === pathToFileURL(process.argv[1]).href) {
  const server = await serve(Number(process.argv[2] ?? 8080));
  console.log(`the worksheet is at http://127.0.0.1:${server.address().port}/`);
}
