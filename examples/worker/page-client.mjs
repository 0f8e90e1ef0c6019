// The other side of `page-worker.mjs`: calls that give promises, one after the other, with progress
// and cancelling. It takes a `Worker` of a browser or of Node.
import { Caller } from './caller.mjs';

/** A page that a worker keeps. */
export class PageClient extends Caller {
  #stop;

  /** `transfer` lists buffers of the input that the worker may have: they are gone here. */
  open(input, { transfer, onProgress, ...options } = {}) {
    return this.call('open', { input, options }, { transfer, onProgress });
  }

  /** Lays a plan. An update that still runs is stopped first where memory can be shared. */
  update(plan, { onProgress } = {}) {
    this.stop();
    const stop = typeof SharedArrayBuffer === 'undefined' ? undefined : new SharedArrayBuffer(1);
    this.#stop = stop;
    return this.call('update', { plan, stop }, { onProgress });
  }

  /** Stops the update that runs: its promise is rejected with an AbortError, the page is as before. */
  stop() {
    if (this.#stop !== undefined) Atomics.store(new Uint8Array(this.#stop), 0, 1);
    this.#stop = undefined;
  }

  regionAt(point) {
    return this.call('regionAt', { point });
  }

  regionMask(region) {
    return this.call('regionMask', { region });
  }

  compose(bounds) {
    return this.call('compose', { bounds });
  }

  save() {
    return this.call('save');
  }
}
