// The other side of `page-worker.mjs`: calls that give promises, one after the other, with progress
// and cancelling. It takes a `Worker` of a browser or of Node.

/** A page that a worker keeps. */
export class PageClient {
  #worker;
  #calls = new Map();
  #lastId = 0;
  #stop;

  constructor(worker) {
    this.#worker = worker;
    const listen = (message) => this.#receive(message);
    if (typeof worker.on === 'function') worker.on('message', listen);
    else worker.onmessage = ({ data }) => listen(data);
  }

  /** `transfer` lists buffers of the input that the worker may have: they are gone here. */
  open(input, { transfer = [], onProgress, ...options } = {}) {
    return this.#call({ call: 'open', input, options }, { transfer, onProgress });
  }

  /** Lays a plan. An update that still runs is stopped first where memory can be shared. */
  update(plan, { onProgress } = {}) {
    this.stop();
    const stop = typeof SharedArrayBuffer === 'undefined' ? undefined : new SharedArrayBuffer(1);
    this.#stop = stop;
    return this.#call({ call: 'update', plan, stop }, { onProgress });
  }

  /** Stops the update that runs: its promise is rejected with an AbortError, the page is as before. */
  stop() {
    if (this.#stop !== undefined) Atomics.store(new Uint8Array(this.#stop), 0, 1);
    this.#stop = undefined;
  }

  regionAt(point) {
    return this.#call({ call: 'regionAt', point });
  }

  regionMask(region) {
    return this.#call({ call: 'regionMask', region });
  }

  compose(bounds) {
    return this.#call({ call: 'compose', bounds });
  }

  save() {
    return this.#call({ call: 'save' });
  }

  #call(message, { transfer = [], onProgress } = {}) {
    const id = ++this.#lastId;
    return new Promise((resolve, reject) => {
      this.#calls.set(id, { resolve, reject, onProgress });
      this.#worker.postMessage({ id, ...message }, transfer);
    });
  }

  #receive({ id, result, error, progress }) {
    const { resolve, reject, onProgress } = this.#calls.get(id);
    if (progress !== undefined) {
      onProgress?.(progress);
      return;
    }
    this.#calls.delete(id);
    if (error === undefined) resolve(result);
    else reject(Object.assign(new Error(error.message), { name: error.name }));
  }
}
