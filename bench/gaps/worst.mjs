// The worst cases as pictures: intact, with gaps, and what was found.
import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { raster, writePng } from 'underink';

const INK = [0, 0, 0];
const ERASED = [230, 0, 0];
/** Paper that no region found has: what was drawn to close gaps. */
const CLOSED = [0, 70, 255];
/** Rings: about a gap that stayed open, and about a place where one true region was parted. */
const MERGE = [230, 0, 0];
const SPLIT = [0, 70, 255];
/** Pixels between panels. */
const SPACE = 8;

/**
 * Writes the cases with the most corrections of each set and setting, controls and gaps apart, into
 * the folder `worst`: left the intact drawing with its true regions, in the middle the gaps, right the
 * found regions with the bridges in blue, red rings about gaps whose regions are one, blue ones about false splits.
 */
export async function writeWorst(rows, { methods, loadSet }, count, out) {
  if (count === 0) return;
  mkdirSync(join(out, 'worst'), { recursive: true });
  const chosen = new Map();
  for (const row of rows) {
    if (row.method === 'none' || row.corrections === 0) continue;
    const key = `${row.set} ${row.label} ${row.gap === 0 ? 'control' : 'gaps'}`;
    chosen.set(key, [...(chosen.get(key) ?? []), row]);
  }
  const picked = [...chosen].flatMap(([key, list]) =>
    list
      .sort((a, b) => b.corrections - a.corrections || (a.name < b.name ? -1 : 1))
      .slice(0, count)
      .map((row, k) => ({ key, k, row })),
  );
  for (const set of new Set(picked.map(({ row }) => row.set))) {
    const cases = await loadSet(set);
    for (const { key, k, row } of picked) {
      if (row.set !== set) continue;
      const one = cases.find(
        (c) => c.name === row.name && c.gap === row.gap && c.group === row.group,
      );
      const { study, run } = methods[row.method];
      const name = `${key} ${k + 1} ${row.name} gap ${row.gap}`.replaceAll(/[^\w.-]+/g, '-');
      writeFileSync(join(out, 'worst', `${name}.png`), drawCase(one, run(study(one), row.options)));
    }
  }
}

/** PNG of one case with found labels. */
export function drawCase(one, labels) {
  const { width, height, intact, ink, truth } = one;
  const sheet = new Uint8Array(3 * (3 * width + 2 * SPACE) * height).fill(255);
  const pitch = 3 * width + 2 * SPACE;
  const panel = (k, colorOf) => {
    for (let i = 0; i < intact.length; i++) {
      const x = (i % width) + k * (width + SPACE);
      sheet.set(colorOf(i), 3 * (Math.floor(i / width) * pitch + x));
    }
  };
  panel(0, (i) => (intact[i] === 1 ? INK : tint(truth[i])));
  panel(1, (i) => (ink[i] === 1 ? INK : intact[i] === 1 ? ERASED : [255, 255, 255]));
  panel(2, (i) => (ink[i] === 1 ? INK : labels[i] === 0 ? CLOSED : tint(labels[i])));
  const ring = (x, y, color) => drawRing(sheet, pitch, height, x + 2 * (width + SPACE), y, color);
  for (const gap of one.gaps) {
    if (isOpen(gap, one, labels)) ring(gap.x, gap.y, MERGE);
  }
  for (const [x, y] of partings(one, labels)) ring(x, y, SPLIT);
  return writePng(raster(sheet, [pitch, height, 3]));
}

/** Whether the two regions of a gap are mostly in one found region. */
function isOpen({ regions }, { truth }, labels) {
  const [a, b] = regions.map((id) => {
    const counts = new Map();
    for (let i = 0; i < truth.length; i++) {
      if (truth[i] === id) counts.set(labels[i], (counts.get(labels[i]) ?? 0) + 1);
    }
    return [...counts].reduce((most, entry) => (entry[1] > most[1] ? entry : most))[0];
  });
  return a === b && a !== 0;
}

/** One place for each pair of pieces of a true region that lie next to each other, or nearly so. */
function partings({ truth, width, height, scale }, labels) {
  const areas = new Map();
  const pieces = new Map();
  for (let i = 0; i < truth.length; i++) {
    if (truth[i] === 0) continue;
    const key = `${truth[i]} ${labels[i]}`;
    areas.set(truth[i], (areas.get(truth[i]) ?? 0) + 1);
    pieces.set(key, (pieces.get(key) ?? 0) + 1);
  }
  const counts = (i) =>
    labels[i] !== 0 &&
    truth[i] !== 0 &&
    pieces.get(`${truth[i]} ${labels[i]}`) >= Math.max(12 * scale ** 2, 0.05 * areas.get(truth[i]));
  const between = new Map();
  for (let y = 0; y < height; y++) {
    for (let x = 0; x < width; x++) {
      const i = y * width + x;
      if (!counts(i)) continue;
      for (const [dx, dy] of [
        [1, 0],
        [0, 1],
        [3, 0],
        [0, 3],
        [5, 0],
        [0, 5],
      ]) {
        if (x + dx >= width || y + dy >= height) continue;
        const j = i + dy * width + dx;
        if (truth[j] !== truth[i] || labels[j] === labels[i] || !counts(j)) continue;
        const key = `${truth[i]} ${Math.min(labels[i], labels[j])} ${Math.max(labels[i], labels[j])}`;
        const places = between.get(key) ?? [];
        between.set(key, places);
        places.push([x + dx / 2, y + dy / 2]);
      }
    }
  }
  return [...between.values()].map(middleOf);
}

/** The place next to the mean of all. */
function middleOf(places) {
  const mean = [0, 1].map((k) => places.reduce((sum, place) => sum + place[k], 0) / places.length);
  const off = ([x, y]) => Math.hypot(x - mean[0], y - mean[1]);
  return places.reduce((best, place) => (off(place) < off(best) ? place : best));
}

function drawRing(sheet, pitch, height, cx, cy, color) {
  const [inner, outer] = [12, 15];
  for (let y = Math.max(0, Math.floor(cy - outer)); y <= Math.min(height - 1, cy + outer); y++) {
    for (let x = Math.max(0, Math.floor(cx - outer)); x <= Math.min(pitch - 1, cx + outer); x++) {
      const d = Math.hypot(x + 0.5 - cx, y + 0.5 - cy);
      if (d >= inner && d <= outer) sheet.set(color, 3 * (y * pitch + x));
    }
  }
}

/** A light color for an id, by the golden ratio over the hues; white for none. */
function tint(id) {
  if (id === 0) return [255, 255, 255];
  const hue = (id * 0.618034) % 1;
  const wave = (shift) => Math.round(205 + 45 * Math.cos(2 * Math.PI * (hue + shift)));
  return [wave(0), wave(1 / 3), wave(2 / 3)];
}
