// Bytes of live array buffers. Each typed array of 64 KiB or more that is made, and each call of
// `sample`, collects garbage and then asks the process how much its array buffers hold: live memory
// only rises where something is made, so no peak is missed. Two collections, because the second
// waits until the first has freed what it found. Needs `node --expose-gc`.

const KINDS = [
  'Uint8Array',
  'Uint8ClampedArray',
  'Uint16Array',
  'Uint32Array',
  'Int8Array',
  'Int16Array',
  'Int32Array',
  'Float32Array',
  'Float64Array',
];
const LARGE = 65_536;

/** From now on; `peak` is what was live at most beyond what is live now. */
export function watchMemory() {
  const base = liveBytes();
  const watch = {
    peak: 0,
    sample() {
      watch.peak = Math.max(watch.peak, liveBytes() - base);
    },
  };
  const made = (array) => {
    if (array.byteLength >= LARGE) watch.sample();
    return array;
  };
  for (const kind of KINDS) {
    const construct = (target, args, newTarget) => made(Reflect.construct(target, args, newTarget));
    globalThis[kind] = new Proxy(globalThis[kind], { construct });
  }
  const prototype = Object.getPrototypeOf(Uint8Array.prototype);
  for (const method of ['slice', 'map', 'filter']) {
    const original = prototype[method];
    prototype[method] = function (...args) {
      return made(original.apply(this, args));
    };
  }
  return watch;
}

function liveBytes() {
  globalThis.gc();
  globalThis.gc();
  return process.memoryUsage().arrayBuffers;
}
