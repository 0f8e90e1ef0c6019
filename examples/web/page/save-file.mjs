import { make } from './elements.mjs';

/** Hands a file to the person at the browser. */
export function saveFile(name, type, part) {
  const url = URL.createObjectURL(new Blob([part], { type }));
  const link = make('a', { href: url, download: name });
  link.click();
  // The browser has begun to read by then.
  setTimeout(() => URL.revokeObjectURL(url), 60_000);
}
