import { askedBridge } from '../gaps/asked.ts';
import type { Swatch } from '../palette/types.ts';
import type { Point } from '../raster/types.ts';
import { polylinePixels } from '../runs/polyline.ts';
import type { OutsideMark } from './check-plan.ts';
import type {
  BridgeMark,
  CutMark,
  FillMark,
  JoinMark,
  Mark,
  OpenMark,
  PolygonMark,
} from './plan.ts';
import { OPEN, type RegionMap } from './region-map.ts';

/** Two swatches fell in one region; the first keeps it. */
export interface PlanConflict {
  /** Place in `plan.marks` of the mark that came too late. */
  readonly mark: number;
  readonly point: Point;
  /** What the mark asks for, or of a join what the other region has. */
  readonly swatch: string;
  /** What the region has. */
  readonly keeps: string;
  /** Id of the region. */
  readonly region: number;
}

/** A mark that did not do what it says, or a plan that is not of this drawing. */
export interface PlanNote {
  /** Place in `plan.marks`; left out where the note is on the plan as a whole. */
  readonly mark?: number;
  readonly why: string;
}

export interface MarkOutcome {
  readonly conflicts: PlanConflict[];
  /** Points on pixels of no region. */
  readonly unlabeled: OutsideMark[];
  readonly notes: PlanNote[];
}

export interface MarkRule {
  readonly marks: readonly Mark[];
  /** Which of the marks lie in the picture. */
  readonly acts: readonly boolean[];
  /** `bare`, then the plan's own. */
  readonly palette: readonly Swatch[];
  /** Ink that the regions have grown under. */
  readonly ink: Uint8Array | undefined;
  /** Whether bridges and gaps that stay open have been decided before the regions were found. */
  readonly gapsDecided: boolean;
}

/** Lets the marks of a plan act on regions, in order. Changes the regions and their swatches. */
export function followMarks(regions: RegionMap, rule: MarkRule): MarkOutcome {
  const follower = new Follower(regions, rule);
  rule.marks.forEach((mark, i) => {
    if (rule.acts[i]) follower.follow(mark, i);
  });
  return follower;
}

class Follower implements MarkOutcome {
  readonly conflicts: PlanConflict[] = [];
  readonly unlabeled: OutsideMark[] = [];
  readonly notes: PlanNote[] = [];
  private readonly regions: RegionMap;
  private readonly rule: MarkRule;
  private readonly places: ReadonlyMap<string, number>;

  constructor(regions: RegionMap, rule: MarkRule) {
    this.regions = regions;
    this.rule = rule;
    this.places = new Map(rule.palette.map(({ name }, i) => [name, i]));
  }

  follow(mark: Mark, i: number): void {
    if ('point' in mark) this.lay(i, mark.point, mark.swatch, mark.over ?? false, false);
    else if ('fill' in mark) this.fill(i, mark);
    else if ('polygon' in mark) this.polygon(i, mark);
    else if ('cut' in mark) this.cut(i, mark);
    else if ('join' in mark) this.join(i, mark);
    else if (this.rule.gapsDecided) return;
    else if ('bridge' in mark) this.bridge(i, mark);
    else this.open(i, mark);
  }

  private fill(i: number, { fill, swatch, over = false }: FillMark): void {
    this.lay(i, fill, swatch, over, true);
  }

  /** Gives the region of a point a swatch, or the patch of one swatch that it is a part of. */
  private lay(i: number, point: Point, swatch: string, over: boolean, patch: boolean): void {
    const { regions, rule } = this;
    const region = regions.at(Math.floor(point[0]), Math.floor(point[1]));
    if (region === 0) {
      this.unlabeled.push({ mark: i, point, swatch });
      return;
    }
    const index = this.places.get(swatch)!;
    const has = regions.swatch(region);
    if (has === index) return;
    if (has === OPEN) regions.lay(region, index);
    else if (over && patch) regions.layPatch(region, index);
    else if (over) regions.lay(region, index);
    else {
      const keeps = rule.palette[has]!.name;
      this.conflicts.push({ mark: i, point, swatch, keeps, region: regions.name(region) });
    }
  }

  private polygon(i: number, { polygon, swatch, over = false }: PolygonMark): void {
    const took = this.regions.take(
      polygon,
      this.places.get(swatch)!,
      (has) => over || has === OPEN,
    );
    if (took === 'empty') this.note(i, 'the polygon holds no pixel of the picture');
    else if (took === 'kept out') this.note(i, 'everything inside the polygon is laid already');
  }

  private cut(i: number, { cut }: CutMark): void {
    const { width, height } = this.regions;
    if (this.regions.cut(polylinePixels(cut, width, height))) return;
    this.note(i, 'the cut divides no region');
  }

  private bridge(i: number, { bridge }: BridgeMark): void {
    const { width, height } = this.regions;
    const { ink } = this.rule;
    let line = bridge;
    if (ink !== undefined) {
      const asked = askedBridge({ data: ink, width, height, channels: 1 }, bridge, 0);
      line = [
        [asked.fromX, asked.fromY],
        [asked.toX, asked.toY],
      ];
    }
    if (this.regions.cut(polylinePixels(line, width, height))) return;
    this.note(i, 'the bridge divides no region');
  }

  private join(i: number, { join }: JoinMark): void {
    const { regions, rule } = this;
    const ids: number[] = [];
    let keeps = OPEN;
    for (const point of join) {
      const [x, y] = [Math.floor(point[0]), Math.floor(point[1])];
      if (x < 0 || y < 0 || x >= regions.width || y >= regions.height) continue;
      const region = regions.at(x, y);
      if (region === 0) {
        this.unlabeled.push({ mark: i, point });
        continue;
      }
      ids.push(region);
      const has = regions.swatch(region);
      if (keeps === OPEN) keeps = has;
      else if (has !== OPEN && has !== keeps) {
        const swatch = rule.palette[has]!.name;
        const kept = rule.palette[keeps]!.name;
        this.conflicts.push({ mark: i, point, swatch, keeps: kept, region: regions.name(ids[0]!) });
      }
    }
    if (ids.length === 0) return;
    regions.lay(regions.merge(ids), keeps);
  }

  /** Joins the regions that meet at the middle of a closed gap. */
  private open(i: number, mark: OpenMark): void {
    const { regions } = this;
    const [[x0, y0], [x1, y1]] = mark.open;
    const length = Math.sqrt((x1 - x0) * (x1 - x0) + (y1 - y0) * (y1 - y0));
    const [ux, uy] = length === 0 ? [1, 0] : [(x1 - x0) / length, (y1 - y0) / length];
    const side = (t: number): number => {
      const [x, y] = [Math.floor((x0 + x1) / 2 - t * uy), Math.floor((y0 + y1) / 2 + t * ux)];
      return x < 0 || y < 0 || x >= regions.width || y >= regions.height ? 0 : regions.at(x, y);
    };
    for (let t = 1; t <= Math.max(4, length); t++) {
      const [a, b] = [side(t), side(-t)];
      if (a === 0 || b === 0 || a === b) continue;
      const [first, last] = regions.name(a) < regions.name(b) ? [a, b] : [b, a];
      const has = regions.swatch(first);
      const keeps = has === OPEN ? regions.swatch(last) : has;
      regions.lay(regions.merge([first, last]), keeps);
      return;
    }
    this.note(i, 'no two regions meet between the points');
  }

  private note(mark: number, why: string): void {
    this.notes.push({ mark, why });
  }
}
