// @ts-check
/** The plans kept in this browser: keep, open again, forget. */
import { html } from '../draw/elements.js';
import * as kept from '../kept.js';

export class KeptPlans {
  /** @param {HTMLElement} place @param {() => { planJson: string, startS: number | null, answer: any }} current @param {(plan: kept.Kept) => void} onOpen */
  constructor(place, current, onOpen) {
    this.onOpen = onOpen;
    this.list = html('ul', { class: 'kept' });
    const name = /** @type {HTMLInputElement} */ (html('input', { type: 'text', id: 'keep-name', maxlength: '60', required: '', autocomplete: 'off' }));
    const form = html('form', {}, html('label', { for: 'keep-name' }, 'Keep this plan as'), name, html('button', { type: 'submit' }, 'Keep'));
    form.addEventListener('submit', async event => {
      event.preventDefault();
      await kept.keep({ ...current(), name: name.value.trim(), savedAt: Date.now() });
      name.value = '';
      this.show();
    });
    place.append(html('h3', {}, 'Kept plans'), html('p', { class: 'quiet' }, 'In this browser, each with its forecast: they open again without a network.'), form, this.list);
  }

  async show() {
    const plans = (await kept.all()).filter(plan => plan.name).sort((a, b) => b.savedAt - a.savedAt);
    this.list.replaceChildren(...plans.map(plan => html('li', {},
      this.button(plan.name, `Open ${plan.name}`, () => this.onOpen(plan)),
      html('span', { class: 'quiet' }, new Date(plan.savedAt).toLocaleDateString('en-GB', { dateStyle: 'medium' })),
      this.button('Forget', `Forget ${plan.name}`, async () => { await kept.forget(plan.name); this.show(); }))));
  }

  /** @param {string} text @param {string} label @param {() => void} does */
  button(text, label, does) {
    const made = html('button', { type: 'button', 'aria-label': label }, text);
    made.addEventListener('click', does);
    return made;
  }
}
