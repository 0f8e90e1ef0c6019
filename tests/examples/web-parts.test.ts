import { describe, expect, it } from 'vitest';
// @ts-expect-error: a script without types
import { listDoubts } from '../../examples/web/page/doubts.mjs';
// @ts-expect-error: a script without types
import * as history from '../../examples/web/page/history.mjs';
// @ts-expect-error: a script without types
import * as edits from '../../examples/web/page/plan-edits.mjs';
import { layFlats, type Plan, raster } from '../../src/index.ts';

describe('the history of plans', () => {
  it('undoes, redoes, and forgets what was undone at the next step', () => {
    let steps = history.startHistory('a');
    steps = history.step(history.step(steps, 'b'), 'c');
    expect(history.planOf((steps = history.undo(steps)))).toBe('b');
    expect([history.canUndo(steps), history.canRedo(steps)]).toEqual([true, true]);
    expect(history.planOf(history.redo(steps))).toBe('c');
    steps = history.step(steps, 'd');
    expect(steps).toEqual({ plans: ['a', 'b', 'd'], at: 2 });
    expect(history.dropStep(steps)).toEqual({ plans: ['a', 'b'], at: 1 });
  });

  it('makes one step of a slider that moves on, but not over an undo', () => {
    let steps = history.step(history.startHistory('a'), 'b', 'gap');
    steps = history.step(steps, 'c', 'gap');
    expect(steps.plans).toEqual(['a', 'c']);
    steps = history.step(history.undo(steps), 'd', 'gap');
    expect(steps.plans).toEqual(['a', 'd']);
    expect(history.step(steps, 'e').plans).toEqual(['a', 'd', 'e']);
  });

  it('keeps the last 500', () => {
    let steps = history.startHistory(0);
    for (let i = 1; i <= 700; i++) steps = history.step(steps, i);
    expect([steps.plans.length, steps.at, history.planOf(steps), steps.plans[0]]).toEqual([
      500, 499, 700, 201,
    ]);
  });
});

describe('edits of a plan', () => {
  const shell = { name: 'shell', color: '#c06a3a' };
  const fur = { name: 'fur', color: '#8a5d42' };
  const empty: Plan = { version: 1, size: [60, 60], palette: [], marks: [] };
  const area = { point: [30.5, 30.5], marks: [] as number[], named: false };

  it('names an area, and takes the place of its name before', () => {
    const first = edits.nameArea(empty, area, shell);
    expect(first.marks).toEqual([{ point: [30.5, 30.5], swatch: 'shell' }]);
    const second = edits.nameArea(first, { ...area, marks: [0], named: true }, fur);
    expect(second).toMatchObject({ palette: [fur], marks: [{ swatch: 'fur' }] });
    expect(edits.unnameArea(second, { marks: [0] })).toEqual(empty);
    expect(empty.marks).toEqual([]);
  });

  it('covers a name that no point gave', () => {
    const outlined = edits.layOutline(
      empty,
      [
        [1, 1],
        [9, 1],
        [9, 9],
      ],
      shell,
      false,
    );
    expect(outlined.marks[0]).not.toHaveProperty('over');
    const renamed = edits.nameArea(outlined, { ...area, named: true }, fur);
    expect(renamed.marks[1]).toEqual({ point: [30.5, 30.5], swatch: 'fur', over: true });
  });

  it('keeps the swatch of the ground, and of other marks', () => {
    const plan = { ...edits.nameArea(empty, area, shell), settings: { ground: 'shell' } };
    expect(edits.unnameArea(plan, { marks: [0] }).palette).toEqual([shell]);
    const twice = edits.nameArea(
      edits.nameArea(empty, area, shell),
      { ...area, point: [3, 3] },
      shell,
    );
    expect(edits.unnameArea(twice, { marks: [0] }).palette).toEqual([shell]);
  });

  it('decides a gap once, whichever end comes first', () => {
    const [from, to] = [
      [1.5, 2.5],
      [8.5, 2.5],
    ];
    const closed = edits.decideGap(empty, 'bridge', [from, to]);
    expect(edits.isDecided(closed, { from: to, to: from })).toBe(true);
    expect(edits.decideGap(closed, 'open', [to, from]).marks).toEqual([{ open: [to, from] }]);
  });

  it('leaves out settings that are not set', () => {
    const set = edits.changeSettings(empty, { maxGap: 12, absorb: 5 });
    expect(set.settings).toEqual({ maxGap: 12, absorb: 5 });
    expect(edits.changeSettings(set, { maxGap: undefined }).settings).toEqual({ absorb: 5 });
  });
});

it('lists what is in doubt on a drawing with two names in one room', () => {
  const data = new Uint8Array(80 * 50);
  const ink = raster(data, [80, 50]);
  for (let x = 5; x < 75; x++) for (const y of [5, 6, 43, 44]) ink.set(x, y, 1);
  for (let y = 5; y < 45; y++)
    for (const x of [5, 6, 39, 40, 73, 74])
      ink.set(x, y, x !== 39 && x !== 40 ? 1 : y < 12 || y > 36 ? 1 : 0);
  const plan: Plan = {
    version: 1,
    size: [80, 50],
    palette: [
      { name: 'shell', color: '#c06a3a' },
      { name: 'fur', color: '#8a5d42' },
    ],
    marks: [
      { point: [20.5, 25.5], swatch: 'shell' },
      { point: [60.5, 25.5], swatch: 'fur' },
    ],
    settings: { maxGap: 0 },
  };
  const { report } = layFlats({ ink }, { plan });
  const [first] = listDoubts(report, plan);
  expect(first).toMatchObject({
    kind: 'Two names',
    at: [60.5, 25.5],
    conflict: 0,
    ways: ['leaks'],
  });
  expect(first.text).toMatch(/asked to be “shell” and “fur”; it stays “shell”/);
  const gap = {
    from: [1, 1],
    to: [5, 4],
    length: 5,
    probability: 0.55,
    drawn: true,
    doubtful: true,
    forced: false,
  };
  const bridges = [{ ...gap, probability: 0.9 }, gap, { ...gap, forced: true, from: [2, 2] }];
  const doubts = listDoubts({ ...report, conflicts: [], notes: [], bridges }, plan);
  expect(
    doubts.map(({ kind, ways, text }: { kind: string; ways: string[]; text: string }) => [
      kind,
      ways[0],
      /\d+ %/.exec(text)?.[0],
    ]),
  ).toEqual([
    ['Forced', 'bridge', undefined],
    ['Closed', 'open', '55 %'],
    ['Closed', 'open', '90 %'],
  ]);
  const settled = edits.decideGap(plan, 'open', [gap.from, gap.to]);
  expect(listDoubts({ ...report, conflicts: [], notes: [], bridges }, settled)).toHaveLength(1);
});
