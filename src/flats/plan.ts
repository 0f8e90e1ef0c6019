import { checkPalette, swatchIndex } from '../palette/swatches.ts';
import type { Swatch } from '../palette/types.ts';
import { checkOneOf, checkOptions, checkPoint } from '../raster/checks.ts';
import { wrongKind, wrongValue } from '../raster/errors.ts';
import type { Point } from '../raster/types.ts';

/** A mark of a plan: the region under `point` gets `swatch`. */
export interface Mark {
  /** `[x, y]` in continuous coordinates; the pixel is the floor. */
  readonly point: Point;
  /** Name of a swatch of the plan's palette. */
  readonly swatch: string;
}

/** A person's decisions as plain data, applied again to any revision of a drawing. */
export interface Plan {
  readonly version: 1;
  /** `[width, height]` of the drawing that the plan was made for, in pixels. */
  readonly size: readonly [number, number];
  /** Swatches to lay; `bare` is reserved. */
  readonly palette: readonly Swatch[];
  /** Marks act in order. */
  readonly marks: readonly Mark[];
}

/** Checks a plan whole; errors name the path, such as `plan.marks[3].swatch`. O(marks · swatches). */
export function checkPlan(plan: Plan): Plan {
  if (typeof plan !== 'object' || plan === null) throw wrongKind('plan', 'an object', plan);
  checkOptions(plan, 'plan', ['version', 'size', 'palette', 'marks']);
  checkOneOf(plan.version, 'plan.version', [1]);
  const size = checkPoint(plan.size, 'plan.size');
  if (!size.every((side) => Number.isInteger(side) && side >= 1)) {
    throw wrongValue('plan.size', 'whole numbers >= 1', size);
  }
  const palette = checkPalette(plan.palette, 'plan.palette', 'never');
  if (!Array.isArray(plan.marks)) throw wrongKind('plan.marks', 'an array of marks', plan.marks);
  const names = new Set(palette.map(({ name }) => name));
  const marks = Array.from(plan.marks, (mark: unknown, i) => {
    const checked = checkMark(mark, `plan.marks[${i}]`);
    if (!names.has(checked.swatch)) {
      swatchIndex(palette, checked.swatch, `plan.marks[${i}].swatch`);
    }
    return checked;
  });
  return { version: 1, size: [size[0], size[1]], palette, marks };
}

function checkMark(mark: unknown, name: string): Mark {
  if (typeof mark !== 'object' || mark === null || !('point' in mark)) {
    throw wrongKind(name, 'a mark { point, swatch }', mark);
  }
  for (const key of Object.keys(mark)) checkOneOf(key, `a name in ${name}`, ['point', 'swatch']);
  const { point, swatch } = mark as Mark;
  const [x, y] = checkPoint(point, `${name}.point`);
  return { point: [x, y], swatch };
}

/** The marks whose point lies in a picture, and those outside, by their place in the plan. */
export function sortMarks(
  marks: readonly Mark[],
  width: number,
  height: number,
  outside: 'error' | 'report',
): { inside: number[]; outside: OutsideMark[] } {
  const inside: number[] = [];
  const out: OutsideMark[] = [];
  marks.forEach(({ point, swatch }, i) => {
    const [x, y] = point;
    if (x >= 0 && y >= 0 && x < width && y < height) inside.push(i);
    else if (outside === 'report') out.push({ mark: i, point, swatch });
    else {
      const allowed = `inside the picture of ${width} × ${height}`;
      throw wrongValue(`plan.marks[${i}].point`, allowed, [...point]);
    }
  });
  return { inside, outside: out };
}

/** A mark that lies outside the picture. */
export interface OutsideMark {
  /** Place in `plan.marks`. */
  readonly mark: number;
  readonly point: Point;
  readonly swatch: string;
}
