import { checkOptions, checkPoint } from '../raster/checks.ts';
import { wrongKind, wrongValue } from '../raster/errors.ts';
import type { Bounds, Point } from '../raster/types.ts';
import type { Finding } from './finding.ts';
import { wholePicture } from './places.ts';

/** A finding that is meant so and left out: one that matches every field that is given. */
export interface CheckException {
  /** Name of the check. */
  readonly check: string;
  /** A point of the finding: it holds the pixel, or its bounds do where it tells no pixels. */
  readonly at?: Point | undefined;
  /** Findings that lie inside, `[x0, y0, x1, y1]` in pixels, half-open. */
  readonly bounds?: Readonly<Bounds> | undefined;
  /** Findings that concern this swatch. */
  readonly swatch?: string | undefined;
  /** Why it is meant so, for people. */
  readonly note?: string | undefined;
}

/** Name of the findings that tell of exceptions to which nothing belongs any more. */
const STALE = 'stale exception';

/** Exceptions, checked, and which of them a finding has matched. */
export class Exceptions<E extends CheckException = CheckException> {
  private readonly list: readonly E[];
  private readonly matched: Uint8Array;

  constructor(exceptions: readonly E[] | undefined, extra: readonly (keyof E & string)[] = []) {
    this.list = exceptions ?? [];
    if (!Array.isArray(this.list)) throw wrongKind('exceptions', 'an array', exceptions);
    this.list.forEach((exception: E, i) => {
      checkException(exception, `exceptions[${i}]`, extra);
    });
    this.matched = new Uint8Array(this.list.length);
  }

  /** The findings that none of the exceptions match of which `counts` says yes. */
  keep(found: readonly Finding[], counts: (exception: E) => boolean = () => true): Finding[] {
    return found.filter((finding) => {
      let kept = true;
      this.list.forEach((exception, i) => {
        if (finding.failed === true || !counts(exception) || !covers(exception, finding)) return;
        this.matched[i] = 1;
        kept = false;
      });
      return kept;
    });
  }

  /** The exceptions of checks that ran to which no finding belonged. */
  unmatched(ran: ReadonlySet<string>): E[] {
    return this.list.filter(({ check }, i) => this.matched[i] === 0 && ran.has(check));
  }
}

/** A finding that tells of an exception to which nothing belongs any more. */
export function staleFinding(
  { check, at, bounds, swatch }: CheckException,
  size: readonly [number, number],
): Finding {
  const whole = wholePicture(size);
  const inside = at ?? (bounds === undefined ? whole.at : [bounds[0] + 0.5, bounds[1] + 0.5]);
  const [x, y] = inside.map((v, k) => Math.min(size[k]! - 1, Math.max(0, Math.floor(v))));
  const where = at === undefined && bounds === undefined ? '' : ` at [${x}, ${y}]`;
  const of = swatch === undefined ? '' : ` of "${swatch}"`;
  const isPlaced = where !== '';
  return {
    check: STALE,
    severity: 'information',
    message: `no finding of "${check}"${of}${where} any more`,
    at: [x! + 0.5, y! + 0.5],
    bounds: isPlaced ? [x!, y!, x! + 1, y! + 1] : whole.bounds,
    area: 0,
    swatches: swatch === undefined ? [] : [swatch],
  };
}

function covers({ check, at, bounds, swatch }: CheckException, finding: Finding): boolean {
  if (check !== finding.check) return false;
  if (swatch !== undefined && !finding.swatches.includes(swatch)) return false;
  if (at !== undefined && !holds(finding, Math.floor(at[0]), Math.floor(at[1]))) return false;
  if (bounds === undefined) return true;
  const [x0, y0, x1, y1] = finding.bounds;
  return x0 >= bounds[0] && y0 >= bounds[1] && x1 <= bounds[2] && y1 <= bounds[3];
}

/** Whether a finding holds a pixel. */
function holds({ spans, bounds }: Finding, x: number, y: number): boolean {
  if (x < bounds[0] || y < bounds[1] || x >= bounds[2] || y >= bounds[3]) return false;
  if (spans === undefined) return true;
  for (let k = 0; k < spans.length; k += 3) {
    if (spans[k] === y && spans[k + 1]! <= x && x < spans[k + 2]!) return true;
  }
  return false;
}

function checkException<E extends CheckException>(
  exception: E,
  name: string,
  extra: readonly (keyof E & string)[],
): void {
  const names = ['check', 'at', 'bounds', 'swatch', 'note', ...extra] as const;
  checkOptions(exception, name, names);
  const { check, at, bounds, swatch, note } = exception ?? {};
  if (typeof check !== 'string') throw wrongKind(`${name}.check`, 'the name of a check', check);
  if (at !== undefined) checkPoint(at, `${name}.at`);
  if (swatch !== undefined && typeof swatch !== 'string') {
    throw wrongKind(`${name}.swatch`, 'the name of a swatch', swatch);
  }
  if (note !== undefined && typeof note !== 'string') {
    throw wrongKind(`${name}.note`, 'a string', note);
  }
  if (bounds === undefined) return;
  const allowed = 'four numbers [x0, y0, x1, y1]';
  if (!Array.isArray(bounds)) throw wrongKind(`${name}.bounds`, allowed, bounds);
  if (bounds.length !== 4 || !bounds.every(Number.isFinite)) {
    throw wrongValue(`${name}.bounds`, allowed, bounds);
  }
}
