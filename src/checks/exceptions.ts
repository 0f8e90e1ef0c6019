import { type CheckException, checkExceptions } from '../palette/exceptions.ts';
import type { Point } from '../raster/types.ts';
import type { Finding } from './finding.ts';
import { nearestPixel, wholePicture } from './places.ts';

/** Name of the findings that tell of exceptions to which nothing belongs any more. */
const STALE = 'stale exception';

/** Exceptions, checked, and which of them a finding has matched. */
export class Exceptions<E extends CheckException = CheckException> {
  private readonly list: readonly E[];
  private readonly matched: Uint8Array;

  constructor(exceptions: readonly E[] | undefined, extra: readonly (keyof E & string)[] = []) {
    this.list = exceptions === undefined ? [] : checkExceptions(exceptions, 'exceptions', extra);
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
  const inside: Point =
    at ?? (bounds === undefined ? whole.at : [bounds[0] + 0.5, bounds[1] + 0.5]);
  const [x, y] = nearestPixel(inside, size);
  const where = at === undefined && bounds === undefined ? '' : ` at [${x}, ${y}]`;
  const of = swatch === undefined ? '' : ` of "${swatch}"`;
  const isPlaced = where !== '';
  return {
    check: STALE,
    severity: 'information',
    message: `no finding of "${check}"${of}${where} any more`,
    at: [x + 0.5, y + 0.5],
    bounds: isPlaced ? [x, y, x + 1, y + 1] : whole.bounds,
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
