import { listDoubts } from './doubts.mjs';
import { button, byId, make } from './elements.mjs';

const ITEMS = 8;

const WORDS = {
  bridge: { true: 'It is meant', false: 'Close it' },
  open: { true: 'Keep it open', false: 'Leave it open' },
};

/** What there is to look at, each with its place and what can be done. */
export class DoubtList {
  #doubts = [];
  #shown = ITEMS;
  #on;

  /** `on.goTo(point)`, `on.decide(kind, gap)` and `on.leaks(conflict)`, which promises leaks. */
  constructor(on) {
    this.#on = on;
    byId('more-doubts').addEventListener('click', () => {
      const first = this.#shown;
      this.#shown += ITEMS;
      this.#draw();
      byId('doubts').children[first]?.querySelector('button')?.focus();
    });
  }

  show(told, plan) {
    this.#doubts = listDoubts(told, plan);
    const count = this.#doubts.length;
    const gaps = `${count === 1 ? 'One place wants' : `${count} places want`} a look.`;
    const nameless = told.unnamed.length === 0 ? '' : ` ${areasWithout(told.unnamed.length)}`;
    byId('doubt-words').textContent = (count === 0 ? 'Nothing is in doubt.' : gaps) + nameless;
    this.#draw();
  }

  #draw() {
    const list = byId('doubts');
    const place = [...list.children].indexOf(document.activeElement?.closest('#doubts > li'));
    const items = this.#doubts.slice(0, this.#shown);
    list.replaceChildren(...items.map((doubt, i) => this.#item(doubt, `doubt-${i}`)));
    byId('more-doubts').hidden = this.#doubts.length <= this.#shown;
    if (place < 0) return;
    const next = list.children[Math.min(place, items.length - 1)];
    next?.querySelector('button')?.focus({ preventScroll: true });
  }

  #item({ kind, text, at, gap, ways, conflict }, id) {
    const described = { 'aria-describedby': id };
    const isClosed = kind !== 'Open';
    const buttons = make('div', { className: 'buttons' });
    if (at) buttons.append(button('Go there', () => this.#on.goTo(at), described));
    for (const way of ways) {
      if (way === 'leaks') {
        const find = button(
          'Where do they meet?',
          () => this.#findLeaks(find, conflict),
          described,
        );
        buttons.append(find);
      } else {
        buttons.append(button(WORDS[way][isClosed], () => this.#on.decide(way, gap), described));
      }
    }
    const words = make('p', { id }, make('span', { className: 'kind' }, kind), ` ${text}`);
    return make('li', {}, words, buttons);
  }

  /** Puts the narrow places between two names in place of the question for them. */
  async #findLeaks(find, conflict) {
    const leaks = await this.#on.leaks(conflict);
    const found = leaks.slice(0, 4).map(({ bridge, width, at }) => {
      const words = `${Math.max(1, Math.round(width))} px wide`;
      return [
        button(`See the place ${words}`, () => this.#on.goTo(at)),
        button(`Close the place ${words}`, () => this.#on.decide('bridge', bridge)),
      ];
    });
    const none = make('span', {}, 'Nowhere is it narrow: set an outline.');
    const buttons = found.length === 0 ? [none] : found.flat();
    find.replaceWith(...buttons);
    buttons[0].focus?.();
  }
}

function areasWithout(count) {
  return count === 1 ? 'One area has no name yet.' : `${count} areas have no name yet.`;
}
