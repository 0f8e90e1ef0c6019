import type { FlatsLike, Swatch } from '../palette/types.ts';
import { checkSameSize, coverageArgument, maskArgument } from '../raster/arguments.ts';
import { checkNumber, checkOneOf, checkOptions } from '../raster/checks.ts';
import { wrongKind, wrongValue } from '../raster/errors.ts';
import { raster } from '../raster/raster.ts';
import type {
  Bounds,
  Coverage,
  CoverageLike,
  Dense,
  Mask,
  MaskLike,
  Owned,
  PixelsLike,
} from '../raster/types.ts';
import { packMask } from '../runs/pack.ts';
import { bare, blended, specksUpTo } from './area-checks.ts';
import type { Check, Finding } from './finding.ts';
import { halo } from './halo.ts';
import { seams } from './seams.ts';
import { type Sheet, sheetOf } from './sheet.ts';

/** Name of a check of the library. */
export type CheckName = 'bare' | 'blended' | 'specks' | 'seams' | 'halo';

/** Which of the library's checks run, and how; those that are not named run as they do alone. */
export interface CheckSettings {
  /** @default true */
  readonly bare?: boolean;
  /** @default true */
  readonly blended?: boolean;
  /** `maxArea`: largest area of a speck, in pixels. @default { maxArea: 8 } */
  readonly specks?: boolean | { readonly maxArea?: number };
  /** @default whether there is ink */
  readonly seams?: boolean;
  /** @default whether there is coverage */
  readonly halo?: boolean;
  /** Checks made by `defineCheck`, run after those. @default [] */
  readonly own?: readonly Check[];
}

/** Findings to be left out: those that match every field that is given. */
export interface CheckException {
  /** Name of the check. */
  readonly check: string;
  /** Findings that lie inside, `[x0, y0, x1, y1]` in pixels, half-open. */
  readonly bounds?: Bounds;
  /** Findings that concern this swatch. */
  readonly swatch?: string;
}

export interface CheckFlatsOptions {
  /** The ink over the flats; with it, seams are checked. @default none */
  readonly ink?: MaskLike;
  /**
   * With it, halo is checked; where there is no `ink`, coverage above 127 counts as ink. @default none
   */
  readonly coverage?: CoverageLike;
  /** What the flats may hold; a pixel of another color is blended. @default see `blended` */
  readonly palette?: readonly Swatch[];
  /** Names and own checks, which alone are run, or settings. @default all that can be run */
  readonly checks?: readonly (CheckName | Check)[] | CheckSettings;
  /** Findings to be left out. @default [] */
  readonly exceptions?: readonly CheckException[];
}

/** `checkFlats` on checked option names; the two names are what errors call the rasters. */
export function runChecks(
  input: FlatsLike | PixelsLike,
  { ink, coverage, palette, checks, exceptions = [] }: CheckFlatsOptions,
  inputName: string,
  inkName: string,
): { sheet: Sheet; found: Finding[] } {
  const hasInk = ink !== undefined || coverage !== undefined;
  const wanted = checksOf(checks, hasInk, coverage !== undefined, inkName);
  checkExceptions(exceptions);
  const read = sheetOf(input, inputName, palette);
  const mask = ink === undefined ? undefined : inkOf(ink, read, inputName, inkName);
  const tone = coverage === undefined ? undefined : toneOf(coverage, read, inputName);
  const shown = mask ?? (tone && inkOfTone(tone));
  const sheet = {
    ...read,
    ...(shown === undefined ? {} : { ink: shown }),
    ...(tone === undefined ? {} : { coverage: tone }),
  };
  const found = wanted.flatMap(({ name, run }) => {
    const own = run(sheet);
    if (!Array.isArray(own)) throw wrongKind(`what "${name}" finds`, 'an array of findings', own);
    return own.map((finding): Finding => ({ check: name, ...finding }));
  });
  return { sheet, found: withoutExceptions(found, exceptions) };
}

/** The findings that match no exception. */
export function withoutExceptions(
  found: readonly Finding[],
  exceptions: readonly CheckException[],
): Finding[] {
  return found.filter((finding) => !exceptions.some((exception) => covers(exception, finding)));
}

