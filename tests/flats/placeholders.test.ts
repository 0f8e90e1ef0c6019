/** Placeholders of the main job on line art by many hands (openmoji, CC BY-SA 4.0, from npm). */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { colorDifference } from '../../src/color/color-difference.ts';
import { applyPlan } from '../../src/flats/apply-plan.ts';
import { type LaidFlats, layFlats } from '../../src/flats/lay-flats.ts';
import type { Mark } from '../../src/flats/marks/table.ts';
import type { Plan } from '../../src/flats/plan.ts';
import { diffFlats } from '../../src/palette/diff-flats.ts';
import type { Flats } from '../../src/palette/types.ts';
import { regionAdjacency } from '../../src/regions/adjacency.ts';
import { drawings } from './drawings.ts';

const SIZE = 192;
const sheets = drawings(40, SIZE).map(({ name, pixels }) => {
  const laid = layFlats(pixels);
  return { name, pixels, laid, study: laid.study };
});
const many = sheets.filter(({ laid }) => laid.report.unnamed.length > 2);
const SWATCH = { name: 'shell', color: '#d2603a' };

function planOf(marks: readonly Mark[]): Plan {
  return { version: 1, size: [SIZE, SIZE], palette: [SWATCH], marks };
}

/** Names with their colors, but for what the plan lays. */
function placeholders({ palette }: Flats): Set<string> {
  const own = palette.filter(({ name }) => name !== SWATCH.name);
  return new Set(own.map(({ name, color }) => `${name} ${color}`));
}

/** Number of pixels by region of an earlier laying that carry another name or color later. */
function changedRegions(before: LaidFlats, after: Flats): Set<number> {
  const changed = new Set<number>();
  const text = ({ palette, indices }: Flats, i: number) => {
    const { name, color } = palette[indices.data[i]!]!;
    return `${name} ${color}`;
  };
  before.labels.data.forEach((id, i) => {
    if (text(before.flats, i) !== text(after, i)) changed.add(id);
  });
  return changed;
}

function neighborsOf(laid: LaidFlats): Map<number, Set<number>> {
  const { a, b } = regionAdjacency(laid.labels);
  const near = new Map<number, Set<number>>();
  for (let k = 0; k < a.length; k++) {
    for (const [from, to] of [
      [a[k]!, b[k]!],
      [b[k]!, a[k]!],
    ] as const) {
      near.set(from, (near.get(from) ?? new Set()).add(to));
    }
  }
  return near;
}

