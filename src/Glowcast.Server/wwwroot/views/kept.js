// @ts-check
/** What is kept: plans, by the service and by this browser, and lookouts and gear, by the service. Keep, open or use again, forget. */
import { button, html } from '../draw/elements.js';
import * as kept from '../kept.js';
import * as service from '../api.js';

/** @typedef {{ kind: string, name: string, savedAt: number, open: () => void }} Entry */

/** Kinds of things: what one is called, and what of a plan it holds. @type {Record<string, [string, (plan: any) => Record<string, any>]>} */
const Kinds = {
  plans: ['plan', plan => ({ plan })],
  lookouts: ['lookout', ({ lookout }) => ({ lookout })],
  gear: ['gear', ({ camera, lens, set }) => ({ gear: { camera, lens, set } })],
};

export class Kept {
  /** @param {HTMLElement} place @param {{ current: () => { planJson: string, startS: number | null, answer: any }, onOpen: (plan: kept.Kept) => void,
   * onUse: (edits: Record<string, unknown>) => void }} does what it keeps, opens, and lays into the plan that is shown */
  constructor(place, does) {
    this.does = does;
    this.list = html('ul', { class: 'kept' });
    this.said = html('p', { role: 'status' });
    this.kind = /** @type {HTMLSelectElement} */ (html('select', { id: 'keep-kind' }, ...Object.entries(Kinds).map(([kind, [word]]) => html('option', { value: kind }, `this ${word}`))));
    this.name = /** @type {HTMLInputElement} */ (html('input', { type: 'text', id: 'keep-name', maxlength: '60', required: '', autocomplete: 'off' }));
    const form = html('form', { class: 'keep' }, html('label', { for: 'keep-kind' }, 'Keep'), this.kind, html('label', { for: 'keep-name' }, 'as'), this.name, html('button', { type: 'submit' }, 'Keep'));
    form.addEventListener('submit', event => {
      event.preventDefault();
      this.keep(this.kind.value, this.name.value.trim());
    });
    place.append(html('h3', {}, 'Kept'), html('p', { class: 'quiet' }, 'By the service; plans in this browser too, with the forecast: they open again without a network.'), form, this.said, this.list);
  }

  /** @param {string} kind @param {string} name */
  async keep(kind, name) {
    const plan = this.does.current();
    if (kind === 'plans') await kept.keep({ ...plan, name, savedAt: Date.now() });
    try {
      await service.keep(kind, name, Kinds[kind][1](JSON.parse(plan.planJson)));
      this.said.textContent = `${name}: kept.`;
    } catch (error) {
      const faults = error instanceof service.Refusal ? Object.values(error.faults).flat() : [];
      this.said.textContent = `${name}: ${kind === 'plans' ? 'kept by this browser only' : 'not kept'}. ${faults.join(' ') || /** @type {Error} */ (error).message}`;
    }
    this.name.value = '';
    this.show();
  }

  async show() {
    const here = (await kept.all()).filter(plan => plan.name);
    /** @type {Entry[]} */
    const entries = here.map(plan => ({ kind: 'plans', name: plan.name, savedAt: plan.savedAt, open: () => this.does.onOpen(plan) }));
    for (const kind of Object.keys(Kinds)) {
      for (const { name, changed, plan, lookout, gear } of await service.kept(kind).catch(() => [])) {
        const savedAt = Date.parse(changed);
        const open = () => (plan ? this.does.onOpen({ name, planJson: JSON.stringify(plan), startS: null, savedAt, answer: null }) : this.does.onUse(gear ?? { lookout }));
        if (!plan || !here.some(other => other.name === name)) entries.push({ kind, name, savedAt, open });
      }
    }
    this.list.replaceChildren(...entries.sort((a, b) => b.savedAt - a.savedAt).map(entry => this.row(entry)));
  }

  /** @param {Entry} entry */
  row({ kind, name, savedAt, open }) {
    const [word] = Kinds[kind];
    return html('li', {}, button(name, open, `${kind === 'plans' ? 'Open the' : 'Use the'} ${word} ${name}`),
      html('span', { class: 'quiet' }, `${word}, ${new Date(savedAt).toLocaleDateString('en-GB', { dateStyle: 'medium' })}`),
      button('Forget', async () => {
        if (kind === 'plans') await kept.forget(name);
        await service.forget(kind, name).catch(console.warn);
        this.show();
      }, `Forget the ${word} ${name}`));
  }
}
