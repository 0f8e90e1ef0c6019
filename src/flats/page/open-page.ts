import type { GapStudy } from '../../gaps/study.ts';
import { checkOneOf, checkOptions } from '../../raster/checks.ts';
import { type AbortSignalLike, ticksOf } from '../../raster/stages.ts';
import type { PixelsLike } from '../../raster/types.ts';
import { checkPlan, checkPlanSize } from '../check-plan.ts';
import { readDrawing } from '../drawing.ts';
import { type InkInput, readInput, type Source } from '../find-ink.ts';
import type { LayProgress } from '../grow-regions.ts';
import type { Plan } from '../plan.ts';
import { Page } from './page.ts';
import { nextState } from './page-state.ts';
import { restorePage, type SavedPage } from './saved-page.ts';

export interface OpenPageOptions {
  /** The first plan; its settings say how the sheet is laid. @default no swatch, no mark */
  readonly plan?: Plan | undefined;
  /** What a mark's point outside the picture is, in every plan. @default 'error' */
  readonly outside?: 'error' | 'report' | undefined;
  /** What `studyGaps` found in the same ink, so that it is not sought again. @default none */
  readonly study?: GapStudy | undefined;
  /** Called as that of `layFlats` is. What it throws ends the call and reaches the caller. */
  readonly onProgress?: ((progress: LayProgress) => void) | undefined;
  /** Looked at as often as `onProgress` is called: its reason is thrown. @default none */
  readonly signal?: AbortSignalLike | undefined;
}

const OPTIONS = ['plan', 'outside', 'study', 'onProgress', 'signal'] as const;

/**
 * Opens a page that a tool keeps while a person corrects it: `page.update(plan)` lays a plan in place
 * of the last one, and does again only what differs.
 *
 * The page keeps the ink, its coverage and the study of its gaps. Pixels are not copied: they must
 * not change while the page is open.
 *
 * @param input - Pixels or ink as `layFlats` takes them, or what `page.save()` gave.
 * @returns The page with its first plan laid.
 * @throws TypeError or RangeError for bad input; RangeError for what a page of another version of the
 * format has saved; the reason of `signal` once it is aborted, and what `onProgress` throws.
 * @example
 * ```ts
 * import { openPage, raster } from 'underink';
 * const gray = new Uint8Array(81).fill(255); // a 9 × 9 page with a square ring of ink
 * for (let i = 2; i < 7; i++) for (const j of [2, 6]) gray[9 * i + j] = gray[9 * j + i] = 0;
 * const palette = [{ name: 'shell', color: '#d2603a' }];
 * const plan = { version: 1, size: [9, 9], palette, marks: [] } as const;
 * const page = openPage(raster(gray, [9, 9]), { plan });
 * const { changed } = page.update({ ...plan, marks: [{ point: [4.5, 4.5], swatch: 'shell' }] });
 * console.log(changed?.join(' '), page.regionAt([4.5, 4.5])); // 3 3 7 7 2
 * const again = openPage(structuredClone(page.save()));
 * console.log(again.report.named, again.flats.palette[1]?.name); // 1 shell
 * ```
 */
export function openPage(
  input: PixelsLike | InkInput | SavedPage,
  options?: OpenPageOptions,
): Page {
  const checked = checkOptions(options, 'openPage', OPTIONS);
  const { plan, outside = 'error', study, signal } = checked;
  const ticks = ticksOf(checked);
  checkOneOf(outside, 'outside', ['error', 'report']);
  if (isSaved(input)) {
    const { source, state } = restorePage(input);
    const page = new Page(source, state);
    if (plan !== undefined) page.update(plan, { signal, onProgress: checked.onProgress });
    return page;
  }
  const source = readInput(input);
  const { width, height } = source;
  const empty = { version: 1, size: [width, height], palette: [], marks: [] } as const;
  const first = checkPlan(plan === undefined ? empty : plan);
  checkPlanSize(first, width, height);
  signal?.throwIfAborted();
  const found = readDrawing(source, first.settings ?? {}, study, ticks);
  const drawing = { ...found, ink: found.study.ink.data as typeof found.ink };
  const own = source.pixels === undefined ? ownSource(source, drawing) : source;
  const coverage = own.coverage ?? drawing.coverage;
  const state = nextState({ drawing: { ...drawing, coverage }, outside }, first, ticks);
  return new Page(own, state);
}

/** Ink that is given is copied, with its coverage. */
function ownSource({ width, height, coverage }: Source, { study }: ReturnType<typeof readDrawing>) {
  const copy = coverage === undefined ? {} : { coverage: coverage.slice() };
  return { width, height, ink: study.ink, ...copy };
}

function isSaved(input: unknown): input is SavedPage {
  return typeof input === 'object' && input !== null && 'kind' in input;
}
