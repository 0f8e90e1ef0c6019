import type { Swatch } from '../../palette/types.ts';
import type { Point } from '../../raster/types.ts';
import { type MarkedMap, OPEN } from '../marked-map.ts';
import type { OutsideMark, PlanConflict, PlanNote } from '../plan-report.ts';

/** What a mark acts on, and where it says what came of it. */
export class Acting {
  readonly regions: MarkedMap;
  /** Ink that the regions have grown under. */
  readonly ink: Uint8Array | undefined;
  readonly conflicts: PlanConflict[] = [];
  /** Points on pixels of no region. */
  readonly unlabeled: OutsideMark[] = [];
  readonly notes: PlanNote[] = [];
  /** Place in `plan.marks` of the mark that acts. */
  mark = 0;
  private readonly palette: readonly Swatch[];
  private readonly places: ReadonlyMap<string, number>;

  /** `palette` holds `bare`, then the plan's own. */
  constructor(regions: MarkedMap, palette: readonly Swatch[], ink: Uint8Array | undefined) {
    this.regions = regions;
    this.palette = palette;
    this.places = new Map(palette.map(({ name }, i) => [name, i]));
    this.ink = ink;
  }

  /** Place of a swatch in the palette. */
  indexOf(swatch: string): number {
    return this.places.get(swatch)!;
  }

  /** Region under a point inside the picture; where there is none, that is reported. */
  regionAt(point: Point, swatch?: string): number {
    const region = this.regions.at(Math.floor(point[0]), Math.floor(point[1]));
    if (region === 0) {
      const lays = swatch === undefined ? {} : { swatch };
      this.unlabeled.push({ mark: this.mark, point, ...lays });
    }
    return region;
  }

  /** Gives the region of a point a swatch, or the patch of one swatch that it is a part of. */
  layAt(point: Point, swatch: string, over: boolean, patch: boolean): void {
    const { regions, mark } = this;
    const region = this.regionAt(point, swatch);
    if (region === 0) return;
    const index = this.indexOf(swatch);
    const has = regions.swatch(region);
    if (has === index) return;
    if (has === OPEN) regions.lay(region, index, mark);
    else if (over && patch) regions.layPatch(region, index, mark);
    else if (over) regions.lay(region, index, mark);
    else this.conflict(point, index, region);
  }

  /** A swatch that a region does not get because it has another. */
  conflict(point: Point, asked: number, region: number): void {
    const { regions, palette, mark } = this;
    const swatch = palette[asked]!.name;
    const keeps = palette[regions.swatch(region)]!.name;
    const by = regions.laidBy(region);
    this.conflicts.push({ mark, point, swatch, keeps, by, region: regions.name(region) });
  }

  note(why: string): void {
    this.notes.push({ mark: this.mark, why });
  }
}
