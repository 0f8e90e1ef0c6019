import { makeSvg } from './elements.mjs';

/** Least radius of an area's widest disc on the screen that has room for its number, in CSS pixels. */
const ROOM = 9;
/** Numbers shown at once, the largest areas first. */
const MOST_NUMBERS = 1500;

/** What is drawn over the sheet: numbers, gaps, the picked area, an outline, the marker. */
export class Overlay {
  svg = makeSvg('svg', { 'aria-hidden': 'true' });
  #groups = {};
  #areas = [];
  #bridges = [];
  #corners = [];
  #zoom = 1;

  constructor() {
    for (const name of ['gaps', 'picked', 'numbers', 'outline', 'marker']) {
      this.svg.append((this.#groups[name] = makeSvg('g')));
    }
    this.#groups.numbers.setAttribute('class', 'numbers');
  }

  resize([width, height]) {
    this.svg.setAttribute('viewBox', `0 0 ${width} ${height}`);
  }

  /** Marks of a size of their own keep it on the screen. */
  zoom(zoom) {
    this.#zoom = zoom;
    this.#drawNumbers();
    this.#drawGaps();
    this.#drawOutline();
  }

  numbers(areas) {
    this.#areas = [...areas].sort((a, b) => b.radius - a.radius).slice(0, MOST_NUMBERS);
    this.#drawNumbers();
  }

  gaps(bridges) {
    this.#bridges = bridges;
    this.#drawGaps();
  }

  show(name, isShown) {
    this.#groups[name].setAttribute('visibility', isShown ? 'visible' : 'hidden');
  }

  /** The rings of the picked area; none where no area is. */
  picked(rings) {
    const d = rings.map((ring) => `M${ring.join('L')}Z`).join('');
    this.#groups.picked.replaceChildren(
      makeSvg('path', { class: 'halo', d }),
      makeSvg('path', { class: 'outline-picked', d }),
    );
  }

  outline(corners) {
    this.#corners = corners;
    this.#drawOutline();
  }

  marker([x, y]) {
    const reach = 9 / this.#zoom;
    const d = `M${x - reach} ${y}h${2 * reach}M${x} ${y - reach}v${2 * reach}`;
    this.#groups.marker.replaceChildren(
      makeSvg('path', { class: 'marker-back', d }),
      makeSvg('path', { class: 'marker', d }),
    );
  }

  #drawNumbers() {
    const { numbers } = this.#groups;
    const zoom = this.#zoom;
    numbers.setAttribute('font-size', 13 / zoom);
    const roomy = this.#areas.filter(({ radius }) => radius * zoom >= ROOM);
    numbers.replaceChildren(
      ...roomy.map(({ id, inside: [x, y] }) => makeSvg('text', { x, y }, String(id))),
    );
  }

  #drawGaps() {
    const drawn = this.#bridges.flatMap(({ from: [x1, y1], to: [x2, y2], ...bridge }) => {
      const line = makeSvg('line', { class: 'gap-closed', x1, y1, x2, y2 });
      const [cx, cy, r] = [(x1 + x2) / 2, (y1 + y2) / 2, Math.min(9 / this.#zoom, 30)];
      const ring = makeSvg('circle', { class: 'gap-doubtful', cx, cy, r });
      return [bridge.drawn && line, (bridge.doubtful || bridge.forced) && ring].filter(Boolean);
    });
    this.#groups.gaps.replaceChildren(...drawn);
  }

  #drawOutline() {
    const points = this.#corners.join(' ');
    const r = 4 / this.#zoom;
    this.#groups.outline.replaceChildren(
      makeSvg('polygon', { class: 'outline-set', points }),
      ...this.#corners.map(([cx, cy]) => makeSvg('circle', { class: 'outline-set', cx, cy, r })),
    );
  }
}