describe('placeholders', () => {
  it('are named after a pixel of their region, in colors 20 apart from neighbors and ground', () => {
    for (const { name, laid } of sheets) {
      const { flats, labels, report } = laid;
      for (const { id, inside } of report.unnamed) {
        const [x, y] = inside.map(Math.floor) as [number, number];
        expect(labels.get(x, y), name).toBe(id);
        expect(flats.palette[flats.indices.get(x, y)]!.name).toBe(`region ${x},${y}`);
      }
      const { a, b } = regionAdjacency(labels);
      const first = new Map<number, number>();
      labels.data.forEach((id, i) => {
        if (!first.has(id)) first.set(id, i);
      });
      const colorOf = (id: number) => flats.palette[flats.indices.data[first.get(id)!]!]!.color;
      for (let k = 0; k < a.length; k++) {
        const apart = colorDifference(colorOf(a[k]!), colorOf(b[k]!));
        if (colorOf(a[k]!) !== colorOf(b[k]!)) expect(apart).toBeGreaterThanOrEqual(20);
      }
    }
  });

  it('stay, name and color, when any one region is named', () => {
    let named = 0;
    for (const { pixels, laid, study } of many) {
      for (const { inside, area } of laid.report.unnamed) {
        const plan = planOf([{ point: inside, swatch: SWATCH.name }]);
        const { flats } = layFlats(pixels, { plan, study });
        const own = laid.flats.palette[laid.flats.indices.get(...pixelOf(inside))]!;
        const wanted = placeholders(laid.flats);
        wanted.delete(`${own.name} ${own.color}`);
        expect(placeholders(flats)).toEqual(wanted);
        const { regions, changed, swatches } = diffFlats(laid.flats, flats);
        expect(changed).toBe(area);
        // A region grown under the ink may touch a pixel of its own at a corner only.
        const changes = new Set(regions.map(({ from, to }) => `${from} → ${to}`));
        expect([...changes]).toEqual([`${own.name} → ${SWATCH.name}`]);
        const names = swatches.map(({ name }) => name).sort();
        expect(names).toEqual([own.name, SWATCH.name].sort());
        named++;
      }
    }
    expect(named).toBeGreaterThan(100);
  });

  it('stay when regions are named one after the other, to the last', () => {
    for (const { laid } of many.slice(0, 6)) {
      const marks: Mark[] = [];
      const wanted = placeholders(laid.flats);
      for (const { inside } of laid.report.unnamed) {
        const own = laid.flats.palette[laid.flats.indices.get(...pixelOf(inside))]!;
        wanted.delete(`${own.name} ${own.color}`);
        marks.push({ point: inside, swatch: SWATCH.name });
        const { flats } = applyPlan(laid.labels, planOf(marks), { ink: laid.sealed });
        expect(placeholders(flats)).toEqual(wanted);
      }
    }
  });

  it('stay outside the regions that a cut, a polygon or a join changes', () => {
    const at = fc.tuple(
      fc.integer({ min: 0, max: SIZE - 1 }),
      fc.integer({ min: 0, max: SIZE - 1 }),
    );
    const mark = fc.oneof(
      fc.record({ cut: fc.tuple(at, at) }),
      fc.record({ join: fc.tuple(at, at) }),
      fc.record({ polygon: fc.tuple(fc.tuple(at, at, at)), swatch: fc.constant(SWATCH.name) }),
      fc.record({ bridge: fc.tuple(at, at) }),
      fc.record({ open: fc.tuple(at, at) }),
    );
    let divided = 0;
    fc.assert(
      fc.property(
        fc.nat(many.length - 1),
        fc.array(mark, { minLength: 1, maxLength: 3 }),
        (k, marks) => {
          const { laid } = many[k]!;
          const { flats, labels } = applyPlan(laid.labels, planOf(marks), { ink: laid.sealed });
          const touched = new Set<number>();
          laid.labels.data.forEach((id, i) => {
            if (labels.data[i] !== id) touched.add(id).add(labels.data[i]!);
          });
          divided += touched.size > 0 ? 1 : 0;
          // What a polygon takes whole keeps its label, and has the plan's own swatch.
          flats.indices.data.forEach((index, i) => {
            if (flats.palette[index]!.name === SWATCH.name) touched.add(laid.labels.data[i]!);
          });
          for (const id of changedRegions(laid, flats)) expect(touched).toContain(id);
        },
      ),
      { seed: 3, numRuns: 300 },
    );
    expect(divided).toBeGreaterThan(100);
  });

  it('of what a mark divides or joins are 20 apart from what is beside them then', () => {
    let checked = 0;
    for (const { laid } of many) {
      const { a, b } = regionAdjacency(laid.labels);
      const insides = new Map(laid.report.unnamed.map(({ id, inside }) => [id, inside]));
      for (let k = 0; k < a.length; k += 3) {
        const [p, q] = [insides.get(a[k]!), insides.get(b[k]!)];
        if (p === undefined || q === undefined) continue;
        const { flats } = applyPlan(laid.labels, planOf([{ join: [p, q] }]), { ink: laid.sealed });
        const { data, shape } = flats.indices;
        for (let i = 0; i < data.length; i++) {
          for (const j of [i + 1, i + shape[0]!]) {
            if (j >= data.length || (j === i + 1 && j % shape[0]! === 0)) continue;
            if (data[i] === data[j]) continue;
            const [c, d] = [flats.palette[data[i]!]!.color, flats.palette[data[j]!]!.color];
            expect(colorDifference(c, d)).toBeGreaterThanOrEqual(20);
          }
        }
        checked++;
      }
    }
    expect(checked).toBeGreaterThan(10);
  });

  it('stay beyond the neighbors of what a closed or an opened gap changes', () => {
    let marked = 0;
    for (const { pixels, laid, study } of sheets) {
      const near = neighborsOf(laid);
      for (const { from, to, drawn } of laid.report.bridges.slice(0, 12)) {
        const mark: Mark = drawn ? { open: [from, to] } : { bridge: [from, to] };
        const after = layFlats(pixels, { plan: planOf([mark]), study });
        const changed = changedRegions(laid, after.flats);
        const parted = new Set<number>();
        laid.sealed.data.forEach((value, i) => {
          if (value !== after.sealed.data[i]) parted.add(laid.labels.data[i]!);
        });
        const allowed = new Set<number>(parted);
        for (const id of parted) for (const other of near.get(id) ?? []) allowed.add(other);
        for (const id of changed) expect(allowed).toContain(id);
        marked++;
      }
    }
    expect(marked).toBeGreaterThan(20);
  });
});

function pixelOf([x, y]: readonly [number, number]): [number, number] {
  return [Math.floor(x), Math.floor(y)];
}
