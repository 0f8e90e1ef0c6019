// Which drawings there are, which of them are one, and to which half each belongs.
//
// A half is decided by a hash of the group, so that nothing that resembles the drawings of one half
// by making occurs in the other.
import { createHash } from 'node:crypto';
import { existsSync, readdirSync, readFileSync, renameSync, writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { tmpdir } from 'node:os';
import { basename, dirname, join } from 'node:path';
import { findTwins } from './twins.mjs';

export const HALVES = ['tune', 'report'];

const SALT = 19;
const FOLDS = 4;
const BRUSH_FOLDER = '/usr/share/openclipart/svg';
const BRUSH_LIST = new URL('brush-drawings.txt', import.meta.url);
/** More drawings to tune on, mostly by the same artists. */
const TUNE_LIST = new URL('brush-drawings-2.txt', import.meta.url);
const require = createRequire(import.meta.url);

/**
 * The half of a group: `tune` or `report`. One artist drew half of the brush drawings; the salt is
 * the first number with which each half still has 25 of them, by five artists or more.
 */
export function halfOf(group) {
  return HALVES[createHash('sha256').update(`${SALT} ${group}`).digest()[0] & 1];
}

/** The fold of a group in training, as `train/fit.py` has it: what one fold holds, no other one does. */
export function foldOf(group) {
  return createHash('sha256').update(`fold ${group}`).digest()[0] % FOLDS;
}

/**
 * Drawings of the openmoji project (https://openmoji.org, CC BY-SA 4.0), as the npm package
 * `openmoji` installs them: `{ group, half, name, files, lines, markup }`.
 *
 * Files whose line groups are identical, files that look alike, and files whose names differ by skin
 * tone only, are one drawing, through any number of steps; its first file by name stands for it.
 * Ordered by the hash of the group, so that any number from the start is spread over all.
 */
export function openmojiDrawings() {
  const folder = join(dirname(require.resolve('openmoji/package.json')), 'color', 'svg');
  const owner = new Map();
  const found = [];
  const root = (i) => {
    while (found[i].parent !== i) i = found[i].parent = found[found[i].parent].parent;
    return i;
  };
  const unite = (i, j) => {
    const [a, b] = [root(i), root(j)];
    found[Math.max(a, b)].parent = Math.min(a, b);
  };
  for (const file of readdirSync(folder).sort()) {
    const markup = lineGroup(readFileSync(join(folder, file), 'utf8'));
    if (markup === undefined) continue;
    const name = file.replace('.svg', '');
    const lines = createHash('sha256').update(plainNumbers(markup)).digest('hex');
    const i = found.push({ name, lines, markup, parent: found.length }) - 1;
    for (const key of [lines, withoutTone(name)]) {
      if (!owner.has(key)) owner.set(key, i);
      unite(owner.get(key), i);
    }
  }
  const distinct = found.flatMap(({ lines }, i) => (owner.get(lines) === i ? [i] : []));
  for (const [a, b] of storedTwins(distinct.map((i) => found[i]))) unite(distinct[a], distinct[b]);
  const groups = new Map();
  found.forEach(({ name, lines, markup }, i) => {
    const first = found[root(i)];
    const group = `openmoji ${withoutTone(first.name)}`;
    if (!groups.has(group)) {
      groups.set(group, { group, half: halfOf(group), name, files: [], lines: new Set(), markup });
    }
    groups.get(group).files.push(name);
    groups.get(group).lines.add(lines);
  });
  return byHash([...groups.values()]);
}

/** Pairs of drawings that look alike, kept on disk for the drawings that they were found in. */
function storedTwins(drawings) {
  const hash = createHash('sha256').update(readFileSync(new URL('twins.mjs', import.meta.url)));
  for (const { lines } of drawings) hash.update(lines);
  const file = join(tmpdir(), `underink-twins-${hash.digest('hex').slice(0, 12)}.json`);
  if (!existsSync(file)) {
    writeFileSync(`${file}.${process.pid}`, JSON.stringify(findTwins(drawings)));
    renameSync(`${file}.${process.pid}`, file);
  }
  return JSON.parse(readFileSync(file, 'utf8'));
}

/** The version of the installed openmoji. */
export function openmojiVersion() {
  return require('openmoji/package.json').version;
}

/**
 * Drawings of the Open Clip Art Library (public domain) that Debian's package openclipart-svg
 * installs, those of `brush-drawings.txt`: `{ group, half, name, path }`. The group is the artist
 * (`dc:creator`), else the stem of the file name. To the tuning half come those of
 * `brush-drawings-2.txt` whose artist drew nothing for the other. Empty where the package is missing.
 */
export function brushDrawings() {
  if (!existsSync(BRUSH_FOLDER)) return [];
  const read = (list) => readFileSync(list, 'utf8').trim().split('\n');
  const lists = [read(BRUSH_LIST), read(TUNE_LIST)];
  const found = lists.flat().map((name) => {
    const path = join(BRUSH_FOLDER, name);
    return { name, path, artist: creator(readFileSync(path, 'utf8')) ?? stem(name) };
  });
  const artists = found.map(({ artist }) => artist);
  const drawings = found.map(({ name, path, artist }) => {
    const group = `brush ${shortestName(artist, artists)}`;
    return { group, half: halfOf(group), name, path };
  });
  const own = drawings.slice(0, lists[0].length);
  const reported = new Set(own.filter(({ half }) => half === 'report').map(({ group }) => group));
  const more = drawings.slice(own.length).filter(({ group }) => !reported.has(group));
  return byHash([...own, ...more.map((drawing) => ({ ...drawing, half: 'tune' }))]);
}

/** In the order of the hashes of their groups, then of their names. */
function byHash(drawings) {
  const hash = ({ group, name }) => createHash('sha256').update(`${group} ${name}`).digest('hex');
  return drawings
    .map((drawing) => [hash(drawing), drawing])
    .sort(([a], [b]) => (a < b ? -1 : 1))
    .map(([, drawing]) => drawing);
}

/** Markup of the group `line` without ids and spare blanks; undefined where it draws nothing. */
function lineGroup(svg) {
  const start = svg.search(/<g\b[^>]*\bid="line"/);
  if (start < 0) return undefined;
  const tags = /<g\b[^>]*?(\/?)>|<\/g>/g;
  tags.lastIndex = start;
  let depth = 0;
  for (let tag = tags.exec(svg); tag !== null; tag = tags.exec(svg)) {
    if (tag[0] === '</g>') depth--;
    else if (tag[1] === '') depth++;
    if (depth === 0) break;
  }
  if (depth > 0 || tags.lastIndex === 0) return undefined;
  const group = svg.slice(start, tags.lastIndex).replaceAll(/ id="[^"]*"/g, '');
  const markup = group.replaceAll(/\s+/g, ' ').replaceAll('> <', '><');
  return /<(line|rect|path|circle|polygon|polyline|ellipse)\b/.test(markup) ? markup : undefined;
}

/** Markup whose numbers have one decimal and whose black has one name, so that spelling matters not. */
function plainNumbers(markup) {
  return markup
    .replaceAll(/-?(\d+\.?\d*|\.\d+)(e-?\d+)?/g, (number) => ` ${Number(number).toFixed(1)} `)
    .replaceAll(/#0+\b|black/g, '#000')
    .replaceAll(/[\s,]+/g, ' ');
}

/** A file name without the codes of skin tones and of the emoji style. */
function withoutTone(name) {
  return name.replaceAll(/-(1F3F[B-F]|FE0F)/g, '');
}

/** The artist as the drawing's metadata names them, without case and blanks. */
function creator(svg) {
  const block = /<dc:creator>(.*?)<\/dc:creator>/s.exec(svg)?.[1];
  const text = block
    ?.replaceAll(/<[^>]*>/g, ' ')
    .replaceAll(/\s+/g, ' ')
    .trim()
    .toLowerCase();
  return text === undefined || text === '' ? undefined : text;
}

/** One artist signs with and without a title: the shortest name all of whose words are in this one. */
function shortestName(artist, artists) {
  const words = new Set(artist.split(' '));
  const [shortest] = artists
    .filter((other) => other.split(' ').every((word) => words.has(word)))
    .sort((p, q) => p.length - q.length || (p < q ? -1 : 1));
  return shortest ?? artist;
}

/** A file's name without its folder, numbers and endings. */
function stem(name) {
  return basename(name, '.svg')
    .replaceAll(/[\d_.]+/g, ' ')
    .trim();
}
