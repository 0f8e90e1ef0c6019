import { make } from './elements.mjs';
import { Overlay } from './overlay.mjs';

/** CSS pixels that an arrow key moves the marker by. */
const STRIDE = 12;
const CLOSER = 1.5;
/** CSS pixels a pixel of the drawing has at most, and those from which its pixels show as squares. */
const CLOSEST = 16;
const SQUARES = 2;

/**
 * The drawing in a window that scrolls: `act` is called with the point that a click or Enter is on,
 * `moved` with that of the marker when a key has moved it.
 */
export class SheetView {
  overlay = new Overlay();
  #window;
  #paper;
  #canvas = make('canvas');
  #size = [1, 1];
  #zoom = 1;
  #isWhole = false;
  #marker = [0.5, 0.5];
  #on;

  constructor(window, paper, on) {
    this.#window = window;
    this.#paper = paper;
    this.#on = on;
    // It takes keys, as its role `application` says.
    window.tabIndex = 0;
    paper.append(this.#canvas, this.overlay.svg);
    paper.addEventListener('click', (event) => this.#act(this.#pointAt(event)));
    window.addEventListener('keydown', (event) => this.#press(event));
    new ResizeObserver(() => this.#isWhole && this.whole()).observe(window);
  }

  open(size, picture) {
    this.#size = size;
    [this.#canvas.width, this.#canvas.height] = size;
    this.overlay.resize(size);
    this.paint(picture);
    this.#marker = size.map((side) => Math.floor(side / 2) + 0.5);
    this.whole();
  }

  /** Paints a part of the sheet. */
  paint(picture) {
    if (!picture) return;
    const { data, bounds } = picture;
    const image = new ImageData(data, bounds[2] - bounds[0]);
    this.#canvas.getContext('2d').putImageData(image, bounds[0], bounds[1]);
  }

  /** The whole drawing, as large as the window may be. */
  whole() {
    if (this.#window.clientWidth === 0) return;
    const [width, height] = this.#size;
    const { maxHeight } = getComputedStyle(this.#window);
    const room = Number.parseFloat(maxHeight) - 4;
    this.#isWhole = true;
    this.#setZoom(Math.min(this.#window.clientWidth / width, room / height, SQUARES));
  }

  closer() {
    this.#zoomAbout(this.#zoom * CLOSER);
  }

  further() {
    this.#zoomAbout(this.#zoom / CLOSER);
  }

  /** Brings a point to the middle of the window, no smaller than the drawing is. */
  goTo(point) {
    this.#marker = point.map((value) => Math.floor(value) + 0.5);
    this.#zoomAbout(Math.max(1, this.#zoom));
    this.#window.scrollIntoView({ block: 'nearest' });
  }

  #zoomAbout(zoom) {
    this.#isWhole = false;
    this.#setZoom(Math.min(CLOSEST, Math.max(0.02, zoom)));
    const { clientWidth, clientHeight } = this.#window;
    const [x, y] = this.#marker;
    this.#window.scrollTo(x * this.#zoom - clientWidth / 2, y * this.#zoom - clientHeight / 2);
  }

  #setZoom(zoom) {
    const [width, height] = this.#size;
    this.#zoom = zoom;
    this.#paper.style.width = `${Math.floor(width * zoom)}px`;
    this.#paper.style.height = `${Math.floor(height * zoom)}px`;
    this.#paper.classList.toggle('near', zoom >= SQUARES);
    this.overlay.zoom(zoom);
    this.overlay.marker(this.#marker);
  }

  #pointAt({ clientX, clientY }) {
    const { left, top } = this.#paper.getBoundingClientRect();
    return [(clientX - left) / this.#zoom, (clientY - top) / this.#zoom];
  }

  #act(point) {
    this.#moveTo(point);
    this.#on.act(this.#marker);
  }

  /** The center of the pixel that is nearest to a point. */
  #moveTo(point) {
    const within = (value, side) => Math.min(side - 1, Math.max(0, Math.floor(value))) + 0.5;
    this.#marker = point.map((value, i) => within(value, this.#size[i]));
    this.overlay.marker(this.#marker);
  }

  #press(event) {
    if (event.ctrlKey || event.metaKey || event.altKey) return;
    const step = event.shiftKey ? 1 : Math.max(1, STRIDE / this.#zoom);
    const [x, y] = this.#marker;
    const keys = {
      ArrowLeft: () => this.#walk([x - step, y]),
      ArrowRight: () => this.#walk([x + step, y]),
      ArrowUp: () => this.#walk([x, y - step]),
      ArrowDown: () => this.#walk([x, y + step]),
      Enter: () => this.#act(this.#marker),
      '+': () => this.closer(),
      '=': () => this.closer(),
      '-': () => this.further(),
      Backspace: () => this.#on.takeBack(),
      Escape: () => this.#on.drop(),
    };
    if (!Object.hasOwn(keys, event.key)) return;
    event.preventDefault();
    keys[event.key]();
  }

  #walk(point) {
    this.#moveTo(point);
    const [x, y] = this.#marker.map((value) => value * this.#zoom);
    const { scrollLeft, scrollTop, clientWidth, clientHeight } = this.#window;
    const shift = (at, from, length) =>
      Math.min(0, at - 30 - from) + Math.max(0, at + 30 - from - length);
    this.#window.scrollBy(shift(x, scrollLeft, clientWidth), shift(y, scrollTop, clientHeight));
    this.#on.moved(this.#marker);
  }
}
