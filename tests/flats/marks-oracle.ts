/**
 * What marks mean, said as plainly as can be: the regions are looked at whole after each mark. Slow,
 * and built on nothing of `src/flats`. Polygons, lines and the contacts of bridges are those of the
 * floors below, which have tests of their own.
 */
import type { Mark } from '../../src/flats/marks/table.ts';
import { askedBridge } from '../../src/gaps/asked.ts';
import { rasterizePolygon } from '../../src/polygon/rasterize.ts';
import type { Point } from '../../src/raster/types.ts';
import { polylinePixels } from '../../src/runs/polyline.ts';

export interface OracleInput {
  readonly labels: readonly number[];
  readonly width: number;
  readonly height: number;
  readonly ink: readonly number[] | undefined;
  readonly marks: readonly Mark[];
}

export interface OracleResult {
  readonly region: number[];
  /** Swatch of each pixel's region: a name, `GROUND`, `OPEN`, or `BARE` for no region. */
  readonly swatch: string[];
  readonly conflicts: { mark: number; point: Point; swatch: string; keeps: string; by: number }[];
  readonly unlabeled: { mark: number; point: Point; swatch?: string }[];
  /** Marks that changed nothing. */
  readonly idle: number[];
}

export const OPEN = '(open)';
export const GROUND = '(ground)';
export const BARE = '(bare)';

