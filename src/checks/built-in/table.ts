import type { FlatsCheck } from '../define-check.ts';
import { alike } from './alike.ts';
import { bare } from './bare.ts';
import { blended } from './blended.ts';
import { border } from './border.ts';
import { conflicts } from './conflicts.ts';
import { divided } from './divided.ts';
import { forced } from './forced.ts';
import { halo } from './halo.ts';
import { leaks } from './leaks.ts';
import { lookalikes } from './lookalikes.ts';
import { notes } from './notes.ts';
import { off } from './off.ts';
import { seams } from './seams.ts';
import { slivers } from './slivers.ts';
import { specks } from './specks.ts';
import { unnamed } from './unnamed.ts';
import { unused } from './unused.ts';

/** The checks of the library, in the order in which they run. */
export const BUILT_IN = {
  bare: bare as typeof bare,
  blended: blended as typeof blended,
  off: off as typeof off,
  specks: specks as typeof specks,
  slivers: slivers as typeof slivers,
  seams: seams as typeof seams,
  forced: forced as typeof forced,
  conflicts: conflicts as typeof conflicts,
  notes: notes as typeof notes,
  border: border as typeof border,
  unnamed: unnamed as typeof unnamed,
  halo: halo as typeof halo,
  alike: alike as typeof alike,
  leaks: leaks as typeof leaks,
  divided: divided as typeof divided,
  unused: unused as typeof unused,
  lookalikes: lookalikes as typeof lookalikes,
};

/** Name of a check of the library. */
export type CheckName = keyof typeof BUILT_IN;

/** Names of the thresholds of a check. */
export type ThresholdsOf<C> = C extends FlatsCheck<infer T> ? T : never;
