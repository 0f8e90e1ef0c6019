import { maskArgument } from '../raster/arguments.ts';
import { partOf, type Tick } from '../raster/progress.ts';
import { raster } from '../raster/raster.ts';
import type { Dense, Mask, MaskLike } from '../raster/types.ts';
import { type Packed, packMask } from '../runs/pack.ts';
import { findEnds, type StrokeEnd } from '../strokes/stroke-ends.ts';
import { type StrokeWidth, widthAlong } from '../strokes/stroke-width.ts';
import { thinPadded } from '../strokes/thin.ts';
import { askedBridge } from './asked.ts';
import type { Bridge, Candidate } from './bridge.ts';
import { findCandidates } from './candidates.ts';
import { type ChooseRule, chooseBridges, type Decision, OPENED } from './choose.ts';
import { mapFaces } from './face-map.ts';
import { Faces } from './faces.ts';
import { groupNodes } from './groups.ts';
import { decideTogether, type JointDecision, SLIVER } from './joint.ts';
import { probabilityOf } from './score.ts';
import { checkSealOptions, type SealOptions } from './seal-options.ts';
import { separationOf, suggestCandidates } from './suggest.ts';

export interface Sealed {
  /**
   * Ink with the drawn bridges, which block 4- and 8-connected paths of paper. With `joint`, paper of
   * less than half a stroke width squared that they shut off is closed too.
   */
  sealed: Mask;
  /** Drawn and doubtful bridges, likeliest first. */
  bridges: Bridge[];
}

/** What no setting changes about the gaps of one drawing. */
export interface GapStudy {
  /** `[width, height]` of the ink. */
  readonly size: readonly [number, number];
  /**
   * Closes the gaps as the options ask; see `sealGaps`. The ink is not looked through again. `tick`
   * is called now and then with the share that is done.
   */
  seal(options?: SealOptions, tick?: (done: number) => void): Sealed;
}

/**
 * Closes the gaps of line art with straight bridges.
 *
 * With `joint`, all places that may be gaps are looked at: narrow passages of the paper, pairs of
 * stroke ends, strokes that lie ahead of an end. What is seen at each (its length in stroke widths,
 * how the strokes run, taper and end there, how the paper opens behind, what else is near) gives
 * log-odds that it is one, by a fitted model. All plausible ones cut the paper into faces, and faces
 * are joined to regions, least likely border first, judged anew as regions grow; of the bridges
 * between two regions the likeliest are drawn that keep them apart. With `link`, stroke ends are
 * joined one by one, to ends that they face and to strokes ahead; bridges that separate nothing, or
 * only a sliver, are taken back.
 *
 * `apart` draws further bridges, likeliest first, where points of different groups would share a
 * region; `together` opens bridges, least likely first, where they separate points of one group, and
 * is the stronger of the two. Points on ink are left out of account. What `bridge` asks for is drawn
 * first and never taken back, with any method.
 *
 * O(pixels) beside the candidates, whose number grows with ends, narrow places and `maxGap`. Memory:
 * the result, and about 15 bytes per pixel while the paper is studied. A turned or mirrored mask
 * gives the same bridges to within a stroke; with `joint`, a decision near one half may fall the other
 * way, since thinning is a pixel off there; ties go to the shorter
 * one, then to what comes first, row by row.
 *
 * @param ink - `[w, h]` of 0 or 1.
 * @throws TypeError or RangeError for a raster that is no mask or bad options.
 * @example
 * ```ts
 * import { raster, sealGaps } from 'underink';
 * const ink = raster(new Uint8Array(48 * 32), [48, 32]);
 * for (let x = 4; x < 44; x++) for (const y of [4, 5, 26, 27]) ink.set(x, y, 1);
 * for (let y = 4; y < 28; y++) for (const x of [4, 5, 42, 43]) ink.set(x, y, 1);
 * for (let x = 20; x < 23; x++) for (const y of [4, 5]) ink.set(x, y, 0); // a gap of 3 pixels
 * const { bridges } = sealGaps(ink);
 * console.log(bridges.length, bridges[0]?.drawn, bridges[0]?.length); // 1 true 4
 * ```
 */
export function sealGaps(ink: MaskLike, options?: SealOptions): Sealed {
  const dense = maskArgument(ink, 'ink');
  checkSealOptions(options, dense, 'sealGaps');
  return new Study(dense).seal(options);
}

/**
 * Studies the gaps of line art once, to close them under any number of settings.
 *
 * The study keeps a copy of the ink, so a later change of the mask does not reach it.
 *
 * O(pixels); it holds about 1⅛ bytes per pixel.
 *
 * @param ink - `[w, h]` of 0 or 1.
 * @returns A study; `study.seal(options)` gives what `sealGaps(ink, options)` gives.
 * @throws TypeError or RangeError for a raster that is no mask.
 * @example
 * ```ts
 * import { raster, studyGaps } from 'underink';
 * const study = studyGaps(raster(new Uint8Array(64), [8, 8]));
 * console.log(study.seal({ maxGap: 6 }).bridges); // []
 * ```
 */
export function studyGaps(ink: MaskLike): GapStudy {
  const dense = maskArgument(ink, 'ink');
  return studyInk({ ...dense, data: dense.data.slice() });
}

