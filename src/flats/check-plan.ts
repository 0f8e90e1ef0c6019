import { checkPalette, swatchIndex } from '../palette/swatches.ts';
import { checkFarPoint, checkRings } from '../polygon/rings-argument.ts';
import { checkOptions, checkPoint, checkSize, unknownName } from '../raster/checks.ts';
import { wrongKind, wrongValue } from '../raster/errors.ts';
import type { Point } from '../raster/types.ts';
import { type Mark, type Plan, pointsOf } from './plan.ts';

const KINDS = ['point', 'polygon', 'fill', 'cut', 'join', 'bridge', 'open'] as const;
type Kind = (typeof KINDS)[number];

/** Kinds of marks that lay color, and so take `swatch` and `over`. */
const LAYING: readonly Kind[] = ['point', 'polygon', 'fill'];

/**
 * Checks a plan whole and copies it; errors name the path, such as `plan.marks[3].swatch`. Agrees
 * with `docs/plan.schema.json` beside what a schema cannot say: names that are unique in the
 * palette, and swatches that occur there. O(swatches + coordinates).
 */
export function checkPlan(plan: Plan): Plan {
  if (typeof plan === 'string') {
    throw new TypeError('plan must be an object, got a string; parse it with JSON.parse first');
  }
  if (typeof plan !== 'object' || plan === null) throw wrongKind('plan', 'an object', plan);
  checkOptions(plan, 'plan', ['version', 'size', 'palette', 'marks']);
  if (plan.version !== 1) {
    const wrong = typeof plan.version === 'number' ? wrongValue : wrongKind;
    throw wrong('plan.version', '1', plan.version);
  }
  const [width, height] = checkSize(plan.size, 'plan.size');
  const palette = checkPalette(plan.palette, 'plan.palette', 'never');
  if (!Array.isArray(plan.marks)) throw wrongKind('plan.marks', 'an array of marks', plan.marks);
  const names = new Set(palette.map(({ name }) => name));
  const marks = Array.from(plan.marks, (value: unknown, i) => {
    const name = `plan.marks[${i}]`;
    const mark = checkMark(value, name);
    if ('swatch' in mark && !names.has(mark.swatch)) {
      swatchIndex(palette, mark.swatch, `${name}.swatch`);
    }
    return mark;
  });
  return { version: 1, size: [width, height], palette, marks };
}

function checkMark(value: unknown, name: string): Mark {
  const allowed = `a mark with one of ${KINDS.join(', ')}`;
  if (typeof value !== 'object' || value === null) throw wrongKind(name, allowed, value);
  const kinds = KINDS.filter((kind) => kind in value);
  for (const key of Object.keys(value)) checkKey(key, name, kinds);
  if (kinds.length !== 1) throw wrongKind(name, allowed, value);
  const kind = kinds[0]!;
  const geometry = (value as Record<Kind, unknown>)[kind];
  const checked = { [kind]: checkGeometry(geometry, kind, `${name}.${kind}`) } as unknown as Mark;
  if (!LAYING.includes(kind)) return checked;
  const { swatch, over } = value as { swatch: unknown; over?: unknown };
  if (typeof swatch !== 'string') {
    throw wrongKind(`${name}.swatch`, 'the name of a swatch', swatch);
  }
  if (over !== undefined && typeof over !== 'boolean') {
    throw wrongKind(`${name}.over`, 'true or false', over);
  }
  return { ...checked, swatch, ...(over === undefined ? {} : { over }) } as Mark;
}

/** A mark holds its kind, and `swatch` and `over` where it lays color. */
function checkKey(key: string, name: string, kinds: readonly Kind[]): void {
  if ((KINDS as readonly string[]).includes(key)) return;
  const lays = kinds.length === 0 || LAYING.includes(kinds[0]!);
  const known: readonly string[] = lays ? ['swatch', 'over'] : [];
  if (known.includes(key)) return;
  const list = [...(kinds.length > 0 ? kinds : KINDS), ...known];
  throw unknownName(name, 'field', key, list);
}

function checkGeometry(value: unknown, kind: Kind, name: string): unknown {
  switch (kind) {
    case 'point':
    case 'fill':
      return copyPoint(checkPoint(value, name));
    case 'polygon':
      return checkRings(value, name).map((ring) => ring.map(copyPoint));
    case 'cut':
      return checkPoints(value, name, checkFarPoint);
    case 'join':
      return checkPoints(value, name, checkPoint);
    case 'bridge':
    case 'open':
      if (!Array.isArray(value) || value.length !== 2) {
        throw wrongKind(name, 'two points [[x, y], [x, y]]', value);
      }
      return checkPoints(value, name, checkPoint);
  }
}

function checkPoints(
  value: unknown,
  name: string,
  check: (point: unknown, name: string) => Point,
): Point[] {
  const allowed = 'a list of at least 2 points [x, y]';
  if (!Array.isArray(value)) throw wrongKind(name, allowed, value);
  if (value.length < 2) throw wrongValue(name, allowed, value);
  return Array.from(value, (point: unknown, i) => copyPoint(check(point, `${name}[${i}]`)));
}

function copyPoint([x, y]: Point): Point {
  return [x, y];
}

/** A point of a mark that lies outside the picture. */
export interface OutsideMark {
  /** Place in `plan.marks`. */
  readonly mark: number;
  readonly point: Point;
  /** What the mark lays; left out where it lays none. */
  readonly swatch?: string;
}

/**
 * Whether each mark has its points in the picture. Those outside are a RangeError, or are listed;
 * a join needs two points inside, the others need all.
 */
export function sortMarks(
  marks: readonly Mark[],
  width: number,
  height: number,
  outside: 'error' | 'report',
): { acts: boolean[]; outside: OutsideMark[] } {
  const out: OutsideMark[] = [];
  const acts = marks.map((mark, i) => {
    const points = pointsOf(mark);
    let inside = 0;
    for (const { path, point } of points) {
      const [x, y] = point;
      if (x >= 0 && y >= 0 && x < width && y < height) inside++;
      else if (outside === 'report') {
        out.push({ mark: i, point, ...('swatch' in mark ? { swatch: mark.swatch } : {}) });
      } else {
        const allowed = `inside the picture of ${width} × ${height}`;
        throw wrongValue(`plan.marks[${i}].${path}`, allowed, [...point]);
      }
    }
    return 'join' in mark ? inside >= 2 : inside === points.length;
  });
  return { acts, outside: out };
}
