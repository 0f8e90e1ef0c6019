import { checkSameSize, coverageArgument, maskArgument } from '../raster/arguments.ts';
import { checkCallback, checkOptions } from '../raster/checks.ts';
import { type Packed, packMask, unpackMask } from '../raster/pack.ts';
import { partOf, TICK_PIXELS, type Tick } from '../raster/progress.ts';
import { raster } from '../raster/raster.ts';
import type { Scratch } from '../raster/scratch.ts';
import type { Bounds, CoverageLike, Dense, Mask, MaskLike, Point } from '../raster/types.ts';
import { changeParts, withoutCommon } from '../runs/change-parts.ts';
import { findEnds, type StrokeEnd } from '../strokes/stroke-ends.ts';
import { type StrokeWidth, widthAlong } from '../strokes/stroke-width.ts';
import { thinPacked } from '../strokes/thin.ts';
import type { FirstLook } from './agglomerate.ts';
import { askedBridge } from './asked.ts';
import { type Border, findBorders } from './borders.ts';
import type { Bridge, Candidate } from './bridge.ts';
import { BridgePixels } from './bridge-pixels.ts';
import { type ClaimedPaper, placeClaims } from './claims.ts';
import {
  closes,
  type DecideRule,
  type Decision,
  decideTogether,
  markFaces,
  OPENED,
  type Rivals,
  rivalsAmong,
  SLIVER,
} from './decide.ts';
import type { Drawing } from './evidence.ts';
import { type FaceMap, facesOf, mapFaces } from './face-map.ts';
import { Faces } from './faces.ts';
import { groupNodes } from './groups.ts';
import type { KnownOdds } from './known-odds.ts';
import { CERTAIN, probabilityOf } from './odds.ts';
import type { Proposal } from './proposals.ts';
import { checkSavedStudy, type SavedStudy, saveStudy } from './saved-study.ts';
import { checkSealOptions, type SealOptions, type SealRule } from './seal-options.ts';
import type { Separation } from './separation.ts';
import {
  judgeProposals,
  knownSeparations,
  lookAtDrawing,
  separationOf,
  suggestCandidates,
} from './suggest.ts';
import { commonView, type View } from './view.ts';

export interface Sealed {
  /**
   * Ink with the drawn bridges, which block 4- and 8-connected paths of paper. Paper of less than
   * half a stroke width squared that they shut off is closed too.
   */
  sealed: Mask;
  /** The bridges that are drawn, and of the others those in doubt; likeliest first. */
  bridges: Bridge[];
}

/** What a plan asks of gap closing beside what the public options say. */
export interface PlanWishes extends SealRule {
  /** Whether regions with points of `apart` claim what bridges part from them. */
  readonly claim: boolean;
  /** Whether a mark names the ground, so that unmarked paper at the border may be claimed. */
  readonly groundMarked: boolean;
  /** Points whose regions nothing claims. */
  readonly kept: readonly Point[];
}

/** What became of a plan's wishes. */
export interface Decided {
  /** Pixels of paper that are closed, by index: those of the drawn bridges, and slivers. */
  readonly closed: Int32Array;
  /** As in `Sealed`. */
  readonly bridges: readonly Bridge[];
  readonly claims: readonly ClaimedPaper[];
  /** Places in `open` of the gaps where no bridge was looked at. */
  readonly unmet: readonly number[];
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
  /**
   * Where ends of strokes and narrow places lie so densely that no gap is looked for: more than 256 in a
   * square of 32 stroke widths (halftone, noise, fine dashes), or more than 80 in one and, on an average,
   * in each of the 5 × 5 squares around it (fields of hatching). Empty for most line art.
   */
  readonly texture: readonly Bounds[];
  /** The study as plain data, which `restoreStudy` takes back. ⅛ byte per pixel beside the candidates. */
  save(): SavedStudy;
}

