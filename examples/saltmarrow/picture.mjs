// Makes docs/saltmarrow.png, the picture in the README, of the demo's sheet, half as large.
// Run after `npm run demo`: node examples/saltmarrow/picture.mjs
import { fileURLToPath } from 'node:url';
import sharp from 'sharp';

const path = (name) => fileURLToPath(new URL(name, import.meta.url));
await sharp(path('out/sheet.png'))
  .resize({ width: 1500 })
  .removeAlpha()
  .png({ palette: true, colors: 256, dither: 0, effort: 10 })
  .toFile(path('../../docs/saltmarrow.png'));
