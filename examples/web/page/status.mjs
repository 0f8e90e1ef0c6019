import { byId } from './elements.mjs';

const STAGES = {
  ink: 'Finding the ink',
  gaps: 'Looking at the gaps of the line',
  regions: 'Finding the areas',
  grow: 'Growing the areas under the ink',
  flats: 'Laying the flats',
};
/** Milliseconds from which work is told of in words: what is done sooner needs none. */
const SOON = 700;

let since;
let stage;

/** Says a sentence at the foot of the page; screen readers read it out. */
export function say(text) {
  byId('status').className = '';
  byId('status').textContent = text;
}

export function sayTrouble(text) {
  byId('status').className = 'trouble';
  byId('status').textContent = text;
}

/** Shows how far work is, `{ stage, done }`; null ends it. */
export function showWork(work) {
  const bar = byId('progress');
  bar.hidden = work === null;
  if (work === null) {
    since = stage = undefined;
    return;
  }
  since ??= performance.now();
  bar.value = work.done;
  if (work.stage === stage || performance.now() - since < SOON) return;
  stage = work.stage;
  if (stage in STAGES) say(`${STAGES[stage]}…`);
}
