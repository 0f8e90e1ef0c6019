// The worker's side of calls by message, in browsers and in Node.

/**
 * Answers calls with the functions of a table. A message is `{ id, call, … }`; the function named by
 * `call` gets it, and a function that posts progress. It returns, or promises, `[result, transfer]`.
 *
 * Answers are `{ id, result }` or `{ id, error: { name, message } }`, before them any number of
 * `{ id, progress }`. Buffers under `transfer` go along without a copy.
 */
export async function serveCalls(table) {
  if (typeof self !== 'undefined' && typeof self.postMessage === 'function') {
    self.onmessage = ({ data }) =>
      answer(table, data, (reply, transfer) => self.postMessage(reply, transfer));
    return;
  }
  const { parentPort } = await import('node:worker_threads');
  parentPort.on('message', (message) =>
    answer(table, message, (reply, transfer) => parentPort.postMessage(reply, transfer)),
  );
}

async function answer(table, message, post) {
  const { id, call } = message;
  try {
    if (!Object.hasOwn(table, call))
      throw new RangeError(`call must be one of ${Object.keys(table)}, got ${call}`);
    const [result, transfer] = await table[call](message, (progress) => post({ id, progress }, []));
    post({ id, result }, transfer ?? []);
  } catch (error) {
    post({ id, error: { name: error.name, message: error.message } }, []);
  }
}
