import { button, byId, make } from './elements.mjs';

/** Rows that are shown at first, and by which more are. */
const ROWS = 40;

const ORDERS = {
  area: (a, b) => b.area - a.area || a.id - b.id,
  id: (a, b) => a.id - b.id,
  swatch: (a, b) => (a.swatch < b.swatch ? -1 : a.swatch > b.swatch ? 1 : a.id - b.id),
};

const KINDS = {
  all: () => true,
  named: ({ named }) => named,
  unnamed: ({ named }) => !named,
};

/** The numbered areas as a table with a name to write in each row. */
export class AreaTable {
  #areas = [];
  #colors = new Map();
  #shown = ROWS;
  #picked = 0;
  #on;

  /** `on.name(area, name)` is called for a name that is written, `on.goTo(area)` for a place. */
  constructor(on) {
    this.#on = on;
    for (const id of ['which', 'order']) {
      byId(id).addEventListener('change', () => {
        this.#shown = ROWS;
        this.#draw();
      });
    }
    byId('more-areas').addEventListener('click', () => {
      const first = this.#shown;
      this.#shown += ROWS;
      this.#draw();
      byId('areas').rows[first]?.querySelector('input').focus();
    });
  }

  areas(areas, palette) {
    this.#areas = areas;
    this.#colors = new Map(palette.map(({ name, color }) => [name, color]));
    this.#draw();
  }

  pick(region) {
    this.#picked = region;
    for (const row of byId('areas').rows) {
      row.classList.toggle('is-picked', Number(row.dataset.area) === region);
    }
  }

  #draw() {
    const body = byId('areas');
    const chosen = this.#areas.filter(KINDS[byId('which').value]).sort(ORDERS[byId('order').value]);
    const focused = focusIn(body);
    body.replaceChildren(...chosen.slice(0, this.#shown).map((area) => this.#row(area)));
    this.pick(this.#picked);
    refocus(body, focused);
    const rows = body.rows.length;
    byId('area-words').textContent =
      rows === 0 ? 'There are none.' : `${rows} of ${chosen.length} are shown.`;
    byId('more-areas').hidden = rows === chosen.length;
  }

  #row(area) {
    const { id, swatch, named, area: pixels } = area;
    const chip = make('span', { className: 'chip' });
    chip.style.backgroundColor = this.#colors.get(swatch);
    const name = make('input', {
      type: 'text',
      className: 'name-input',
      maxLength: 80,
      value: named ? swatch : '',
      placeholder: named ? '' : 'no name yet',
      'aria-label': `Name of area ${id}`,
    });
    name.setAttribute('list', 'names');
    name.addEventListener('change', () => this.#on.name(area, name.value.trim()));
    const place = button('Show', () => this.#on.goTo(area), {
      className: 'show',
      'aria-label': `Show area ${id}`,
    });
    return make(
      'tr',
      { 'data-area': id },
      make('th', { scope: 'row', className: 'cell number' }, String(id)),
      make('td', { className: 'cell' }, make('div', { className: 'name-cell' }, chip, name)),
      make('td', { className: 'cell number pixels' }, pixels.toLocaleString('en')),
      make('td', { className: 'cell number' }, place),
    );
  }
}

/** Which row and which of its controls has the focus. */
function focusIn(body) {
  const row = document.activeElement?.closest('tr');
  if (!row || row.parentElement !== body) return undefined;
  const { tagName } = document.activeElement;
  return { area: row.dataset.area, place: row.sectionRowIndex, tagName };
}

/** The focus goes to the same area's row, or to the one that has taken its place. */
function refocus(body, focused) {
  if (focused === undefined) return;
  const rows = [...body.rows];
  const row = rows.find(({ dataset }) => dataset.area === focused.area) ?? rows[focused.place];
  (row ?? rows.at(-1))?.querySelector(focused.tagName).focus({ preventScroll: true });
}