/**
 * Closes the gaps of line art with straight bridges.
 *
 * All places that may be gaps are looked at: narrow passages of the paper, pairs of stroke ends,
 * strokes that lie ahead of an end. What is seen at each (its length in stroke widths, how the
 * strokes run, taper and end there, how the paper opens behind, what else is near) gives log-odds
 * that it is one, by a fitted model. All plausible ones cut the paper into faces, and faces are
 * joined to regions, least likely border first, judged anew as regions grow; of the bridges between
 * two regions the likeliest are drawn that keep them apart.
 *
 * `apart` draws further bridges, likeliest first, where points of different groups would share a
 * region, if their probability is at least 0.1; they are `forced`. `together` opens bridges, least
 * likely first, where they separate points of one group, and is the stronger of the two. Points on
 * ink are left out of account. What `bridge` asks for is drawn first and never taken back.
 *
 * O(pixels) beside the candidates, whose number grows with ends, narrow places and `maxGap`. Memory:
 * the result, and about 16 bytes per pixel while the paper is studied. A turned or mirrored mask
 * gives the same bridges, unless its rows and columns hold the same ink both ways, as those of a mask
 * that is its own mirror image do; ties go to the shorter one.
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

export interface StudyGapsOptions {
  /**
   * Coverage `[w, h]` that the ink was made of: ink that is too pale for the threshold speaks for a
   * bridge where it leads across a gap. @default none
   */
  readonly coverage?: CoverageLike | undefined;
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
export function studyGaps(ink: MaskLike, options?: StudyGapsOptions): GapStudy {
  const { coverage } = checkOptions(options, 'studyGaps', ['coverage']);
  const dense = maskArgument(ink, 'ink');
  if (coverage === undefined) return studyInk({ ...dense, data: dense.data.slice() }, undefined);
  const pale = coverageArgument(coverage, 'coverage');
  checkSameSize(dense, 'ink', pale, 'coverage');
  return studyInk({ ...dense, data: dense.data.slice() }, pale.data);
}

/**
 * Takes back a study that `study.save()` gave, here or in another worker or program: it decides as the
 * study did. O(pixels).
 *
 * @param data - What `save()` gave; it is shared with the study, which does not change it.
 * @throws TypeError for what is no saved study, RangeError for one of another version of the format,
 *   and for one that was changed since.
 * @example
 * ```ts
 * import { raster, restoreStudy, studyGaps } from 'underink';
 * const study = studyGaps(raster(new Uint8Array(64), [8, 8]));
 * const again = restoreStudy(structuredClone(study.save()));
 * console.log(again.size, again.seal().bridges); // [ 8, 8 ] []
 * ```
 */
export function restoreStudy(data: SavedStudy): GapStudy {
  return Study.restore(checkSavedStudy(data, 'data'));
}

/**
 * The same over ink that nothing changes as long as the study is used. What lies in scratch memory is
 * looked at until the study is released.
 */
export function studyInk(
  ink: Dense<Uint8Array>,
  coverage: Uint8Array | undefined,
  tick?: Tick,
  scratch?: Scratch,
): Study {
  const study = new Study(ink, partOf(tick, 0, 0.5), undefined, scratch);
  study.suggest(coverage, partOf(tick, 0.5, 1), scratch);
  return study;
}

/** The study behind every `GapStudy`. */
export class Study implements GapStudy {
  readonly ink: Dense<Uint8Array>;
  private ownView: View | undefined;
  /** The ink in the view, packed. All below is of it. */
  private seenPacked: Packed | undefined;
  /** The same, a byte a pixel, as long as it is asked for. */
  private bytes: Dense<Uint8Array> | undefined;
  private readonly ends: readonly StrokeEnd[];
  private readonly stroke: StrokeWidth;
  /** All that may be a gap, likeliest first, once it has been asked for. */
  private suggested: readonly Candidate[] | undefined;
  private textureSeen: readonly Bounds[] = [];
  /** What was decided on last, the last first. */
  private readonly fields: Field[] = [];
  /** The ink as it is, once it has been asked for. */
  private ownPacked: Packed | undefined;
  /** What single proposals are judged by, once one has been. */
  private drawing: Drawing | undefined;
  private separations: KnownOdds | undefined;

