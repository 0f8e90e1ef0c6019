import { byId } from './elements.mjs';
import { changeSettings } from './plan-edits.mjs';

/** The settings of gaps and crumbs; `change(plan, kind)` is called with the plan that they make. */
export class GapFields {
  constructor(session) {
    const gap = byId('gap');
    const lay = (settings, kind) => session.change(changeSettings(session.plan, settings), kind);
    gap.addEventListener('input', () => {
      byId('gap-auto').checked = false;
      this.#word();
      lay({ maxGap: Number(gap.value) }, 'gap');
    });
    byId('gap-auto').addEventListener('change', ({ target }) => {
      this.#word();
      lay({ maxGap: target.checked ? undefined : Number(gap.value) });
    });
    byId('crumbs').addEventListener('change', ({ target }) => {
      if (target.reportValidity()) lay({ absorb: Number(target.value) });
    });
  }

  /** What a plan has set. */
  show({ settings: { maxGap = 'auto', absorb = 0 } = {} }) {
    byId('gap-auto').checked = maxGap === 'auto';
    if (maxGap !== 'auto') byId('gap').value = maxGap;
    if (document.activeElement !== byId('crumbs')) byId('crumbs').value = absorb;
    this.#word();
  }

  #word() {
    const { value } = byId('gap');
    const length = value === '0' ? 'none' : `${value} px`;
    byId('gap-words').textContent = byId('gap-auto').checked ? 'as suits' : length;
  }
}
