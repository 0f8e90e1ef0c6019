import { Unzlib } from 'fflate';
import { PngError } from './png-error.ts';

/** Compressed bytes handed on at a time: one piece inflates to at most 1032 times as many. */
const PIECE = 2 ** 15;

/** No deflate stream inflates to more: a match of 258 bytes takes two bits at least. */
const MAX_RATIO = 1032;

/**
 * Inflates a zlib stream to exactly `length` bytes; too many, too few and a wrong check sum are
 * errors. Nothing is allocated for a stream too short to hold so many, and a stream that holds
 * more is left at once: time and memory are bounded by `length`, whatever the stream claims.
 *
 * fflate is what fast-png inflates with; its check sum is not looked at there.
 */
export function inflateExactly(compressed: Uint8Array, length: number, noun: string): Uint8Array {
  if (length > compressed.length * MAX_RATIO) throw tooFew(noun, length);
  const inflated = new Uint8Array(length);
  const got = inflate(compressed, length, noun, (piece, at) => inflated.set(piece, at));
  if (got < length) throw tooFew(noun, length);
  return inflated;
}

/** Inflates a zlib stream to at most `most` bytes. */
export function inflateAtMost(compressed: Uint8Array, most: number, noun: string): Uint8Array {
  let inflated = new Uint8Array(Math.min(most, 2 * PIECE));
  const length = inflate(compressed, most, noun, (piece, at) => {
    if (at + piece.length > inflated.length) {
      const grown = new Uint8Array(Math.max(at + piece.length, 2 * inflated.length));
      grown.set(inflated);
      inflated = grown;
    }
    inflated.set(piece, at);
  });
  return inflated.subarray(0, length);
}

function inflate(
  compressed: Uint8Array,
  most: number,
  noun: string,
  sink: (piece: Uint8Array, at: number) => void,
): number {
  let length = 0;
  let sum = 1;
  const stream = new Unzlib((piece) => {
    if (length + piece.length > most) {
      throw tooMany(noun, most);
    }
    sum = adler32(piece, sum);
    sink(piece, length);
    length += piece.length;
  });
  try {
    for (let at = 0; at < compressed.length; at += PIECE) {
      stream.push(compressed.subarray(at, at + PIECE));
    }
    stream.push(new Uint8Array(0), true);
  } catch (error) {
    if (error instanceof PngError) throw error;
    throw new PngError(`${noun} cannot be inflated`, { cause: error });
  }
  checkSum(sum, compressed, noun);
  return length;
}

/** The sum ends the stream: bytes after it take its place here and show as a wrong sum. */
function checkSum(sum: number, compressed: Uint8Array, noun: string): void {
  const end = compressed.subarray(-4);
  const expected = ((end[0]! << 24) | (end[1]! << 16) | (end[2]! << 8) | end[3]!) >>> 0;
  if (sum !== expected) throw new PngError(`${noun} is damaged: its check sum is wrong`);
}

/**
 * Adler-32 (RFC 1950) of `bytes` after bytes whose sum is `sum`. Four bytes at a time, so that no sum
 * waits for the one before it.
 */
function adler32(bytes: Uint8Array, sum: number): number {
  let a = sum & 0xffff;
  let b = sum >>> 16;
  for (let at = 0; at < bytes.length; ) {
    const end = Math.min(at + 3800, bytes.length); // as many as keep b below 2^31
    for (; at + 3 < end; at += 4) {
      const first = bytes[at]!;
      const second = bytes[at + 1]!;
      const third = bytes[at + 2]!;
      const fourth = bytes[at + 3]!;
      b += 4 * (a + first) + 3 * second + 2 * third + fourth;
      a += first + second + third + fourth;
    }
    for (; at < end; at++) {
      a += bytes[at]!;
      b += a;
    }
    a %= 65_521;
    b %= 65_521;
  }
  return b * 65_536 + a;
}

function tooFew(noun: string, length: number): PngError {
  return new PngError(`${noun} must inflate to ${length} bytes, got fewer`);
}

function tooMany(noun: string, length: number): PngError {
  return new PngError(`${noun} must inflate to at most ${length} bytes, got more`);
}