  constructor(ink: Dense<Uint8Array>, tick?: Tick, saved?: SavedStudy, scratch?: Scratch) {
    this.ink = ink;
    if (saved !== undefined) {
      this.ownPacked = packedOf(saved);
      this.stroke = saved.stroke;
      this.ends = saved.ends;
      this.suggested = saved.candidates;
      this.textureSeen = saved.texture;
      return;
    }
    this.ownView = commonView(ink, partOf(tick, 0, 0.05));
    this.bytes = this.ownView.see(ink, partOf(tick, 0.05, 0.1), scratch);
    this.seenPacked = packMask(this.bytes, 'ink', partOf(tick, 0.1, 0.2));
    const { data, width, height } = this.bytes;
    const skeleton = thinPacked(this.seenPacked, partOf(tick, 0.2, 0.8));
    this.stroke = widthAlong(data, width, height, skeleton, partOf(tick, 0.8, 0.9));
    this.ends = findEnds(data, width, height, skeleton, partOf(tick, 0.9, 1));
  }

  /** How the ink is looked at, so that nothing depends on how the page lies. */
  get view(): View {
    this.ownView ??= commonView(this.ink);
    return this.ownView;
  }

  private get packed(): Packed {
    const known = this.view.isPlain ? this.ownPacked : undefined;
    this.seenPacked ??= known ?? packMask(this.view.see(this.ink), 'ink');
    return this.seenPacked;
  }

  /** The ink in the view, a byte a pixel. */
  get seen(): Dense<Uint8Array> {
    const { packed } = this;
    const { width, height } = packed;
    this.bytes ??= this.view.isPlain
      ? this.ink
      : { data: unpackMask(packed), width, height, channels: 1 };
    return this.bytes;
  }

  /** Gives back a byte a pixel, which the next suggestion or asked bridge takes again. */
  release(): void {
    this.bytes = undefined;
  }

  /** A study of data that has been checked. */
  static restore(saved: SavedStudy): Study {
    const [width, height] = saved.size;
    const data = unpackMask(packedOf(saved));
    return new Study({ data, width, height, channels: 1 }, undefined, saved);
  }

  save(): SavedStudy {
    const { stroke, ends } = this;
    const ink = this.packedInk().words.slice();
    const candidates = this.suggest();
    const { size, textureSeen: texture } = this;
    return saveStudy({ size, ink, stroke, ends, candidates, texture });
  }

  /** The candidates; where they are not known yet, pale ink of the coverage speaks for them. */
  suggest(coverage?: Uint8Array, tick?: Tick, scratch?: Scratch): readonly Candidate[] {
    if (this.suggested !== undefined) return this.suggested;
    const { seen, packed, ends, stroke } = this;
    const gray = coverage && this.view.lookAt({ ...this.ink, data: coverage });
    const found = suggestCandidates(seen, packed, ends, stroke, gray, tick, scratch);
    const { candidates, texture } = found;
    this.suggested = candidates;
    this.textureSeen = texture;
    return candidates;
  }

  get size(): readonly [number, number] {
    return [this.ink.width, this.ink.height];
  }

  get texture(): readonly Bounds[] {
    this.suggest();
    return this.textureSeen.map((bounds) => this.view.boundsOf(bounds));
  }

  /** Whether the study is of this very ink. O(pixels). */
  isOf({ data, width, height }: Dense<Uint8Array>, tick?: Tick): boolean {
    const { ink } = this;
    if (ink.width !== width || ink.height !== height) return false;
    const own = ink.data;
    for (let p = 0; p < own.length; p++) {
      if (p % TICK_PIXELS === 0) tick?.(p / own.length);
      if (own[p] !== data[p]) return false;
    }
    return true;
  }

