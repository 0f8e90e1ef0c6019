import { type GapStudy, Study, studyInk } from '../gaps/study.ts';
import { coverageRule } from '../ink/coverage.ts';
import { thresholdRule } from '../ink/threshold.ts';
import { wrongKind } from '../raster/errors.ts';
import type { Tick } from '../raster/progress.ts';
import type { Scratch } from '../raster/scratch.ts';
import type { Ticks } from '../raster/stages.ts';
import type { Dense } from '../raster/types.ts';
import { type FoundInk, findInk, type Source } from './find-ink.ts';
import type { LayProgress } from './grow-regions.ts';
import { inputNotes, textureNotes } from './input-notes.ts';
import type { PlanNote } from './plan-report.ts';
import type { LaySettings } from './settings.ts';

/** What no mark changes: the ink of line art, how it was found, and what is known of its gaps. */
export interface Drawing extends FoundInk {
  readonly width: number;
  readonly height: number;
  readonly study: Study;
  /** What is probably not meant about the input. */
  readonly notes: readonly PlanNote[];
}

/** Finds the ink by the settings and studies its gaps, or takes the study of it that is given. */
export function readDrawing(
  source: Source,
  settings: LaySettings,
  study: GapStudy | undefined,
  ticks: Ticks<LayProgress['stage']>,
  scratch?: Scratch,
): Drawing {
  const { width, height } = source;
  const measure = coverageRule(settings.coverage ?? {});
  const rule = thresholdRule(settings.threshold ?? {});
  const found = findInk(source, measure, rule, ticks('ink', 0, 0.9));
  const { ink, inkPixels, paper } = found;
  const looked = { pixels: source.pixels, paper, ink, inkPixels, width, height };
  const input = inputNotes(looked, ticks('ink', 0.9, 1));
  const dense = { data: ink, width, height, channels: 1 };
  const tick = ticks('gaps', 0, 0.8);
  const known = studyOf(study, dense, found.coverage, tick, scratch);
  const notes = [...input, ...textureNotes(known.texture, ink.length)];
  return { ...found, width, height, notes, study: known };
}

/** The study given, if it is of this ink, or a new one. */
function studyOf(
  study: GapStudy | undefined,
  ink: Dense<Uint8Array>,
  coverage: Uint8Array | undefined,
  tick: Tick | undefined,
  scratch: Scratch | undefined,
): Study {
  if (study === undefined) return studyInk(ink, coverage, tick, scratch);
  if (!(study instanceof Study)) throw wrongKind('study', 'what studyGaps gives', study);
  if (study.isOf(ink, tick)) return study;
  const [w, h] = study.size;
  const { width, height } = ink;
  if (w === width && h === height) {
    throw new RangeError('study must be of this very ink, got one of other ink of its size');
  }
  throw new RangeError(`study must be of ink of ${width} × ${height}, got ${w} × ${h}`);
}
