import { byId, make } from './elements.mjs';
import { layOutline, nameArea, unnameArea, withSwatch } from './plan-edits.mjs';
import { say, sayTrouble } from './status.mjs';

const COLORS = [
  '#c08457',
  '#5d8f8a',
  '#b8574a',
  '#d9a93f',
  '#6d7fa3',
  '#8a6f9e',
  '#7f9a55',
  '#c9b38f',
];

/** Names, colors and outlines: what a click on the drawing does, and the line to write on. */
export class Naming {
  #session;
  #client;
  #overlay;
  #table;
  /** What is picked: `{ region, name, color, marks, point, named }`. */
  #picked;
  #corners = [];

  constructor({ session, client, overlay, table }) {
    this.#session = session;
    this.#client = client;
    this.#overlay = overlay;
    this.#table = table;
    byId('naming').addEventListener('submit', (event) => {
      event.preventDefault();
      if (this.#act === 'outline') this.#layOutline();
      else this.#write();
    });
    byId('name').addEventListener('input', () => this.#suggestColor());
    byId('color').addEventListener('change', () => this.#recolor());
    byId('unname').addEventListener('click', () => this.#unname());
    byId('drop-outline').addEventListener('click', () => this.drop());
    for (const radio of document.getElementsByName('act')) {
      radio.addEventListener('change', () => this.#showAct());
    }
  }

  /** What a click does on a point of the drawing. */
  act(point) {
    if (this.#act === 'outline') return this.#setCorner(point);
    if (this.#act === 'name') return this.#writeAt(point);
    return this.pick(point);
  }

  /** Picks the area under a point. */
  async pick(point) {
    const picked = await this.#look(point);
    if (picked === undefined) return;
    this.#show(picked);
    byId('name').value = picked.named ? picked.name : '';
    byId('color').value = picked.color;
    say(`${wordsOf(picked)}. Write its name, or look at another.`);
  }

  /** Nothing is picked, as for another drawing. */
  forget() {
    this.#show(undefined);
    this.drop();
  }

  /** What is shown of the picked area, after the sheet has changed. */
  async refresh() {
    const point = this.#picked?.point;
    if (point !== undefined) this.#show(await this.#look(point));
    const names = this.#session.plan.palette.map(({ name }) => make('option', { value: name }));
    byId('names').replaceChildren(...names);
  }

  /** Writes a name on an area of the table; none takes its name off. */
  nameInside({ inside }, name) {
    this.#session.edit(async (plan) => {
      const area = await this.#look(inside);
      if (name === '') return unnameArea(plan, area);
      return nameArea(plan, area, { name, color: colorFor(plan, name, area.color) });
    });
  }

  takeBack() {
    this.#setCorners(this.#corners.slice(0, -1));
  }

  /** Drops the outline. */
  drop() {
    this.#setCorners([]);
  }

  get #act() {
    return document.querySelector('input[name="act"]:checked').value;
  }

  async #look(point) {
    const found = await this.#client.pick(point);
    if (found === null) return undefined;
    const named = this.#session.plan.palette.some(({ name }) => name === found.name);
    return { ...found, point, named };
  }

  #show(picked) {
    this.#picked = picked;
    this.#overlay.picked(picked?.rings ?? []);
    this.#table.pick(picked?.region ?? 0);
    this.#showAct();
  }

  #showAct() {
    const isOutline = this.#act === 'outline';
    const count = this.#corners.length;
    byId('picked').textContent = isOutline
      ? `${count === 0 ? 'No corner is' : count === 1 ? 'One corner is' : `${count} corners are`} set.`
      : this.#picked === undefined
        ? 'No area is picked.'
        : `${wordsOf(this.#picked)}.`;
    byId('write').textContent = isOutline ? 'Lay the outline' : 'Write the name';
    byId('unname').hidden = isOutline;
    byId('unname').disabled = !this.#picked?.named;
    byId('over-field').hidden = !isOutline;
    byId('drop-outline').hidden = count === 0;
  }

  #write() {
    if (this.#picked === undefined) {
      sayTrouble('Pick an area first: by a click, or by Enter in the drawing.');
      return;
    }
    const { point } = this.#picked;
    this.#writeAt(point);
  }

  #writeAt(point) {
    const name = byId('name').value.trim();
    const color = byId('color').value;
    if (name === '') {
      byId('name').focus();
      sayTrouble('Write a name on the line first.');
      return;
    }
    this.#session.edit(async (plan) => {
      const area = await this.#look(point);
      this.#picked = area;
      return nameArea(plan, area, { name, color });
    });
  }

  #unname() {
    const { point } = this.#picked;
    this.#session.edit(async (plan) => unnameArea(plan, await this.#look(point)));
  }

  #setCorner(point) {
    this.#setCorners([...this.#corners, point]);
    const [x, y] = point.map(Math.floor);
    say(`Corner ${this.#corners.length} is at ${x}, ${y}. Three or more make an outline.`);
  }

  #setCorners(corners) {
    this.#corners = corners;
    this.#overlay.outline(corners);
    this.#showAct();
  }

  #layOutline() {
    const ring = this.#corners;
    if (ring.length < 3) {
      sayTrouble('An outline needs three corners or more.');
      return;
    }
    const swatch = { name: byId('name').value.trim(), color: byId('color').value };
    const over = byId('over').checked;
    this.#session.edit((plan) => layOutline(plan, ring, swatch, over));
    this.drop();
  }

  /** A name that is known brings its color. */
  #suggestColor() {
    const { plan } = this.#session;
    const name = byId('name').value.trim();
    byId('color').value = colorFor(
      plan,
      name,
      this.#picked?.color ?? COLORS[plan.palette.length % 8],
    );
  }

  /** Another color for a name that is known is laid at once. */
  #recolor() {
    const name = byId('name').value.trim();
    const color = byId('color').value;
    this.#session.edit((plan) =>
      plan.palette.some((swatch) => swatch.name === name)
        ? withSwatch(plan, { name, color })
        : undefined,
    );
  }
}

function colorFor({ palette }, name, other) {
  return palette.find((swatch) => swatch.name === name)?.color ?? other;
}

function wordsOf({ region, name, named }) {
  return named ? `Area ${region} is “${name}”` : `Area ${region} has no name yet`;
}
