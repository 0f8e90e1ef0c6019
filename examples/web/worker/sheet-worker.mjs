// The worker of the worksheet: the page, what is shown of it, files, and what the browser keeps.
import { listRegions, openPage, writeFlats, writeLayers } from 'underink';
import {
  keepPage,
  keptPage,
  PAGE_CALLS,
  updatePage,
  withPicture,
} from '../../worker/page-calls.mjs';
import { serveCalls } from '../../worker/serve-calls.mjs';
import { readKept, writeKept } from '../kept.mjs';
import { decode } from './decode.mjs';

/** What shows through the ground: the paper of the worksheet. */
const PAPER = { backdrop: '#f1e8d6' };

/** The drawing: `{ id, name, pixels, resolution? }`. */
let drawing;

const CALLS = {
  ...PAGE_CALLS,
  async openFile({ file, name, plan }, tell) {
    const { pixels, resolution } = await decode(file);
    const page = openPage(pixels, { plan, onProgress: tell });
    drawing = { id: crypto.randomUUID(), name, pixels, resolution };
    return shown(keepPage(page));
  },
  /** The page of the last visit; null where there is none. */
  async restore() {
    const kept = await readKept('page');
    if (kept === undefined) return [null];
    const { saved, ...own } = kept;
    const page = openPage(saved);
    drawing = own;
    return shown(keepPage(page));
  },
  async keep() {
    const { id, name, resolution } = drawing;
    const { pixels } = drawing;
    await writeKept('page', { id, name, pixels, resolution, saved: keptPage().save() });
    return [null];
  },
  update({ plan, stop }, tell) {
    const { changed, flats, report } = updatePage(plan, stop, tell);
    return withPicture(tellings(flats, report), changed, PAPER);
  },
  /** The numbered areas, by number. */
  areas() {
    const { labels, flats, sealed, report } = keptPage();
    const areas = listRegions({ labels, flats, sealed, report });
    return [areas.map(({ neighbors, bounds, ...area }) => area)];
  },
  /** What is under a point: its area, the outline, and which marks of the plan are points in it. */
  pick({ point }) {
    const page = keptPage();
    const region = page.regionAt(point);
    if (region === 0) return [null];
    const { flats, plan } = page;
    const index = flats.indices.get(Math.floor(point[0]), Math.floor(point[1]));
    const marks = plan.marks.flatMap(({ point: at }, i) =>
      at !== undefined && page.regionAt(at) === region ? [i] : [],
    );
    const { name, color } = flats.palette[index];
    return [{ region, name, color, marks, rings: page.regionOutline(region) }];
  },
  /** The ways by which two names run into one area, as marks that close them. */
  leaks({ conflict }) {
    return [keptPage().report.conflicts[conflict]?.leaks ?? []];
  },
  flats() {
    return bytesOf(writeFlats(keptPage().flats, { resolution: drawing.resolution }).bytes);
  },
  layers() {
    const { flats } = keptPage();
    const { pixels, resolution } = drawing;
    return bytesOf(writeLayers(flats, { line: pixels, resolution }));
  },
};

function shown(page) {
  const { id, name } = drawing;
  const { size, plan, flats, report } = page;
  return withPicture({ id, name, size, plan, ...tellings(flats, report) }, [0, 0, ...size], PAPER);
}

/** What the worksheet says of a plan that is laid. Leaks are not sought before they are asked for. */
function tellings({ palette, ground }, report) {
  const { regions, named, unnamed, bridges, notes, outside, unlabeled } = report;
  const conflicts = report.conflicts.map(({ mark, point, swatch, keeps, region }) => {
    return { mark, point, swatch, keeps, region };
  });
  return {
    palette,
    ground,
    regions,
    named,
    unnamed,
    bridges,
    notes,
    outside,
    unlabeled,
    conflicts,
  };
}

function bytesOf(bytes) {
  return [bytes, [bytes.buffer]];
}

await serveCalls(CALLS);
