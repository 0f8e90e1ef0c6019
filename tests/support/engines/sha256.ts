/** SHA-256 (FIPS 180-4) in integers only, for engines without a crypto of their own. */

/** Bits of the fractions of roots of the first primes: `power` ½ or ⅓, by whole-number search. */
function constants(count: number, power: 2 | 3): Int32Array {
  const found = new Int32Array(count);
  for (let n = 2, k = 0; k < count; n++) {
    if (!isPrime(n)) continue;
    // floor(n^(1/power) · 2³²), exact
    const wanted = BigInt(n) << BigInt(32 * power);
    let root = 0n;
    for (let bit = 1n << 38n; bit > 0n; bit >>= 1n) {
      if ((root + bit) ** BigInt(power) <= wanted) root += bit;
    }
    found[k++] = Number(root & 0xffffffffn);
  }
  return found;
}

function isPrime(n: number): boolean {
  for (let d = 2; d * d <= n; d++) if (n % d === 0) return false;
  return true;
}

const START = constants(8, 2);
const ROUNDS = constants(64, 3);

const turned = (v: number, n: number): number => (v >>> n) | (v << (32 - n));

/** The hash in hexadecimal digits. O(bytes). */
export function sha256(bytes: Uint8Array): string {
  const padded = new Uint8Array((((bytes.length + 8) >> 6) + 1) << 6);
  padded.set(bytes);
  padded[bytes.length] = 0x80;
  const view = new DataView(padded.buffer);
  view.setUint32(padded.length - 8, Math.floor(bytes.length / 2 ** 29));
  view.setUint32(padded.length - 4, bytes.length << 3);
  const state = Int32Array.from(START);
  const words = new Int32Array(64);
  for (let at = 0; at < padded.length; at += 64) {
    for (let i = 0; i < 16; i++) words[i] = view.getInt32(at + 4 * i);
    mix(state, words);
  }
  return Array.from(state, (word) => (word >>> 0).toString(16).padStart(8, '0')).join('');
}

/** One block: the schedule is completed and worked into the state. */
function mix(state: Int32Array, words: Int32Array): void {
  for (let i = 16; i < 64; i++) {
    const w2 = words[i - 2]!;
    const w15 = words[i - 15]!;
    const low = turned(w15, 7) ^ turned(w15, 18) ^ (w15 >>> 3);
    const high = turned(w2, 17) ^ turned(w2, 19) ^ (w2 >>> 10);
    words[i] = (words[i - 16]! + low + words[i - 7]! + high) | 0;
  }
  let a = state[0]!;
  let b = state[1]!;
  let c = state[2]!;
  let d = state[3]!;
  let e = state[4]!;
  let f = state[5]!;
  let g = state[6]!;
  let h = state[7]!;
  for (let i = 0; i < 64; i++) {
    const one = turned(e, 6) ^ turned(e, 11) ^ turned(e, 25);
    const first = (h + one + ((e & f) ^ (~e & g)) + ROUNDS[i]! + words[i]!) | 0;
    const zero = turned(a, 2) ^ turned(a, 13) ^ turned(a, 22);
    const second = (zero + ((a & b) ^ (a & c) ^ (b & c))) | 0;
    h = g;
    g = f;
    f = e;
    e = (d + first) | 0;
    d = c;
    c = b;
    b = a;
    a = (first + second) | 0;
  }
  state[0]! += a;
  state[1]! += b;
  state[2]! += c;
  state[3]! += d;
  state[4]! += e;
  state[5]! += f;
  state[6]! += g;
  state[7]! += h;
}