/** The same over ink that nothing changes as long as the study is used. */
export function studyInk(ink: Dense<Uint8Array>, tick?: Tick): GapStudy {
  const study = new Study(ink, partOf(tick, 0, 0.5));
  study.suggest(partOf(tick, 0.5, 1));
  return study;
}

class Study implements GapStudy {
  private readonly ink: Dense<Uint8Array>;
  private readonly packed: Packed;
  private readonly ends: readonly StrokeEnd[];
  private readonly stroke: StrokeWidth;
  /** All that may be a gap, likeliest first, once `joint` has asked for it. */
  private suggested: Candidate[] | undefined;
  /** Candidates of the last `maxGap` asked for. */
  private last: { reach: number; candidates: Candidate[] } | undefined;

  constructor(ink: Dense<Uint8Array>, tick?: Tick) {
    const { data, width, height } = ink;
    this.ink = ink;
    this.packed = packMask(ink, 'ink', partOf(tick, 0, 0.2));
    const skeleton = thinPadded(data, width, height, partOf(tick, 0.2, 0.8));
    this.stroke = widthAlong(data, width, height, skeleton, partOf(tick, 0.8, 0.9));
    this.ends = findEnds(data, width, height, skeleton, partOf(tick, 0.9, 1));
  }

  suggest(tick?: Tick): readonly Candidate[] {
    const { ink, packed, ends, stroke } = this;
    this.suggested ??= suggestCandidates(ink, packed, ends, stroke, tick);
    return this.suggested;
  }

  get size(): readonly [number, number] {
    return [this.ink.width, this.ink.height];
  }

  seal(options?: SealOptions, tick?: Tick): Sealed {
    const rule = checkSealOptions(options, this.ink, 'seal');
    const { width, height } = this.ink;
    const sealed = this.ink.data.slice();
    tick?.(0);
    const asked = rule.bridge.map((gap) => askedBridge(this.ink, gap, this.stroke.median));
    const found = this.candidates(rule, partOf(tick, 0, 0.6));
    const candidates = [...asked, ...found];
    tick?.(0.6);
    const bridges: Bridge[] = [];
    if (candidates.length > 0) {
      const pixels = candidates.map((candidate) => candidate.pixels);
      const map = mapFaces(this.packed, pixels, partOf(tick, 0.6, 0.7));
      tick?.(0.7);
      const faces = new Faces(map, pixels);
      tick?.(0.75);
      const chosen: ChooseRule = {
        bias: rule.bias,
        asked: asked.length,
        open: rule.open,
        apart: groupNodes(faces, rule.apart),
        together: groupNodes(faces, rule.together),
      };
      const { median, p90 } = this.stroke;
      const scales = {
        separation: separationOf,
        strokeWidth: Math.max(1, median),
        widest: p90,
        tick: partOf(tick, 0.75, 0.95),
      };
      const decisions =
        rule.method === 'joint'
          ? decideTogether(candidates, map, faces, { ...chosen, ...scales })
          : chooseBridges(candidates, faces, chosen);
      decisions.forEach((decision, k) => {
        const candidate = candidates[k]!;
        if (decision.drawn) for (const p of candidate.pixels) sealed[p] = 1;
        if (isWorthMention(decision)) bridges.push(toBridge(candidate, decision));
      });
      if (rule.method === 'joint') {
        const drawn = [...decisions.keys()].filter((k) => decisions[k]!.drawn);
        for (const p of faces.slivers(drawn, SLIVER * median * median)) sealed[p] = 1;
      }
      bridges.sort((p, q) => q.probability - p.probability);
    }
    return { sealed: raster(sealed, [width, height]), bridges };
  }

  private candidates({ method, maxGap }: SealRule, tick?: Tick): readonly Candidate[] {
    if (method === 'none') return [];
    if (method === 'joint') {
      const suggested = this.suggest(tick);
      if (maxGap === 'auto') return suggested;
      return suggested.filter(({ length }) => length <= maxGap);
    }
    const reach = maxGap === 'auto' ? 2.25 * this.stroke.median + 4 : maxGap;
    if (this.last?.reach !== reach) {
      this.last = { reach, candidates: findCandidates(this.ink, this.ends, reach, tick) };
    }
    return this.last.candidates;
  }
}

type Decided = Decision & Partial<JointDecision>;
type SealRule = ReturnType<typeof checkSealOptions>;

/** Log-odds nearer to nothing than that are a close decision: probabilities of about 0.1 to 0.9. */
const DOUBT = 2.2;

/** Of those that would close one gap, only the likeliest is listed, and what is drawn. */
function isWorthMention({ drawn, reason, leads = true }: Decided): boolean {
  return drawn || leads || reason === OPENED;
}

function toBridge(candidate: Candidate, { drawn, reason, odds = candidate.odds }: Decided): Bridge {
  const { fromX, fromY, toX, toY, length, width, seen } = candidate;
  return {
    from: [fromX + 0.5, fromY + 0.5],
    to: [toX + 0.5, toY + 0.5],
    length,
    width,
    probability: probabilityOf(odds),
    drawn,
    doubtful: Math.abs(odds) < DOUBT && reason !== OPENED,
    why: `${seen}; ${reason}`,
  };
}
