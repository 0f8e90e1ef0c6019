/** Links and pictures of the pages lead somewhere. */
import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { dirname, join, resolve } from 'node:path';
import { describe, expect, it } from 'vitest';
import { root } from '../support/snippets.ts';

const docs = readdirSync(join(root, 'docs'), { recursive: true, encoding: 'utf8' })
  .filter((file) => file.endsWith('.md') && !file.startsWith('api'))
  .map((file) => join('docs', file));
const pages = ['README.md', 'DEVELOPERS.md', ...docs];

/** Where the links of a page lead, code left out, without those to other sites. */
function links(page: string): string[] {
  const text = readFileSync(join(root, page), 'utf8').replace(/```[\s\S]*?^```$|`[^`\n]*`/gm, '');
  return [...text.matchAll(/\]\(([^)\s]+)\)/g)]
    .map(([, target]) => target!)
    .filter((target) => !/^https?:/.test(target));
}

/** The anchors of a page's headings, as they are made of them on the web. */
function anchors(file: string): string[] {
  return [...readFileSync(file, 'utf8').matchAll(/^#+ (.+)$/gm)].map(([, heading]) =>
    heading!
      .toLowerCase()
      .replace(/[^\p{L}\p{N}\s_-]/gu, '')
      .replaceAll(' ', '-'),
  );
}

describe('the pages', () => {
  it.each(pages)('%s links to what is there', (page) => {
    const lost = links(page).filter((target) => {
      const [path = '', anchor] = target.split('#');
      const file = path === '' ? join(root, page) : resolve(root, dirname(page), path);
      return !existsSync(file) || (anchor !== undefined && !anchors(file).includes(anchor));
    });
    expect(lost).toEqual([]);
  });

  it('show every picture that is made for them', () => {
    const shown = new Set(
      pages.flatMap((page) => links(page).map((target) => resolve(root, dirname(page), target))),
    );
    const pictures = readdirSync(join(root, 'docs/guide/pictures')).map((file) =>
      join(root, 'docs/guide/pictures', file),
    );
    expect(pictures.filter((file) => !shown.has(file))).toEqual([]);
  });
});
