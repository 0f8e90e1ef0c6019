// Makes `docs/web-page.png`: `npm run build && node examples/web/picture.mjs`. Needs Chromium.
import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { chromium } from 'playwright-core';
import sharp from 'sharp';
import { buildPage } from './build.mjs';
import { serve } from './serve.mjs';

const here = (path) => fileURLToPath(new URL(path, import.meta.url));

await buildPage();
const server = await serve();
const args = ['--no-sandbox', '--disable-gpu', '--force-color-profile=srgb'];
const browser = await chromium.launch({ executablePath: '/usr/bin/chromium', args });
const page = await browser.newPage({
  viewport: { width: 1180, height: 1400 },
  colorScheme: 'light',
});
await page.goto(`http://127.0.0.1:${server.address().port}/`);
const kept = () =>
  page.waitForFunction(() => /browser/.test(document.querySelector('#fact-kept').textContent));
await page.click('#demo');
await kept();

// The heron and the otter are named, the crab is not yet.
const plan = JSON.parse(readFileSync(here('../saltmarrow/plan.json'), 'utf8'));
const marks = plan.marks.filter(({ swatch }) => !/crab|shell|pincer|dark brass/.test(swatch));
const file = { name: 'plan.json', mimeType: 'application/json' };
const buffer = Buffer.from(JSON.stringify({ ...plan, marks }));
const named = await page.textContent('#fact-named');
await page.setInputFiles('#file', { ...file, buffer });
await page.waitForFunction((n) => document.querySelector('#fact-named').textContent !== n, named);
await kept();
const { width } = await page.locator('#paper').boundingBox();
await page.locator('#paper').click({ position: { x: 0.82 * width, y: 0.485 * width } });
await page.waitForFunction(() => /^Area/.test(document.querySelector('#status').textContent));
await page.evaluate(() => {
  const { top } = document.querySelector('#step-gaps').getBoundingClientRect();
  scrollBy(0, top - 8);
});
const shot = await page.screenshot();
await sharp(shot).png({ palette: true, effort: 10 }).toFile(here('../../docs/web-page.png'));
await browser.close();
server.close();