  seal(options?: SealOptions, tick?: Tick): Sealed {
    const rule = checkSealOptions(options, this.ink, 'seal');
    checkCallback(tick, 'tick');
    const wishes = { ...rule, claim: false, groundMarked: false, kept: [] };
    const { closed, bridges } = this.decide(wishes, tick);
    return { sealed: this.sealedBy(closed), bridges: [...bridges] };
  }

  /** The ink with closed pixels, packed. */
  packedWith(closed: Int32Array): Packed {
    const { words, width, height, stride } = this.packedInk();
    const sealed = words.slice();
    for (const p of closed) {
      const x = p % width;
      sealed[((p - x) / width) * stride + (x >>> 5)]! |= 1 << (x & 31);
    }
    return { words: sealed, width, height, stride };
  }

  /** The ink as it is, packed. */
  private packedInk(): Packed {
    this.ownPacked ??= this.view.isPlain ? this.packed : packMask(this.ink, 'ink');
    return this.ownPacked;
  }

  /** The ink with closed pixels. */
  sealedBy(closed: Int32Array, tick?: Tick): Mask {
    const { data, width, height } = this.ink;
    const sealed = new Uint8Array(data.length);
    for (let from = 0; from < data.length; from += TICK_PIXELS) {
      tick?.(from / data.length);
      sealed.set(data.subarray(from, from + TICK_PIXELS), from);
    }
    for (const p of closed) sealed[p] = 1;
    return raster(sealed, [width, height]);
  }

  /** The same for a plan, whose wishes have been checked. */
  decide(wishes: PlanWishes, tick?: Tick): Decided {
    const { stroke, view } = this;
    const rule = wishesIn(view, wishes);
    tick?.(0);
    const found = this.candidates(rule, partOf(tick, 0, 0.6));
    tick?.(0.6);
    const unmet = [...rule.open.keys()].filter(
      (i) => !found.some((candidate) => closes(candidate, rule.open[i]!)),
    );
    if (found.length + rule.bridge.length === 0) {
      return { closed: new Int32Array(0), bridges: [], claims: [], unmet };
    }
    const field = this.fieldOf(rule, found, partOf(tick, 0.6, 0.85));
    const { candidates, pixels, map } = field;
    const faces = new Faces(map, field.net, field.nodes);
    const asked = askedOf(rule, faces, map.count);
    const known = field.settled.find((settled) => isSameAsked(settled.asked, asked));
    if (known !== undefined) return { ...known.decided, unmet };
    const { decisions, claims } = decideTogether(
      candidates,
      map,
      field.borders,
      faces,
      field.rivals,
      {
        ...asked,
        asked: rule.bridge.length,
        separation: this.separation(),
        strokeWidth: Math.max(1, stroke.median),
        widest: stroke.p90,
        tick: partOf(tick, 0.85, 0.97),
        first: rule.open.length === 0 ? field.first : undefined,
      },
    );
    tick?.(0.97);
    const drawn = [...decisions.keys()].filter((k) => decisions[k]!.drawn);
    const closed = new Set<number>();
    for (const k of drawn) for (const p of pixels[k]!) closed.add(p);
    for (const p of faces.slivers(drawn, SLIVER * stroke.median * stroke.median)) closed.add(p);
    const bridges = candidates
      .map((candidate, k) => toBridge(candidate, decisions[k]!, rule.bias, view))
      .filter(({ drawn: closed, doubtful }, k) => closed || (doubtful && decisions[k]!.leads))
      .sort((p, q) => q.probability - p.probability);
    const decided = {
      closed: Int32Array.from(closed, (p) => view.indexOf(p)).sort(),
      bridges,
      claims: placeClaims(map, claims).map((claim) => ({ ...claim, at: view.pointOf(claim.at) })),
    };
    field.settled.unshift({ asked, decided });
    field.settled.length = Math.min(field.settled.length, SETTLED);
    return { ...decided, unmet };
  }

