import { readFileSync } from 'node:fs';
import type { BrowserContext, Page } from 'playwright-core';
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import {
  type Flats,
  layFlats,
  type Plan,
  raster,
  readFlats,
  readLayers,
  writePng,
} from '../../src/index.ts';
import { dropFile, missing, startWorksheet, tabTo, type Worksheet } from './browser.ts';

const [WIDTH, HEIGHT] = [600, 400];

/** A crab's shell with a gap of 10 pixels in its ring, and a whole ring, a porthole, with a mast across. */
const drawing = (() => {
  const data = new Uint8Array(WIDTH * HEIGHT).fill(255);
  const ink = (x: number, y: number, away: number): void => {
    const i = y * WIDTH + x;
    data[i] = Math.min(data[i]!, Math.round(255 * Math.min(1, Math.max(0, Math.abs(away) - 2.5))));
  };
  for (let y = 0; y < HEIGHT; y++) {
    for (let x = 0; x < WIDTH; x++) {
      const shell = Math.hypot(x + 0.5 - 160, y + 0.5 - 200) - 110;
      if (!(x > 160 && Math.abs(y + 0.5 - 200) < 5)) ink(x, y, shell);
      const porthole = Math.hypot(x + 0.5 - 430, y + 0.5 - 200) - 120;
      ink(x, y, porthole);
      if (porthole < 0) ink(x, y, x + 0.5 - 430);
    }
  }
  return raster(data, [WIDTH, HEIGHT]);
})();
const file = writePng(drawing, { resolution: { x: 11811, y: 11811, unit: 'meter' } });

const INSIDE = { shell: [160, 200], port: [380, 200], starboard: [480, 200] } as const;

