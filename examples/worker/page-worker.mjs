// A worker that keeps one page open. It runs in a browser (`new Worker(url, { type: 'module' })`, with
// `underink` resolved by your bundler or an import map) and in Node (`worker_threads`) as it stands.
//
// Messages in, each with an `id` that its answer carries:
//   { id, call: 'open', input, options? }     input: { data, width, height, channels? }, { ink, coverage? } or a saved page
//   { id, call: 'update', plan, stop? }       stop: a SharedArrayBuffer; the update ends once its first byte is not 0
//   { id, call: 'regionAt', point }
//   { id, call: 'regionMask', region }
//   { id, call: 'compose', bounds }
//   { id, call: 'save' }
// Answers: { id, result } or { id, error: { name, message } }; during `open` and `update` also
// { id, progress: { stage, done } }. Arrays of a result come by transfer, without a copy, where they
// are the answer's own.
import { openPage } from 'underink';

/** @type {import('underink').Page | undefined} */
let page;

const CALLS = {
  open({ input, options }, tell) {
    page = openPage(input, { ...options, onProgress: tell });
    const { report, size } = page;
    return [{ size, report, palette: page.flats.palette, picture: pictureOf([0, 0, ...size]) }];
  },
  update({ plan, stop }, tell) {
    const { report, flats, changed, addedIds, goneIds, changedIds } = opened().update(plan, {
      onProgress: tell,
      signal: stop && { throwIfAborted: () => throwIfStopped(stop) },
    });
    const picture = changed && pictureOf(changed);
    return [{ report, palette: flats.palette, changed, addedIds, goneIds, changedIds, picture }];
  },
  regionAt({ point }) {
    return [opened().regionAt(point)];
  },
  regionMask({ region }) {
    const { mask, bounds, area } = opened().regionMask(region);
    return [{ data: mask.data, bounds, area }, [mask.data.buffer]];
  },
  compose({ bounds }) {
    const picture = pictureOf(bounds);
    return [picture];
  },
  save() {
    return [opened().save()];
  },
};

function opened() {
  if (page === undefined) throw new Error('open must come before any other call');
  return page;
}

/** The sheet within bounds, ready for `putImageData(new ImageData(data, width), x0, y0)`. */
function pictureOf(bounds) {
  const { data } = page.composeWithin(bounds);
  return { bounds, data: new Uint8ClampedArray(data.buffer) };
}

function throwIfStopped(stop) {
  if (Atomics.load(new Uint8Array(stop), 0) === 0) return;
  throw Object.assign(new Error('the update was stopped'), { name: 'AbortError' });
}

/** Pictures of a result are its own: they are transferred. */
function buffersOf(result) {
  const picture = result?.picture ?? result;
  return picture?.data instanceof Uint8ClampedArray ? [picture.data.buffer] : [];
}

/** Answers one message by `post`. */
function answer(message, post) {
  const { id, call } = message;
  try {
    if (!Object.hasOwn(CALLS, call))
      throw new RangeError(`call must be one of ${Object.keys(CALLS)}, got ${call}`);
    const [result, transfer] = CALLS[call](message, (progress) => post({ id, progress }, []));
    post({ id, result }, transfer ?? buffersOf(result));
  } catch (error) {
    post({ id, error: { name: error.name, message: error.message } }, []);
  }
}

if (typeof self !== 'undefined' && typeof self.postMessage === 'function') {
  self.onmessage = ({ data }) =>
    answer(data, (reply, transfer) => self.postMessage(reply, transfer));
} else {
  const { parentPort } = await import('node:worker_threads');
  parentPort.on('message', (message) => {
    answer(message, (reply, transfer) => parentPort.postMessage(reply, transfer));
  });
}
