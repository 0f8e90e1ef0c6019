import { flatsArgument } from '../palette/flats-argument.ts';
import type { FlatsLike, Swatch } from '../palette/types.ts';
import { checkOptions } from '../raster/checks.ts';
import { wrongKind } from '../raster/errors.ts';
import type { PixelsLike } from '../raster/types.ts';
import { compareReference, type ReferenceRegion } from './compare-reference.ts';
import { type LaidRegions, listRegions, type Region } from './list-regions.ts';
import type { Mark } from './marks/table.ts';
import type { Plan } from './plan.ts';

export interface DraftPlanOptions {
  /**
   * A colored picture of the same drawing and size, whose colors name the regions: pixels, such as
   * a first version by hand, or flats. Where it shows most of the ground as clear, the ground keeps its
   * swatch, and the note says what part of a figure is open to it, and where. @default none: regions are named as laid
   */
  readonly reference?: PixelsLike | FlatsLike | undefined;
}

/**
 * A plan to start from: a point in every region, at the center of its widest disc, named as laid, so
 * that the plan lays the same flats on the same drawing. What a plan has cut, joined or outlined there
 * is not part of the draft: keep those marks, and put them before the points. Rename its swatches, in the palette and in
 * the marks, and change their colors; a name that several regions share stands in the palette once.
 * Without the marks of regions that are still to be named, `report.unnamed` lists these.
 *
 * With a `reference`, regions are named after its colors: each after the main one, as
 * `compareReference` has it, which gives the same as numbers. The mark's `note` says what share of the
 * region agrees, and with what other colors it is shared and where they meet: there a line leaks, or
 * is missing. The ground keeps its swatch where the reference shows the ground's color, or nothing in most of
 * it; so does a region where the reference shows nothing.
 *
 * @param laid - The result of `layFlats` or `applyPlan`.
 * @returns A plan with a mark a region, by id, and the swatches that they name. O(pixels + regions).
 * @throws TypeError or RangeError for what is not laid, or a reference of another size.
 * @example
 * ```ts
 * import { draftPlan, layFlats, raster } from 'underink';
 * const gray = new Uint8Array(81).fill(255); // a 9 × 9 page with a square ring of ink
 * for (let i = 2; i < 7; i++) for (const j of [2, 6]) gray[9 * i + j] = gray[9 * j + i] = 0;
 * const { marks } = draftPlan(layFlats(raster(gray, [9, 9])));
 * console.log(JSON.stringify(marks[1])); // {"point":[4.5,4.5],"swatch":"region 4,4"}
 * ```
 */
export function draftPlan(laid: LaidRegions, options?: DraftPlanOptions): Plan {
  const { reference } = checkOptions(options, 'draftPlan', ['reference']);
  if (laid?.flats === undefined) throw wrongKind('laid', 'what layFlats or applyPlan gives', laid);
  const { indices, palette, ground } = flatsArgument(laid.flats, 'laid.flats');
  const size = [indices.width, indices.height] as const;
  if (reference === undefined) {
    const marks = listRegions(laid).flatMap((region) => markOf(region, region.swatch));
    return { version: 1, size, palette: palette.slice(1), marks };
  }
  const laidSwatches = new Map(palette.map((swatch) => [swatch.name, swatch]));
  const named = new Map<string, Swatch>();
  const marks = compareReference(laid, reference).flatMap((region) => {
    const own = region.swatch === undefined ? undefined : laidSwatches.get(region.swatch);
    const isGround = own !== undefined && own.name === ground;
    const isClear = isGround && region.clear > 0.5;
    const keeps = isClear || (isGround && own.color === region.main?.color);
    const swatch = keeps ? own : (region.main ?? own);
    if (swatch !== undefined && !named.has(swatch.name)) named.set(swatch.name, swatch);
    return markOf(region, swatch?.name, isClear ? noteOfClear(region) : noteOf(region));
  });
  return { version: 1, size, palette: [...named.values()], marks };
}

/** A region where nothing is laid and nothing shown has no mark. */
function markOf({ inside }: Region, swatch: string | undefined, note?: string): Mark[] {
  if (swatch === undefined) return [];
  return [{ point: inside, swatch, ...(note === undefined ? {} : { note }) }];
}

function noteOf({ main, share, shared }: ReferenceRegion): string {
  if (main === undefined) return 'the reference shows nothing here';
  const others = shared.map(({ name, share: part, at }) => {
    return `shared with ${name}, ${percent(part)}, which it meets at ${at.map(Math.floor)}`;
  });
  return [`${percent(share)} agrees`, ...others].join('; ');
}

/** Of a ground that the reference shows nothing in most of. */
function noteOfClear({ main, clear, meetsClear }: ReferenceRegion): string {
  if (main === undefined || meetsClear === undefined) return 'the reference shows nothing here';
  const open = `open to ${main.name}, which it meets at ${meetsClear.map(Math.floor)}`;
  return `the reference shows nothing in ${percent(clear)} of it; ${open}`;
}

/** Whole percents; all is only what lacks nothing. */
function percent(share: number): string {
  return `${share === 1 ? 100 : Math.min(99, Math.max(1, Math.round(100 * share)))} %`;
}