function checksOf(
  checks: CheckFlatsOptions['checks'],
  hasInk: boolean,
  hasCoverage: boolean,
  inkName: string,
): readonly Check[] {
  const named = { bare, blended, specks: specksUpTo(8), seams, halo };
  const names = Object.keys(named) as CheckName[];
  let wanted: Check[];
  if (Array.isArray(checks)) {
    wanted = checks.map((check: unknown, i) =>
      isCheck(check) ? check : named[checkOneOf(check, `checks[${i}]`, names)],
    );
  } else {
    const settings = checkOptions(checks as CheckSettings | undefined, 'checks', [...names, 'own']);
    const { specks = true, own = [] } = settings;
    if (typeof specks === 'object') {
      const { maxArea = 8 } = checkOptions(specks, 'checks.specks', ['maxArea']);
      named.specks = specksUpTo(checkNumber(maxArea, 'checks.specks.maxArea', { unit: 'pixels' }));
    }
    if (!Array.isArray(own) || !own.every(isCheck)) {
      throw wrongKind('checks.own', 'an array of checks made by defineCheck', own);
    }
    const runs = (name: CheckName): boolean => {
      const setting =
        settings[name] ?? (name === 'seams' ? hasInk : name === 'halo' ? hasCoverage : true);
      if (typeof setting !== 'boolean' && (name !== 'specks' || setting === null)) {
        throw wrongKind(`checks.${name}`, 'true or false', setting);
      }
      return setting !== false;
    };
    wanted = [...names.filter(runs).map((name) => named[name]), ...own];
  }
  if (!hasInk && wanted.includes(seams)) {
    throw new RangeError(`${inkName} must be given for the check "seams", got undefined`);
  }
  if (!hasCoverage && wanted.includes(halo)) {
    throw new RangeError('coverage must be given for the check "halo", got undefined');
  }
  return wanted;
}

function isCheck(value: unknown): value is Check {
  return typeof value === 'object' && value !== null && 'run' in value && 'name' in value;
}

function checkExceptions(exceptions: readonly CheckException[]): void {
  if (!Array.isArray(exceptions)) throw wrongKind('exceptions', 'an array', exceptions);
  exceptions.forEach((exception: CheckException, i) => {
    const name = `exceptions[${i}]`;
    const { check, bounds, swatch } = checkOptions(exception, name, ['check', 'bounds', 'swatch']);
    if (typeof check !== 'string') throw wrongKind(`${name}.check`, 'the name of a check', check);
    if (swatch !== undefined && typeof swatch !== 'string') {
      throw wrongKind(`${name}.swatch`, 'the name of a swatch', swatch);
    }
    if (bounds === undefined) return;
    const allowed = 'four numbers [x0, y0, x1, y1]';
    if (!Array.isArray(bounds)) throw wrongKind(`${name}.bounds`, allowed, bounds);
    if (bounds.length !== 4 || !bounds.every(Number.isFinite)) {
      throw wrongValue(`${name}.bounds`, allowed, bounds);
    }
  });
}

function covers({ check, bounds, swatch }: CheckException, finding: Finding): boolean {
  if (check !== finding.check) return false;
  if (swatch !== undefined && !finding.swatches.includes(swatch)) return false;
  if (bounds === undefined) return true;
  const [x0, y0, x1, y1] = finding.bounds;
  return x0 >= bounds[0] && y0 >= bounds[1] && x1 <= bounds[2] && y1 <= bounds[3];
}

function inkOf(ink: MaskLike, sheet: Sheet, inputName: string, inkName: string): Mask {
  const dense = maskArgument(ink, inkName);
  checkSize(dense, inkName, sheet, inputName);
  packMask(dense, inkName);
  return raster(dense.data as Owned<Uint8Array>, [dense.width, dense.height]);
}

function toneOf(coverage: CoverageLike, sheet: Sheet, inputName: string): Coverage {
  const dense = coverageArgument(coverage, 'coverage');
  checkSize(dense, 'coverage', sheet, inputName);
  return raster(dense.data as Owned<Uint8Array>, [dense.width, dense.height]);
}

function inkOfTone({ data, shape }: Coverage): Mask {
  return raster(
    data.map((value) => (value > 127 ? 1 : 0)),
    shape,
  );
}

function checkSize(dense: Dense, name: string, { flats }: Sheet, inputName: string): void {
  const [width, height] = flats.indices.shape as [number, number];
  checkSameSize({ width, height }, inputName, dense, name);
}
