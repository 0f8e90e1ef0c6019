import { createHash } from 'node:crypto';
import { Page } from '../../../src/flats/page/page.ts';
import { type Bad, type CallCases, type Path, withValue } from './case.ts';

/** A hash of all that a value holds: memory, fields, items. */
function imprint(value: unknown): string {
  const hash = createHash('sha256');
  const seen = new Set<unknown>();
  const walk = (part: unknown): void => {
    if (typeof part !== 'object' || part === null) {
      hash.update(typeof part === 'function' ? 'function;' : `${String(part)};`);
      return;
    }
    if (seen.has(part)) return;
    seen.add(part);
    // what a page remembers for later is no change of it
    if (part instanceof Page) {
      for (const own of [part.plan, part.flats, part.labels, part.report]) walk(own);
      return;
    }
    if (ArrayBuffer.isView(part)) {
      // a detached buffer has nothing to read
      if (part.byteLength > 0) hash.update(new Uint8Array(part.buffer as ArrayBuffer));
      return;
    }
    hash.update(`${Object.keys(part).join()}:`);
    const items = part instanceof Map || part instanceof Set ? [...part] : Object.values(part);
    items.forEach(walk);
  };
  walk(value);
  return hash.digest('hex');
}

export function thrownBy({ run }: CallCases, args: readonly unknown[]): Error | undefined {
  try {
    run(...(args as never[]));
    return undefined;
  } catch (error) {
    return error as Error;
  }
}

/** How a call refuses a bad value: what it throws, and what is wrong with that. */
export interface Refusal {
  readonly text: string;
  readonly fault?: string;
}

export function refusal(cases: CallCases, at: Path, bad: Bad): Refusal {
  const args = withValue(cases.sound(), at, bad.value());
  const before = imprint(args);
  const error = thrownBy(cases, args);
  const text = error === undefined ? 'taken' : `${error.name}: ${error.message}`;
  const wanted = `${bad.error}: ${bad.says}`;
  if (!text.startsWith(wanted)) return { text, fault: `${text}, must be ${wanted}` };
  if (bad.tells && !bad.tells.test(text)) return { text, fault: `${text}, must tell ${bad.tells}` };
  return imprint(args) === before ? { text } : { text, fault: 'an argument is changed' };
}
