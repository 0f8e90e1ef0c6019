// What a person should look at, as a list: `{ kind, text, at?, gap?, ways, conflict? }`. `gap` has the two
// ends of a gap, `ways` what can be done about it.
import { isDecided } from './plan-edits.mjs';

/** The things to look at, those that need an answer first, the least certain gaps before others. */
export function listDoubts(told, plan) {
  const { conflicts, bridges, notes, outside, unlabeled } = told;
  const open = bridges.filter((bridge) => !isDecided(plan, bridge));
  const forced = open.filter((bridge) => bridge.forced);
  const doubtful = open
    .filter((bridge) => bridge.doubtful && !bridge.forced)
    .sort((a, b) => Math.abs(a.probability - 0.5) - Math.abs(b.probability - 0.5));
  return [
    ...conflicts.map(conflictDoubt),
    ...forced.map(forcedDoubt),
    ...doubtful.map(gapDoubt),
    ...[...outside, ...unlabeled].map(({ point, swatch }) => ({
      kind: 'Astray',
      text: `A point of ${swatch === undefined ? 'the plan' : `“${swatch}”`} lies on no area.`,
      at: point,
      ways: [],
    })),
    ...notes.map(({ why }) => ({
      kind: 'Note',
      text: `${why[0].toUpperCase()}${why.slice(1)}.`,
      ways: [],
    })),
  ];
}

function conflictDoubt({ point, swatch, keeps, region }, conflict) {
  return {
    kind: 'Two names',
    text: `Area ${region} is asked to be “${keeps}” and “${swatch}”; it stays “${keeps}”.`,
    at: point,
    conflict,
    ways: ['leaks'],
  };
}

function forcedDoubt(bridge) {
  return {
    kind: 'Forced',
    text: `A gap of ${pixels(bridge.length)} was closed only because two names ask for it.`,
    ...place(bridge),
    ways: ['bridge', 'open'],
  };
}

function gapDoubt(bridge) {
  const percent = Math.round(100 * bridge.probability);
  const found = bridge.drawn ? 'was closed' : 'was left open';
  return {
    kind: bridge.drawn ? 'Closed' : 'Open',
    text: `A gap of ${pixels(bridge.length)} ${found}; that the line goes on is ${percent} % likely.`,
    ...place(bridge),
    ways: bridge.drawn ? ['open', 'bridge'] : ['bridge', 'open'],
  };
}

function place({ from, to }) {
  return { gap: [from, to], at: [(from[0] + to[0]) / 2, (from[1] + to[1]) / 2] };
}

const pixels = (length) => `${Math.max(1, Math.round(length))} px`;
