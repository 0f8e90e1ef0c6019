// The worker of `browser.mjs`: fetches its page and measures it.
import { raster } from 'underink';
import { measurePage } from './measure.mjs';

const { name, shape, plan, corrections } = await (await fetch('/job')).json();
const bytes = new Uint8Array(await (await fetch('/pixels')).arrayBuffer());
const lines = [];
measurePage({
  name,
  pixels: raster(bytes, shape),
  plan,
  corrections,
  print: (line) => lines.push(line),
});
self.postMessage(lines.join('\n'));
