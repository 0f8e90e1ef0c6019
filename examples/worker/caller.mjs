// The page's side of calls by message, for a `Worker` of a browser or of Node.

/** Calls that give promises, with progress: see `serveCalls` for the messages. */
export class Caller {
  #worker;
  #calls = new Map();
  #lastId = 0;

  constructor(worker) {
    this.#worker = worker;
    const listen = (message) => this.#receive(message);
    if (typeof worker.on === 'function') worker.on('message', listen);
    else worker.onmessage = ({ data }) => listen(data);
  }

  /** `transfer` lists buffers of the message that the worker may have: they are gone here. */
  call(call, message = {}, { transfer = [], onProgress } = {}) {
    const id = ++this.#lastId;
    return new Promise((resolve, reject) => {
      this.#calls.set(id, { resolve, reject, onProgress });
      this.#worker.postMessage({ id, call, ...message }, transfer);
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