describe.skipIf(missing !== undefined)(
  `the worksheet in a browser${missing ? `: ${missing}` : ''}`,
  () => {
    let sheet: Worksheet;
    let context: BrowserContext;
    let page: Page;
    const troubles: string[] = [];

    beforeAll(async () => {
      sheet = await startWorksheet();
    });
    afterAll(() => sheet?.close());

    beforeEach(async () => {
      context = await sheet.browser.newContext({ acceptDownloads: true });
      page = await context.newPage();
      troubles.length = 0;
      const note = (text: string) => void troubles.push(text);
      page.on('pageerror', ({ message }) => note(message));
      page.on('console', (message) => message.type() === 'error' && note(message.text()));
      page.on('worker', (worker) =>
        worker.on('console', (message) => message.type() === 'error' && note(message.text())),
      );
      await page.exposeFunction('noteTrouble', note);
      await page.addInitScript(() => {
        document.addEventListener('securitypolicyviolation', (event) => {
          const { noteTrouble } = globalThis as unknown as { noteTrouble(text: string): void };
          noteTrouble(`${event.violatedDirective}: ${event.blockedURI}`);
        });
      });
    });
    afterEach(async () => {
      await context.close();
      expect(troubles).toEqual([]);
    });

    const text = (id: string) => page.locator(`#${id}`).textContent();
    const said = (words: RegExp) =>
      page.waitForFunction(
        ([source]) =>
          new RegExp(source!).test(document.querySelector('#status')?.textContent ?? ''),
        [words.source],
      );
    const kept = () =>
      page.waitForFunction(
        () => document.querySelector('#fact-kept')?.textContent === 'in this browser',
      );
    const click = async ([x, y]: readonly [number, number]) => {
      const { width } = (await page.locator('#paper').boundingBox())!;
      const zoom = width / WIDTH;
      await page.locator('#paper').click({ position: { x: x * zoom, y: y * zoom } });
    };
    const open = async () => {
      await page.goto(sheet.url);
      await said(/to begin/);
      await dropFile(page, 'pilots.png', 'image/png', file);
      await kept();
    };
    const write = async (name: string, point: readonly [number, number]) => {
      await click(point);
      await said(/^Area/);
      await page.fill('#name', name);
      await page.click('#write');
      await said(/named\.$/);
      await kept();
    };
    const setGap = async (value: number) => {
      await page.locator('#gap').fill(String(value));
      await said(/named\.$/);
      await kept();
    };
    const take = async (button: string) => {
      const [download] = await Promise.all([page.waitForEvent('download'), page.click(button)]);
      return { name: download.suggestedFilename(), bytes: readFileSync(await download.path()) };
    };
    const takePlan = async (): Promise<Plan> =>
      JSON.parse((await take('#take-plan')).bytes.toString());

    it('is served under a strict policy, with memory that a worker shares', async () => {
      const response = (await page.goto(sheet.url))!;
      const policy = response.headers()['content-security-policy']!;
      for (const part of [
        "default-src 'none'",
        "script-src 'self'",
        "worker-src 'self'",
        "style-src 'self'",
        "img-src 'self' blob: data:",
        "connect-src 'self'",
      ]) {
        expect(policy.split('; ')).toContain(part);
      }
      expect(policy).not.toMatch(/unsafe/);
      expect(await page.evaluate(() => globalThis.crossOriginIsolated)).toBe(true);
      const [away, back] = await Promise.all([
        page.request.get(`${sheet.url}..%2F..%2Fbuild.mjs`),
        page.request.get(`${sheet.url}nothing.js`),
      ]);
      expect([away.status(), back.status()]).toEqual([404, 404]);
    });

    it('has no violation reported from the worker', async () => {
      await page.goto(sheet.url);
      await said(/to begin/);
      const [worker] = page.workers();
      await worker!.evaluate(() => {
        const reported: string[] = [];
        Object.assign(globalThis, { reported });
        addEventListener('securitypolicyviolation', (event) => {
          const { violatedDirective, blockedURI } = event as SecurityPolicyViolationEvent;
          reported.push(`${violatedDirective}: ${blockedURI}`);
        });
      });
      await dropFile(page, 'pilots.png', 'image/png', file);
      await kept();
      expect(
        await worker!.evaluate(() => (globalThis as unknown as { reported: string[] }).reported),
      ).toEqual([]);
    });

    it('shows the areas of a dropped drawing, which the gap setting changes', async () => {
      await open();
      await setGap(0);
      const { report } = layFlats(drawing, { maxGap: 0 });
      expect(await text('fact-areas')).toBe(String(report.regions));
      await setGap(20);
      const closed = layFlats(drawing, { maxGap: 20 }).report;
      expect(closed.regions).toBe(report.regions + 1);
      expect(await text('fact-areas')).toBe(String(closed.regions));
      expect(await page.locator('#areas tr').count()).toBe(closed.regions);
      // both settings are one step of the slider
      await page.click('#undo');
      await said(/named\.$/);
      expect(await page.isChecked('#gap-auto')).toBe(true);
      expect(await page.isDisabled('#undo')).toBe(true);
    });

    it('names by clicks, outlines, undoes, keeps all over a reload, and gives right files', async () => {
      await open();
      await setGap(20);
      await write('crab shell', INSIDE.shell);
      await write('sea glass', INSIDE.port);
      await page.check('input[value="name"]');
      await click(INSIDE.starboard); // the name on the line, written on another area
      await page.waitForFunction(() => document.querySelector('#fact-named')?.textContent === '3');
      await page.check('input[value="outline"]');
      for (const corner of [
        [100, 150],
        [200, 150],
        [150, 280],
      ] as const)
        await click(corner);
      await page.fill('#name', 'barnacle');
      await page.check('#over');
      await page.click('#write');
      await page.waitForFunction(() => document.querySelector('#fact-named')?.textContent === '4');
      await kept();
      const before = await takePlan();
      expect(before.marks.map((mark) => Object.keys(mark)[0])).toEqual([
        'point',
        'point',
        'point',
        'polygon',
      ]);
      await page.click('#undo');
      await page.waitForFunction(() => document.querySelector('#fact-named')?.textContent === '3');
      expect((await takePlan()).marks).toEqual(before.marks.slice(0, 3));
      await page.click('#redo');
      await page.waitForFunction(() => document.querySelector('#fact-named')?.textContent === '4');

      // at once, before the page itself is kept
      await page.reload();
      await kept();
      expect(await takePlan()).toEqual(before);
      expect(await text('fact-name')).toBe('pilots.png');
      expect(await page.isDisabled('#undo')).toBe(false);

      const flatsFile = await take('#take-flats');
      expect(flatsFile.name).toBe('pilots.flats.png');
      const read = readFlats(flatsFile.bytes);
      expect(read.resolution).toEqual({ x: 11811, y: 11811, unit: 'meter' });
      expectSameFlats(read.flats, layFlats(drawing, { plan: before }).flats, before);
      expect(nameAt(read.flats, 150, 200)).toBe('barnacle');
      expect(nameAt(read.flats, 230, 200)).toBe('crab shell');
      expect(nameAt(read.flats, 480, 200)).toBe('sea glass');

      const layersFile = await take('#take-layers');
      expect(layersFile.name).toBe('pilots.ora');
      const { layers, size } = readLayers(layersFile.bytes);
      expect(size).toEqual([WIDTH, HEIGHT]);
      const names = layers.map(({ name }) => name);
      for (const name of ['crab shell', 'sea glass', 'barnacle']) expect(names).toContain(name);

      await page.click('#undo');
      await page.waitForFunction(() => document.querySelector('#fact-named')?.textContent === '3');
    });

    it('tells two names in one area, finds the way between them and closes it', async () => {
      await open();
      await setGap(0);
      await write('crab shell', INSIDE.shell);
      // a plan that names the ground, too, as two people would
      const plan = await takePlan();
      const both = {
        ...plan,
        palette: [...plan.palette, { name: 'quay', color: '#b0a58a' }],
        marks: [...plan.marks, { point: [20.5, 20.5], swatch: 'quay' }],
      };
      await dropFile(page, 'plan.json', 'application/json', Buffer.from(JSON.stringify(both)));
      await page.waitForSelector('#doubts .kind:text("Two names")');
      await page.click('#doubts button:text("Go there")');
      await said(/^Area/);
      await page.click('#doubts button:text("Where do they meet?")');
      await page.click('#doubts button:text("Close the place")');
      await page.waitForFunction(() => document.querySelector('#fact-named')?.textContent === '2');
      await kept();
      expect((await takePlan()).marks.at(-1)).toHaveProperty('bridge');
      expect(await page.locator('#doubts .kind:text("Two names")').count()).toBe(0);
    });

    it('says what it cannot open, and keeps what was open', async () => {
      await open();
      await dropFile(page, 'notes.txt', 'text/plain', Buffer.from('no picture'));
      await said(/notes\.txt can’t be opened: this browser reads no picture/);
      await dropFile(page, 'broken.png', 'image/png', file.subarray(0, 300));
      await said(/broken\.png can’t be opened/);
      await dropFile(
        page,
        'plan.json',
        'application/json',
        Buffer.from('{"version":1,"size":[3,3],"palette":[],"marks":[]}'),
      );
      await said(/plan\.size/);
      expect(await text('fact-name')).toBe('pilots.png');
      expect(await page.isDisabled('#undo')).toBe(true);
    });

    it('can be used with the keyboard alone', async () => {
      await open();
      await tabTo(page, '#drawing');
      const seen = await page.evaluate(
        () => getComputedStyle(document.activeElement!).outlineStyle,
      );
      expect(seen).toBe('solid');
      // from the middle of the sheet into the port side of the porthole
      for (let i = 0; i < 6; i++) await page.keyboard.press('ArrowRight');
      await said(/^Marker at/);
      await page.keyboard.press('Enter');
      await said(/^Area/);
      await page.keyboard.press('Shift+Tab'); // gaps, numbers, … back to the line to write on
      for (let i = 0; i < 12; i++) {
        if (await page.evaluate(() => document.activeElement?.id === 'name')) break;
        await page.keyboard.press('Shift+Tab');
      }
      await page.keyboard.type('sea glass');
      await page.keyboard.press('Enter');
      await page.waitForFunction(() => document.querySelector('#fact-named')?.textContent === '1');
      // an outline: the third way of the choice, its corners by Enter
      await page.focus('input[value="pick"]');
      await page.keyboard.press('ArrowDown');
      await page.keyboard.press('ArrowDown');
      expect(await page.isChecked('input[value="outline"]')).toBe(true);
      await tabTo(page, '#drawing');
      for (const keys of ['', 'ArrowLeft ArrowLeft', 'ArrowDown ArrowDown ArrowDown', 'ArrowUp']) {
        for (const key of keys.split(' ')) if (key) await page.keyboard.press(key);
        await page.keyboard.press('Enter');
      }
      await page.keyboard.press('Backspace'); // the last corner
      expect(await text('picked')).toBe('3 corners are set.');
      await page.keyboard.press('Escape');
      expect(await text('picked')).toBe('No corner is set.');
      // a name in the table, then back
      await tabTo(page, '#areas tr:first-child input');
      await page.keyboard.type('open water');
      await page.keyboard.press('Enter');
      await page.waitForFunction(() => document.querySelector('#fact-named')?.textContent === '2');
      await tabTo(page, '#take-plan');
      await page.keyboard.press('Control+z');
      await page.waitForFunction(() => document.querySelector('#fact-named')?.textContent === '1');
      await page.keyboard.press('Control+Shift+z');
      await page.waitForFunction(() => document.querySelector('#fact-named')?.textContent === '2');
      const [download] = await Promise.all([
        page.waitForEvent('download'),
        page.keyboard.press('Enter'),
      ]);
      const plan: Plan = JSON.parse(readFileSync(await download.path(), 'utf8'));
      expect(plan.palette.map(({ name }) => name)).toEqual(['sea glass', 'open water']);
    });

    it('has a name for every control, and no width that scrolls at 360 px and at 400 % zoom', async () => {
      await open();
      const nameless = await page.evaluate(() =>
        Array.from(document.querySelectorAll('button, input:not([hidden]), select, [tabindex]'))
          .filter((element) => {
            const { labels, textContent } = element as HTMLInputElement;
            return !(element.getAttribute('aria-label') || labels?.length || textContent?.trim());
          })
          .map(({ outerHTML }) => outerHTML),
      );
      expect(nameless).toEqual([]);
      // 320 CSS pixels are 1280 at 400 % (WCAG 2.2, 1.4.10)
      for (const [width, height] of [
        [360, 740],
        [320, 256],
      ] as const) {
        await page.setViewportSize({ width, height });
        const wide = await page.evaluate(() =>
          Array.from(document.querySelectorAll('body *:not(#drawing *)'))
            .filter((element) => element.getBoundingClientRect().right > innerWidth + 0.5)
            .map(({ outerHTML }) => outerHTML.slice(0, 80)),
        );
        expect(wide).toEqual([]);
        expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBe(width);
        await write(`porthole ${width}`, INSIDE.port);
      }
    });

    it('shows the demo to a person without a drawing', async () => {
      await page.goto(sheet.url);
      await page.click('#demo');
      await kept();
      expect(await text('fact-size')).toBe('3000 × 2000 px');
      expect(Number(await text('fact-named'))).toBeGreaterThan(50);
      expect(await text('doubt-words')).toMatch(
        /places want a look\. \d+ areas have no name yet\./,
      );
    });
  },
);

function nameAt({ indices, palette }: Flats, x: number, y: number): string {
  return palette[indices.get(x, y)]!.name;
}

/** The same names, pixel by pixel; placeholders of one may have other names in the other. */
function expectSameFlats(a: Flats, b: Flats, plan: Plan): void {
  const named = new Set(plan.palette.map(({ name }) => name));
  const partners = new Map<string, string>();
  const back = new Map<string, string>();
  for (let i = 0; i < a.indices.data.length; i++) {
    const [p, q] = [a.palette[a.indices.data[i]!]!, b.palette[b.indices.data[i]!]!];
    if (named.has(p.name) || named.has(q.name)) {
      if (p.name !== q.name || p.color !== q.color)
        throw new Error(`${p.name}, not ${q.name}, at ${i}`);
      continue;
    }
    if ((partners.get(p.name) ?? q.name) !== q.name || (back.get(q.name) ?? p.name) !== p.name)
      throw new Error(`${p.name} is divided at ${i}`);
    partners.set(p.name, q.name);
    back.set(q.name, p.name);
  }
}
