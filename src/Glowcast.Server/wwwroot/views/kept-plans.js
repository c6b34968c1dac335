// @ts-check
/** The plans kept by this browser and by the service: keep, open again, take over the lookout or the gear alone, forget. */
import { html } from '../draw/elements.js';
import * as kept from '../kept.js';
import * as service from '../api.js';

const Parts = { lookout: ['lookout', 'grids'], gear: ['camera', 'lens', 'set'] };

export class KeptPlans {
  /** @param {HTMLElement} place @param {() => { planJson: string, startS: number | null, answer: any }} current @param {(plan: kept.Kept) => void} onOpen
   * @param {(edits: Record<string, unknown>) => void} onTake parts of a plan */
  constructor(place, current, onOpen, onTake) {
    this.onOpen = onOpen;
    this.onTake = onTake;
    this.list = html('ul', { class: 'kept' });
    const name = /** @type {HTMLInputElement} */ (html('input', { type: 'text', id: 'keep-name', maxlength: '60', required: '', autocomplete: 'off' }));
    const form = html('form', {}, html('label', { for: 'keep-name' }, 'Keep this plan as'), name, html('button', { type: 'submit' }, 'Keep'));
    form.addEventListener('submit', async event => {
      event.preventDefault();
      const plan = { ...current(), name: name.value.trim(), savedAt: Date.now() };
      await kept.keep(plan);
      await service.keepPlan(plan.name, JSON.parse(plan.planJson)).catch(console.warn);
      name.value = '';
      this.show();
    });
    place.append(html('h3', {}, 'Kept plans'), html('p', { class: 'quiet' }, 'By the service, and in this browser with the forecast: here they open again without a network.'), form, this.list);
  }

  async show() {
    const here = (await kept.all()).filter(plan => plan.name);
    const there = (await service.plans().catch(() => [])).filter(({ name }) => !here.some(plan => plan.name === name))
      .map(({ name, plan, changed }) => ({ name, planJson: JSON.stringify(plan), startS: null, savedAt: Date.parse(changed), answer: null }));
    const plans = [...here, ...there].sort((a, b) => b.savedAt - a.savedAt);
    this.list.replaceChildren(...plans.map(plan => html('li', {},
      this.button(plan.name, `Open ${plan.name}`, () => this.onOpen(plan)),
      html('span', { class: 'quiet' }, new Date(plan.savedAt).toLocaleDateString('en-GB', { dateStyle: 'medium' })),
      ...Object.entries(Parts).map(([part, fields]) => this.button(`Its ${part}`, `Its ${part}: ${plan.name}`, () => {
        const from = JSON.parse(plan.planJson);
        this.onTake(Object.fromEntries(fields.filter(field => field in from).map(field => [field, from[field]])));
      })),
      this.button('Forget', `Forget ${plan.name}`, async () => {
        await kept.forget(plan.name);
        await service.forgetPlan(plan.name).catch(console.warn);
        this.show();
      }))));
  }

  /** @param {string} text @param {string} label @param {() => void} does */
  button(text, label, does) {
    const made = html('button', { type: 'button', 'aria-label': label }, text);
    made.addEventListener('click', does);
    return made;
  }
}