  /** Keeps what is found from the second decision on. */
  private separation(): Separation {
    if (this.fields.every(({ settled }) => settled.length === 0)) return separationOf;
    this.separations ??= knownSeparations();
    const known = this.separations;
    return (row) => known.of(row);
  }

  /** Log-odds of proposals in the view that may not be among the candidates. */
  judge(proposals: readonly Proposal[], tick?: Tick): number[] {
    if (proposals.length === 0) return [];
    const { seen, packed, ends, stroke } = this;
    this.drawing ??= lookAtDrawing(seen, packed, ends, stroke, partOf(tick, 0, 0.9));
    return judgeProposals(this.drawing, proposals, partOf(tick, 0.9, 1));
  }

  /** How far beside a straight bridge the ink of a stroke may run, in pixels. */
  get margin(): number {
    return Math.ceil(2 * this.stroke.median);
  }

  /** What is decided on, kept for the next decisions on the same candidates. */
  private fieldOf(
    { maxGap, bridge }: SealRule,
    found: readonly Candidate[],
    tick: Tick | undefined,
  ): Field {
    const key = JSON.stringify([maxGap, bridge]);
    const known = this.fields.findIndex((field) => field.key === key);
    const field = known < 0 ? this.lookAt(key, bridge, found, tick) : this.fields[known]!;
    if (known >= 0) this.fields.splice(known, 1);
    this.fields.unshift(field);
    this.fields.length = Math.min(this.fields.length, FIELDS);
    return field;
  }

  private lookAt(
    key: string,
    bridge: SealRule['bridge'],
    found: readonly Candidate[],
    tick: Tick | undefined,
  ): Field {
    const asked = bridge.map((gap) => askedBridge(this.seen, gap, this.stroke.median));
    const candidates = [...asked, ...found];
    const pixels = candidates.map((candidate) => candidate.pixels);
    const places = placesOf(pixels);
    const map = this.facesBetween(places, partOf(tick, 0, 0.3));
    const net = new BridgePixels(map, pixels, partOf(tick, 0.3, 0.5));
    const borders = findBorders(net, pixels, map.area, partOf(tick, 0.5, 1));
    return {
      key,
      candidates,
      pixels,
      places,
      map,
      net,
      nodes: Faces.nodesOf(map, net, pixels),
      borders,
      rivals: rivalsAmong(candidates, bridge.length),
      first: {},
      settled: [],
    };
  }

  /** The faces between bridges: those between the ones before, changed, where that is less work. */
  private facesBetween(places: Int32Array, tick: Tick | undefined): FaceMap {
    const [last] = this.fields;
    if (last !== undefined) {
      const closed = withoutCommon(places, last.places);
      const opened = withoutCommon(last.places, places);
      if (closed.length + opened.length < Math.max(FEW, MUCH * last.places.length)) {
        return facesOf(changeParts(last.map.parts, closed, opened).parts);
      }
    }
    return mapFaces(this.packed, [places], tick);
  }

  private candidates({ maxGap }: SealRule, tick?: Tick): readonly Candidate[] {
    if (maxGap === 0) return [];
    const suggested = this.suggest(undefined, tick);
    return maxGap === 'auto' ? suggested : suggested.filter(({ length }) => length <= maxGap);
  }
}

function packedOf({ size: [width, height], ink }: SavedStudy): Packed {
  return { words: ink, width, height, stride: (width + 31) >>> 5 };
}

/** The pixels of all bridges once, in order. */
function placesOf(bridges: readonly Int32Array[]): Int32Array {
  const all = new Int32Array(bridges.reduce((sum, { length }) => sum + length, 0));
  let length = 0;
  for (const pixels of bridges) {
    all.set(pixels, length);
    length += pixels.length;
  }
  all.sort();
  length = 0;
  for (const p of all) if (length === 0 || all[length - 1] !== p) all[length++] = p;
  return all.slice(0, length);
}