export function followByOracle({ labels, width, height, ink, marks }: OracleInput): OracleResult {
  const region = [...labels];
  const size = width * height;
  let free = Math.max(...region) + 1;
  const swatchOf = new Map<number, string>();
  /** The mark that gave a region its swatch. */
  const byOf = new Map<number, number>();
  const give = (id: number, swatch: string, mark: number): void => {
    swatchOf.set(id, swatch);
    byOf.set(id, mark);
  };
  const has = (id: number): string => swatchOf.get(id) ?? OPEN;
  const outside = new Set<number>();
  const touching = (id: number): boolean => {
    return region.some((own, p) => {
      const [x, y] = [p % width, Math.floor(p / width)];
      const edge = x === 0 || y === 0 || x === width - 1 || y === height - 1;
      return own === id && edge && ink?.[p] !== 1;
    });
  };
  for (const id of new Set(region)) if (id !== 0 && touching(id)) outside.add(id);

  const conflicts: OracleResult['conflicts'] = [];
  const unlabeled: OracleResult['unlabeled'] = [];
  const idle: number[] = [];

  const at = ([x, y]: Point): number => Math.floor(y) * width + Math.floor(x);
  const neighbors = (p: number): number[] => {
    const x = p % width;
    return [
      ...(p >= width ? [p - width] : []),
      ...(x > 0 ? [p - 1] : []),
      ...(x < width - 1 ? [p + 1] : []),
      ...(p + width < size ? [p + width] : []),
    ];
  };
  /** 4-connected pieces of some pixels, in the order of their first pixels. */
  const piecesOf = (pixels: readonly number[]): number[][] => {
    const left = new Set([...pixels].sort((a, b) => a - b));
    const pieces: number[][] = [];
    for (const start of left) {
      left.delete(start);
      const piece = [start];
      for (const p of piece) for (const q of neighbors(p)) if (left.delete(q)) piece.push(q);
      pieces.push(piece.sort((a, b) => a - b));
    }
    return pieces;
  };
  const pixelsOf = (id: number): number[] => region.flatMap((own, p) => (own === id ? [p] : []));
  const bear = (from: number, pixels: readonly number[]): number => {
    const id = free++;
    if (outside.has(from)) outside.add(id);
    if (swatchOf.has(from)) give(id, has(from), byOf.get(from)!);
    for (const p of pixels) region[p] = id;
    return id;
  };
  /** Of each part before, the largest piece after keeps the id. Gives all pieces with their ids. */
  const fallApart = (id: number, before: readonly number[], after: readonly number[]) => {
    const parts = piecesOf(before);
    const pieces = piecesOf(after);
    const kept = new Set(
      parts.map((part) => {
        const inside = new Set(part);
        const own = pieces.filter((piece) => inside.has(piece[0]!));
        return own.sort((a, b) => b.length - a.length)[0];
      }),
    );
    return pieces.map((piece) => ({ piece, id: kept.has(piece) ? id : bear(id, piece) }));
  };

  const lay = (mark: number, point: Point, swatch: string, over: boolean, patch: boolean): void => {
    const id = region[at(point)]!;
    if (id === 0) unlabeled.push({ mark, point, swatch });
    else if (has(id) === OPEN) give(id, swatch, mark);
    else if (has(id) !== swatch && !over)
      conflicts.push({ mark, point, swatch, keeps: has(id), by: byOf.get(id)! });
    else if (has(id) !== swatch && !patch) give(id, swatch, mark);
    else if (has(id) !== swatch) {
      const alike = region.flatMap((own, p) => (own !== 0 && has(own) === has(id) ? [p] : []));
      // The pixels of a region need not touch each other: it is taken as one all the same.
      const taken = new Set([id]);
      for (let size = 0; size < taken.size; ) {
        size = taken.size;
        for (const p of alike) {
          if (taken.has(region[p]!)) continue;
          if (neighbors(p).some((q) => taken.has(region[q]!))) taken.add(region[p]!);
        }
      }
      for (const one of taken) give(one, swatch, mark);
    }
  };
  const cut = (mark: number, line: Iterable<number>): void => {
    const on = new Set(line);
    const ids = [...new Set([...on].map((p) => region[p]!))].filter((id) => id !== 0);
    const first = free;
    for (const id of ids.sort((a, b) => a - b)) {
      const all = pixelsOf(id);
      const paper = all.filter((p) => ink?.[p] !== 1);
      const off = paper.filter((p) => !on.has(p));
      const born = free;
      const pieces = fallApart(id, paper, off);
      if (free === born) continue;
      const left = all.filter((p) => ink?.[p] === 1 || on.has(p));
      for (const p of left) {
        let best = { square: Number.POSITIVE_INFINITY, id };
        for (const { piece, id: own } of pieces) {
          for (const q of piece) {
            const dx = (p % width) - (q % width);
            const dy = Math.floor(p / width) - Math.floor(q / width);
            const square = dx * dx + dy * dy;
            if (square < best.square) best = { square, id: own };
          }
        }
        region[p] = best.id;
      }
    }
    if (free === first) idle.push(mark);
  };
  const merge = (ids: readonly number[]): void => {
    const [first, ...others] = ids as [number, ...number[]];
    for (const id of others) {
      if (id === first) continue;
      for (const p of pixelsOf(id)) region[p] = first;
      if (outside.has(id)) outside.add(first);
    }
  };

  marks.forEach((mark, i) => {
    if ('point' in mark) lay(i, mark.point, mark.swatch, mark.over ?? false, false);
    else if ('fill' in mark) lay(i, mark.fill, mark.swatch, mark.over ?? false, true);
    else if ('polygon' in mark) {
      const inside = rasterizePolygon(mark.polygon, [width, height]).data;
      let took = false;
      for (const id of [...new Set(region)].sort((a, b) => a - b)) {
        const all = pixelsOf(id);
        const own = all.filter((p) => inside[p] === 1);
        if (id === 0 || own.length === 0 || !(mark.over || has(id) === OPEN)) continue;
        took = true;
        if (own.length === all.length) give(id, mark.swatch, i);
        else {
          for (const piece of piecesOf(own)) give(bear(id, piece), mark.swatch, i);
          const left = all.filter((p) => inside[p] !== 1);
          fallApart(id, all, left);
        }
      }
      if (!took) idle.push(i);
    } else if ('cut' in mark) cut(i, polylinePixels(mark.cut, width, height));
    else if ('join' in mark) {
      const ids: number[] = [];
      let keeps = 0;
      for (const point of mark.join) {
        const id = region[at(point)]!;
        if (id === 0) {
          unlabeled.push({ mark: i, point });
          continue;
        }
        ids.push(id);
        if (has(id) === OPEN) continue;
        if (keeps === 0) keeps = id;
        else if (has(id) !== has(keeps)) {
          const by = byOf.get(keeps)!;
          conflicts.push({ mark: i, point, swatch: has(id), keeps: has(keeps), by });
        }
      }
      if (ids.length === 0) return;
      merge(ids);
      if (keeps !== 0) give(ids[0]!, has(keeps), byOf.get(keeps)!);
    } else if ('bridge' in mark) {
      let line = mark.bridge;
      if (ink !== undefined) {
        const dense = { data: Uint8Array.from(ink), width, height, channels: 1 };
        const { fromX, fromY, toX, toY } = askedBridge(dense, mark.bridge, 0);
        line = [
          [fromX, fromY],
          [toX, toY],
        ];
      }
      cut(i, polylinePixels(line, width, height));
    } else {
      const [[x0, y0], [x1, y1]] = mark.open;
      const length = Math.sqrt((x1 - x0) ** 2 + (y1 - y0) ** 2);
      const [ux, uy] = length === 0 ? [1, 0] : [(x1 - x0) / length, (y1 - y0) / length];
      const side = (t: number): number => {
        const [x, y] = [Math.floor((x0 + x1) / 2 - t * uy), Math.floor((y0 + y1) / 2 + t * ux)];
        return x < 0 || y < 0 || x >= width || y >= height ? 0 : region[y * width + x]!;
      };
      for (let t = 1; t <= Math.max(4, length); t++) {
        const [a, b] = [side(t), side(-t)];
        if (a === 0 || b === 0 || a === b) continue;
        const [first, last] = a < b ? [a, b] : [b, a];
        const laidFirst = (one: number): number =>
          has(one) === OPEN ? Number.POSITIVE_INFINITY : byOf.get(one)!;
        const [keeps, other] = laidFirst(b) < laidFirst(a) ? [b, a] : [a, b];
        if (has(other) !== OPEN && has(other) !== has(keeps)) {
          const [dx, dy] = keeps === b ? [-t * uy, t * ux] : [t * uy, -t * ux];
          const point: Point = [(x0 + x1) / 2 + dx, (y0 + y1) / 2 + dy];
          const by = byOf.get(keeps)!;
          conflicts.push({ mark: i, point, swatch: has(other), keeps: has(keeps), by });
        }
        merge([first, last]);
        if (has(keeps) !== OPEN) give(first, has(keeps), byOf.get(keeps)!);
        return;
      }
      idle.push(i);
    }
  });

  const isGround = new Map(
    [...new Set(region)].map((id) => [id, outside.has(id) && has(id) === OPEN && touching(id)]),
  );
  const swatch = region.map((id) => (id === 0 ? BARE : isGround.get(id) ? GROUND : has(id)));
  return { region, swatch, conflicts, unlabeled, idle };
}
