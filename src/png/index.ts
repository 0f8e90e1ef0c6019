export type { PngDepth } from './header.ts';
export { maskToPixels } from './mask-to-pixels.ts';
export type { MissingName, NamesReport, UnknownColor } from './match-names.ts';
export { namesToJson } from './names-to-json.ts';
export { PngError } from './png-error.ts';
export { type ReadFlats, type ReadFlatsOptions, readFlats } from './read-flats.ts';
export { type PngPicture, type ReadPngOptions, readPng } from './read-png.ts';
export type { IccProfile, PngBytes, Resolution } from './types.ts';
export {
  type WriteFlatsOptions,
  type WrittenFlats,
  writeFlats,
} from './write-flats.ts';
export { type MaskFile, type WriteMasksOptions, writeMasks } from './write-masks.ts';
export { type WritePngOptions, writePng } from './write-png.ts';
