import {
  checkFlats,
  composeSheet,
  type Flats,
  inkCoverage,
  type Labels,
  layFlats,
  type Plan,
  readFlats,
  readLayers,
  readPng,
  writeFlats,
  writeLayers,
  writePng,
} from '../../../src/index.ts';
import { sha256 } from './sha256.ts';

/** A drawing to do the job on; its PNG in hexadecimal digits, which every engine can read. */
export interface JobSheet {
  readonly png: string;
  readonly plan?: Plan;
}

export interface JobResult {
  /** One hash of all that was laid and written. */
  readonly hash: string;
  /** Whether the engine makes functions of strings here. */
  readonly generatesCode: boolean;
}

/** The main job on each sheet of a JSON text: read, lay, check, compose, write, read back. */
export function runJob(text: string): JobResult {
  const hashes = (JSON.parse(text) as JobSheet[]).map(workOn);
  return { hash: sha256(bytesOf(hashes.join())), generatesCode: generatesCode() };
}

function workOn({ png, plan }: JobSheet): string {
  const { pixels } = readPng(ofHexadecimal(png));
  const laid = layFlats(pixels, { plan, ground: 'ground', unnamed: 'claim' });
  const { flats, labels, report, sealed } = laid;
  const found = checkFlats(flats, { ink: sealed, coverage: inkCoverage(pixels), report });
  const sheet = composeSheet(flats, { line: pixels });
  const { bytes } = writeFlats(flats);
  const layers = writeLayers(flats, { line: pixels });
  const parts = [
    hashOf(flats, labels),
    hashOf(readFlats(bytes).flats, labels),
    sha256(sheet.data),
    sha256(bytes),
    sha256(layers),
    sha256(writePng(sheet)),
    String(readLayers(layers).layers.length),
    sha256(bytesOf(JSON.stringify([found, report]))),
    mirrored(pixels.data, pixels.shape as [number, number, number]),
  ];
  return parts.join();
}

/** The coverage of the picture seen from behind, through a view that must be copied. */
function mirrored(data: Uint8Array | Uint16Array, [w, h, c]: [number, number, number]): string {
  const view = { data, shape: [w, h, c], stride: [-c, w * c, 1], offset: (w - 1) * c };
  return sha256(inkCoverage(view).data);
}

/** Indices, palette and labels as one value. */
function hashOf({ indices, palette, ground }: Flats, labels: Labels): string {
  const { data } = indices;
  const samples = new Uint8Array(data.buffer, data.byteOffset, data.byteLength);
  const ids = new Uint8Array(labels.data.buffer);
  return [sha256(samples), sha256(bytesOf(JSON.stringify([palette, ground]))), sha256(ids)].join();
}

/** Code units of a text, low byte first: no TextEncoder is asked for. */
function bytesOf(text: string): Uint8Array {
  const bytes = new Uint8Array(2 * text.length);
  for (let i = 0; i < text.length; i++) {
    const unit = text.charCodeAt(i);
    bytes[2 * i] = unit & 255;
    bytes[2 * i + 1] = unit >> 8;
  }
  return bytes;
}

function ofHexadecimal(digits: string): Uint8Array {
  const bytes = new Uint8Array(digits.length / 2);
  for (let i = 0; i < bytes.length; i++)
    bytes[i] = Number.parseInt(digits.slice(2 * i, 2 * i + 2), 16);
  return bytes;
}

function generatesCode(): boolean {
  try {
    return new Function('return true')() as boolean;
  } catch {
    return false;
  }
}

/** Where a script without modules finds the job. */
Object.assign(globalThis, { underinkJob: runJob });
