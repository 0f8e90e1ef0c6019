// What a worker that keeps one page open answers.
import { openPage } from 'underink';

/** @type {import('underink').Page | undefined} */
let page;

/** Messages and answers are told in `page-worker.mjs`. */
export const PAGE_CALLS = {
  open({ input, options }, tell) {
    const { report, size, flats } = keepPage(openPage(input, { ...options, onProgress: tell }));
    return withPicture({ size, report, palette: flats.palette }, [0, 0, ...size]);
  },
  update({ plan, stop }, tell) {
    const { report, flats, ...done } = updatePage(plan, stop, tell);
    const { changed, addedIds, goneIds, changedIds } = done;
    const answer = { report, palette: flats.palette, changed, addedIds, goneIds, changedIds };
    return withPicture(answer, changed);
  },
  regionAt({ point }) {
    return [keptPage().regionAt(point)];
  },
  regionMask({ region }) {
    const { mask, bounds, area } = keptPage().regionMask(region);
    return [{ data: mask.data, bounds, area }, [mask.data.buffer]];
  },
  compose({ bounds }) {
    const picture = pictureOf(bounds);
    return [picture, [picture.data.buffer]];
  },
  save() {
    return [keptPage().save()];
  },
};

/** Makes a page the one that is kept. */
export function keepPage(opened) {
  page = opened;
  return page;
}

export function keptPage() {
  if (page === undefined) throw new Error('open must come before any other call');
  return page;
}

/** Lays a plan; the first byte of `stop`, a SharedArrayBuffer, ends that once it is not 0. */
export function updatePage(plan, stop, tell) {
  return keptPage().update(plan, {
    onProgress: tell,
    signal: stop && { throwIfAborted: () => throwIfStopped(stop) },
  });
}

/** An answer with the sheet within bounds, which goes along without a copy; null bounds give none. */
export function withPicture(answer, bounds, options) {
  const picture = bounds && pictureOf(bounds, options);
  return [{ ...answer, picture }, picture ? [picture.data.buffer] : []];
}

/** The sheet within bounds, ready for `putImageData(new ImageData(data, width), x0, y0)`. */
function pictureOf(bounds, options) {
  const { data } = keptPage().composeWithin(bounds, options);
  return { bounds, data: new Uint8ClampedArray(data.buffer) };
}

function throwIfStopped(stop) {
  if (Atomics.load(new Uint8Array(stop), 0) === 0) return;
  throw Object.assign(new Error('the update was stopped'), { name: 'AbortError' });
}
