import { readKept, writeKept } from '../kept.mjs';
import { dropStep, planOf, redo, startHistory, step, undo } from './history.mjs';

/** Milliseconds after the last change at which the page is kept, which takes some tenths of a second. */
const REST = 800;

/**
 * A drawing with its plans. What happens is told by events, with their `detail` in brackets: `opened`
 * and `laid` (what is shown), `stepped` (the history), `areas` (their list), `working` (`{ stage, done }`,
 * or null once it ends), `trouble` (a sentence) and `kept` (whether all is).
 */
export class Session extends EventTarget {
  #client;
  #id;
  #history;
  #laid;
  #busy;
  #edits = Promise.resolve();
  #writing = Promise.resolve();
  #rest;

  constructor(client) {
    super();
    this.#client = client;
  }

  get isOpen() {
    return this.#history !== undefined;
  }

  get plan() {
    return planOf(this.#history);
  }

  get history() {
    return this.#history;
  }

  async open(file, name, plan) {
    await this.#busy;
    clearTimeout(this.#rest);
    try {
      const opening = this.#watch((tell) => this.#client.openFile(file, name, plan, tell));
      this.#busy = opening.catch(() => undefined);
      const shown = await opening;
      this.#begin(shown, startHistory(shown.plan));
    } catch (error) {
      this.#tell('trouble', `${name} can’t be opened: ${error.message}`);
      return;
    } finally {
      this.#busy = undefined;
    }
    await this.#listAreas();
    this.#keepHistory();
    await this.#keep();
  }

  /** Opens what the last visit has kept; false where that is nothing. */
  async restore() {
    const shown = await this.#watch(() => this.#client.restore());
    if (shown === null) return false;
    const kept = await readKept('history');
    const history = kept?.id === shown.id ? kept.history : startHistory(shown.plan);
    this.#begin(shown, history);
    await this.#listAreas();
    if (JSON.stringify(planOf(history)) !== JSON.stringify(shown.plan)) await this.#follow();
    else this.#tell('kept', true);
    return true;
  }

  /** Lays another plan. Steps of one `kind` that follow each other are undone at once. */
  change(plan, kind) {
    this.#history = step(this.#history, plan, kind);
    return this.#follow();
  }

  /**
   * Lays the plan that a function makes of the one that is laid; it may ask the worker. One after the
   * other; undefined changes nothing.
   */
  edit(makePlan) {
    this.#edits = this.#edits.then(async () => {
      await this.#busy;
      try {
        const plan = await makePlan(this.plan);
        if (plan !== undefined) await this.change(plan);
      } catch (error) {
        this.#tell('trouble', error.message);
      }
    });
    return this.#edits;
  }

  undo() {
    this.#history = undo(this.#history);
    return this.#follow();
  }

  redo() {
    this.#history = redo(this.#history);
    return this.#follow();
  }

  #begin(shown, history) {
    this.#id = shown.id;
    this.#history = history;
    this.#laid = shown.plan;
    this.#tell('opened', shown);
    this.#tell('stepped', history);
  }

  /** Brings the page to the plan that counts. A plan that is overtaken on its way is left. */
  async #follow() {
    this.#stepped();
    clearTimeout(this.#rest);
    if (this.#busy !== undefined) {
      this.#client.stop();
      return this.#busy;
    }
    this.#busy = this.#catchUp();
    await this.#busy;
    this.#busy = undefined;
    await this.#listAreas();
    this.#rest = setTimeout(() => this.#keep(), REST);
  }

  async #catchUp() {
    while (this.#laid !== this.plan) {
      const plan = this.plan;
      try {
        const said = await this.#watch((onProgress) => this.#client.update(plan, { onProgress }));
        this.#laid = plan;
        this.#tell('laid', said);
      } catch (error) {
        if (error.name === 'AbortError') continue;
        this.#history = dropStep(this.#history);
        this.#stepped();
        this.#tell('trouble', error.message);
      }
    }
  }

  #stepped() {
    this.#tell('stepped', this.#history);
    this.#tell('kept', false);
    this.#keepHistory();
  }

  /** Waits for the worker and tells its progress. */
  async #watch(ask) {
    this.#tell('working', { done: 0 });
    try {
      return await ask((progress) => this.#tell('working', progress));
    } finally {
      this.#tell('working', null);
    }
  }

  async #listAreas() {
    const areas = await this.#client.areas();
    if (this.#busy === undefined) this.#tell('areas', areas);
  }

  async #keep() {
    const history = this.#history;
    try {
      await this.#client.keep();
      await this.#writing;
      if (history === this.#history) this.#tell('kept', true);
    } catch (error) {
      this.#tell('trouble', `The sheet could not be kept in this browser: ${error.message}`);
    }
  }

  #keepHistory() {
    const record = { id: this.#id, history: this.#history };
    this.#writing = this.#writing
      .then(() => writeKept('history', record))
      .catch(({ message }) => this.#tell('trouble', `The plan could not be kept: ${message}`));
  }

  #tell(name, detail) {
    this.dispatchEvent(new CustomEvent(name, { detail }));
  }
}
