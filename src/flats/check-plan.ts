import { checkPalette, swatchIndex } from '../palette/swatches.ts';
import { checkOptions, checkSize, unknownName } from '../raster/checks.ts';
import { wrongKind, wrongValue } from '../raster/errors.ts';
import { KINDS, type Mark, type MarkKind, markType, typeOf } from './marks/table.ts';
import type { Plan } from './plan.ts';
import type { OutsideMark } from './plan-report.ts';
import { checkPlanSettings } from './settings.ts';

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
  checkOptions(plan, 'plan', ['version', 'size', 'palette', 'marks', 'settings']);
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
  const copy: Plan = { version: 1, size: [width, height], palette, marks };
  if (plan.settings === undefined) return copy;
  return { ...copy, settings: checkPlanSettings(plan.settings, 'plan.settings') };
}

function checkMark(value: unknown, name: string): Mark {
  const allowed = `a mark with one of ${KINDS.join(', ')}`;
  if (typeof value !== 'object' || value === null) throw wrongKind(name, allowed, value);
  const kinds = KINDS.filter((kind) => kind in value);
  for (const key of Object.keys(value)) checkKey(key, name, kinds);
  if (kinds.length !== 1) throw wrongKind(name, allowed, value);
  const kind = kinds[0]!;
  const type = markType(kind);
  const { note, swatch, over, ...rest } = value as Record<string, unknown>;
  const mark: Record<string, unknown> = { [kind]: type.check(rest[kind], `${name}.${kind}`) };
  if (type.lays) {
    if (typeof swatch !== 'string') {
      throw wrongKind(`${name}.swatch`, 'the name of a swatch', swatch);
    }
    if (over !== undefined && typeof over !== 'boolean') {
      throw wrongKind(`${name}.over`, 'true or false', over);
    }
    mark.swatch = swatch;
    if (over !== undefined) mark.over = over;
  }
  if (note !== undefined && typeof note !== 'string') {
    throw wrongKind(`${name}.note`, 'a string', note);
  }
  if (note !== undefined) mark.note = note;
  return mark as unknown as Mark;
}

/** A mark holds its kind, a note, and `swatch` and `over` where it lays color. */
function checkKey(key: string, name: string, kinds: readonly MarkKind[]): void {
  if ((KINDS as readonly string[]).includes(key)) return;
  const lays = kinds.length === 0 || markType(kinds[0]!).lays;
  const known: readonly string[] = lays ? ['swatch', 'over', 'note'] : ['note'];
  if (known.includes(key)) return;
  const list = [...(kinds.length > 0 ? kinds : KINDS), ...known];
  throw unknownName(name, 'field', key, list);
}

/** A plan must be of the size of the picture that it is applied to. */
export function checkPlanSize({ size }: Plan, width: number, height: number): void {
  if (size[0] === width && size[1] === height) return;
  throw new RangeError(
    `plan.size must be that of the picture, ${width} × ${height}, got ${size.join(' × ')}; ` +
      `scalePlan(plan, [${width}, ${height}]) makes a plan of that size`,
  );
}

/** Which marks of a plan act on a picture. */
export interface PlacedMarks {
  /** Whether each mark has enough of its points in the picture. */
  readonly acts: readonly boolean[];
  readonly outside: readonly OutsideMark[];
}

/** Looks for points of marks outside the picture: they are a RangeError, or are listed. */
export function placeMarks(
  marks: readonly Mark[],
  width: number,
  height: number,
  outside: 'error' | 'report',
): PlacedMarks {
  const out: OutsideMark[] = [];
  const acts = marks.map((mark, i) => {
    const { points, fewest } = typeOf(mark);
    const all = points(mark);
    let inside = 0;
    for (const { path, point } of all) {
      const [x, y] = point;
      if (x >= 0 && y >= 0 && x < width && y < height) inside++;
      else if (outside === 'report') {
        out.push({ mark: i, point, ...('swatch' in mark ? { swatch: mark.swatch } : {}) });
      } else {
        const allowed = `inside the picture of ${width} × ${height}`;
        throw wrongValue(`plan.marks[${i}].${path}`, allowed, [...point]);
      }
    }
    return inside >= (fewest ?? all.length);
  });
  return { acts, outside: out };
}
