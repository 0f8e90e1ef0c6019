import { readPng } from 'underink';

const PNG = [137, 80, 78, 71, 13, 10, 26, 10];

/** Pixels of a picture file: of a PNG by the library, with its resolution; else as the browser reads it. */
export async function decode(file) {
  const bytes = new Uint8Array(await file.arrayBuffer());
  if (PNG.every((byte, i) => bytes[i] === byte)) {
    const { pixels, resolution } = readPng(bytes);
    return { pixels, resolution };
  }
  const bitmap = await createImageBitmap(file, {
    premultiplyAlpha: 'none',
    colorSpaceConversion: 'none',
  }).catch(() => {
    throw new Error('this browser reads no picture from the file');
  });
  const canvas = new OffscreenCanvas(bitmap.width, bitmap.height);
  const context = canvas.getContext('2d', { willReadFrequently: true });
  context.drawImage(bitmap, 0, 0);
  bitmap.close();
  return { pixels: context.getImageData(0, 0, canvas.width, canvas.height) };
}
