// The worksheet: puts its parts together.
import { AreaTable } from './area-table.mjs';
import { DoubtList } from './doubt-list.mjs';
import { byId } from './elements.mjs';
import { GapFields } from './gap-fields.mjs';
import { canRedo, canUndo } from './history.mjs';
import { Naming } from './naming.mjs';
import { decideGap } from './plan-edits.mjs';
import { saveFile } from './save-file.mjs';
import { Session } from './session.mjs';
import { SheetClient } from './sheet-client.mjs';
import { SheetView } from './sheet-view.mjs';
import { say, sayTrouble, showWork } from './status.mjs';
import { takeFiles } from './take-files.mjs';

const client = new SheetClient(new Worker('worker.js', { type: 'module' }));
const session = new Session(client);
/** What was last said of the sheet. */
let told;
let name = '';
let areas = [];

const view = new SheetView(byId('drawing'), byId('paper'), {
  act: (point) => naming.act(point),
  moved: (point) => sayUnder(point),
  takeBack: () => naming.takeBack(),
  drop: () => naming.drop(),
});
const table = new AreaTable({
  name: (area, text) => naming.nameInside(area, text),
  goTo: ({ inside }) => goTo(inside),
});
const naming = new Naming({ session, client, overlay: view.overlay, table });
const gaps = new GapFields(session);
const doubts = new DoubtList({
  goTo: (point) => goTo(point),
  decide: (kind, gap) => session.edit((plan) => decideGap(plan, kind, gap)),
  leaks: (conflict) => client.leaks(conflict),
});

session.addEventListener('opened', ({ detail: shown }) => {
  const [width, height] = shown.size;
  name = shown.name;
  for (const part of document.querySelectorAll('[data-opened]')) part.hidden = false;
  byId('facts').hidden = false;
  byId('drop').classList.add('opened');
  byId('drop-words').textContent = 'Drop another drawing here, or';
  byId('fact-name').textContent = name;
  byId('fact-size').textContent = `${width} × ${height} px`;
  naming.forget();
  view.open(shown.size, shown.picture);
  tell(shown);
  naming.refresh();
  say(`${name} has ${shown.regions} areas. Click on one, and write its name.`);
});
session.addEventListener('laid', ({ detail: said }) => {
  view.paint(said.picture);
  tell(said);
  naming.refresh();
  say(`${said.regions} areas, ${said.named} of them named.`);
});
session.addEventListener('areas', ({ detail }) => {
  areas = detail;
  table.areas(areas, told.palette);
  view.overlay.numbers(areas);
});
session.addEventListener('working', ({ detail }) => showWork(detail));
session.addEventListener('trouble', ({ detail }) => sayTrouble(detail));
session.addEventListener('kept', ({ detail: isKept }) => {
  byId('fact-kept').textContent = isKept ? 'in this browser' : 'not yet …';
});
session.addEventListener('stepped', ({ detail: history }) => {
  byId('undo').disabled = !canUndo(history);
  byId('redo').disabled = !canRedo(history);
});

function tell(said) {
  told = said;
  gaps.show(session.plan);
  view.overlay.gaps(said.bridges);
  doubts.show(said, session.plan);
  byId('fact-areas').textContent = said.regions;
  byId('fact-named').textContent = said.named;
}

function goTo(point) {
  view.goTo(point);
  naming.pick(point);
}

/** Says what the marker has come to, once it rests. */
let resting;
function sayUnder(point) {
  clearTimeout(resting);
  resting = setTimeout(async () => {
    const region = await client.regionAt(point);
    const area = areas.find(({ id }) => id === region);
    const [x, y] = point.map(Math.floor);
    say(`Marker at ${x}, ${y}: area ${region}, ${area?.named ? area.swatch : 'without a name'}.`);
  }, 250);
}

byId('undo').addEventListener('click', () => session.undo());
byId('redo').addEventListener('click', () => session.redo());
byId('whole').addEventListener('click', () => view.whole());
byId('closer').addEventListener('click', () => view.closer());
byId('further').addEventListener('click', () => view.further());
for (const id of ['numbers', 'gaps']) {
  byId(id).addEventListener('change', ({ target }) => view.overlay.show(id, target.checked));
}
document.addEventListener('keydown', (event) => {
  if (!(event.ctrlKey || event.metaKey) || !session.isOpen) return;
  if (event.target.matches('input[type="text"], input[type="number"]')) return;
  const key = event.key.toLowerCase();
  const again = key === 'y' || (key === 'z' && event.shiftKey);
  if (!again && key !== 'z') return;
  event.preventDefault();
  if (again && canRedo(session.history)) session.redo();
  if (!again && canUndo(session.history)) session.undo();
});

takeFiles(async (file) => {
  if (!/json$/.test(file.type || file.name)) {
    say(`Opening ${file.name} …`);
    await session.open(file, file.name);
  } else if (session.isOpen) {
    session.edit(async () => JSON.parse(await file.text()));
  } else {
    sayTrouble('Drop the drawing first, then its plan.');
  }
});
byId('demo').addEventListener('click', async () => {
  say('Opening the pilots of Saltmarrow …');
  const [picture, plan] = await Promise.all(
    ['saltmarrow.png', 'saltmarrow.json'].map((file) => fetch(file)),
  );
  session.open(await picture.blob(), 'saltmarrow.png', await plan.json());
});

const base = () => name.replace(/\.\w+$/, '');
byId('take-flats').addEventListener('click', async () =>
  saveFile(`${base()}.flats.png`, 'image/png', await client.flats()),
);
byId('take-layers').addEventListener('click', async () =>
  saveFile(`${base()}.ora`, 'image/openraster', await client.layers()),
);
byId('take-plan').addEventListener('click', () =>
  saveFile(`${base()}.plan.json`, 'application/json', `${JSON.stringify(session.plan, null, 2)}\n`),
);

session.restore().then(
  (isRestored) => {
    if (!isRestored) say('Put in a drawing to begin.');
  },
  ({ message }) => sayTrouble(`What was kept in this browser can’t be read: ${message}`),
);