/** The same wishes with all points as they are looked at. */
function wishesIn(view: View, wishes: PlanWishes): PlanWishes {
  const gapIn = ([a, b]: readonly [Point, Point]) => [view.pointIn(a), view.pointIn(b)] as const;
  const groupIn = (points: readonly Point[]) => points.map((point) => view.pointIn(point));
  return {
    ...wishes,
    apart: wishes.apart.map(groupIn),
    together: wishes.together.map(groupIn),
    kept: groupIn(wishes.kept),
    bridge: wishes.bridge.map(gapIn),
    open: wishes.open.map(gapIn),
  };
}

/** What decisions on the same candidates share. */
interface Field {
  /** Longest gap and asked bridges, as text. */
  readonly key: string;
  readonly candidates: readonly Candidate[];
  readonly pixels: readonly Int32Array[];
  /** All of these pixels once, in order. */
  readonly places: Int32Array;
  readonly map: FaceMap;
  readonly net: BridgePixels;
  readonly nodes: readonly Int32Array[];
  readonly borders: readonly Border[];
  readonly rivals: Rivals;
  readonly first: FirstLook;
  /** What was decided on these candidates, the last first. */
  readonly settled: Settled[];
}

/** What is asked of a decision on given candidates, as far as it makes a difference. */
type Asked = Pick<
  DecideRule,
  'bias' | 'open' | 'marks' | 'kept' | 'together' | 'claim' | 'groundMarked'
>;

interface Settled {
  readonly asked: Asked;
  readonly decided: Omit<Decided, 'unmet'>;
}

/** Decisions on the same candidates that are kept: the last one, and the one before it, for undo. */
const SETTLED = 2;

function askedOf(rule: PlanWishes, faces: Faces, count: number): Asked {
  const { bias, open, claim, groundMarked } = rule;
  const marks = markFaces(faces, count, groupNodes(faces, rule.apart));
  const together = groupNodes(faces, rule.together);
  // What a mark names is claimed by nothing anyway.
  const kept = Uint8Array.from(
    markFaces(faces, count, groupNodes(faces, [rule.kept])),
    (group, face) => (marks[face] === 0 ? group : 0),
  );
  return { bias, open, marks, kept, together, claim, groundMarked };
}

function isSameAsked(a: Asked, b: Asked): boolean {
  const { marks, kept, ...others } = b;
  const { marks: knownMarks, kept: knownKept, ...known } = a;
  return (
    marks.every((group, face) => group === knownMarks[face]) &&
    kept.every((is, face) => is === knownKept[face]) &&
    JSON.stringify(others) === JSON.stringify(known)
  );
}

/** Share of the pixels of bridges from which on faces are found from nothing, and what is no share: chosen. */
const MUCH = 0.2;
const FEW = 100;

/** Fields that are kept: that of the last decision, and the one before it, for undo. */
const FIELDS = 2;

/** Log-odds nearer to the cut than that are a close decision: probabilities of about 0.1 to 0.9. */
const DOUBT = 2.2;

function toBridge(
  candidate: Candidate,
  { drawn, reason, odds, forced }: Decision,
  bias: number,
  view: View,
): Bridge {
  const { fromX, fromY, toX, toY, length, width, seen } = candidate;
  const decidedAnyway = reason === OPENED || odds === CERTAIN;
  return {
    from: view.pointOf([fromX + 0.5, fromY + 0.5]),
    to: view.pointOf([toX + 0.5, toY + 0.5]),
    length,
    width,
    probability: probabilityOf(odds),
    drawn,
    doubtful: !decidedAnyway && Math.abs(odds - bias) < DOUBT,
    forced: drawn && forced,
    why: `${seen}; ${reason}`,
  };
}
