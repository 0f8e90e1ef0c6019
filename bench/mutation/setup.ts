import fc from 'fast-check';
import { beforeEach } from 'vitest';
import { SLOW } from './subjects.mjs';

/** Of each property, so that a mutant takes about a second; what later cases would notice, survives. */
const MOST_MS = 1500;

fc.configureGlobal({ ...fc.readConfigureGlobal(), interruptAfterTimeLimit: MOST_MS });

beforeEach(({ task, skip }) => {
  if (SLOW.some((name) => task.name.startsWith(name))) skip();
});
