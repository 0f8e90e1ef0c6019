// One page of `run.mjs`, in a process of its own: `node --expose-gc child.mjs saltmarrow 200`.
import { measurePage } from './measure.mjs';
import { pageOf } from './pages.mjs';

const [name, corrections] = process.argv.slice(2);
const held = () => {
  globalThis.gc();
  globalThis.gc();
  return process.memoryUsage().arrayBuffers;
};
measurePage({
  name,
  ...pageOf(name),
  corrections: Number(corrections),
  held,
  print: (line) => console.log(line),
});
