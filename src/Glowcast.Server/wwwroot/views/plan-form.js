// @ts-check
/** The form: the fields of the plan, and the whole of it as text. */
import { html } from '../draw/elements.js';
import { Groups, typed, valueAt, withValues, written } from '../think/plan.js';
import { unitFor } from '../think/say.js';
import { Fields } from './fields.js';

const OfPlan = Groups.flatMap(([, fields]) => fields);

export class PlanForm {
  /** @param {HTMLElement} place @param {(planJson: string) => void} onAsk */
  constructor(place, onAsk) {
    /** @type {any} */
    this.plan = {};
    /** What stood in each input before it was edited. @type {Map<string, string>} */
    this.shown = new Map();
    this.fields = new Fields('plan', OfPlan);
    this.text = /** @type {HTMLTextAreaElement} */ (html('textarea', { id: 'plan-text', rows: '14', spellcheck: 'false', 'aria-describedby': 'plan-text-fault' }));
    const form = html('form', { class: 'fields', novalidate: '' },
      ...Groups.flatMap(([name, members]) => {
        const rows = this.fields.rows(members);
        return name ? [html('details', {}, html('summary', {}, name), ...rows)] : rows;
      }),
      html('button', { type: 'submit' }, 'Work it out'));
    const whole = html('form', { class: 'whole' }, html('label', { for: 'plan-text' }, 'As JSON'), this.text,
      html('p', { class: 'fault', id: 'plan-text-fault' }), html('button', { type: 'submit' }, 'Work out this plan'));
    this.details = /** @type {HTMLDetailsElement} */ (html('details', {}, html('summary', {}, 'The whole plan'), whole));
    place.append(html('h3', {}, 'Change the plan'), form, this.details);
    form.addEventListener('submit', event => {
      event.preventDefault();
      onAsk(JSON.stringify(this.edited(), null, 2));
    });
    whole.addEventListener('submit', event => {
      event.preventDefault();
      onAsk(this.text.value);
    });
  }

  /** @param {any} plan */
  show(plan) {
    this.plan = plan;
    this.text.value = JSON.stringify(plan, null, 2);
    for (const field of OfPlan) {
      const [one, unit] = unitFor(field.unit ?? '');
      const value = valueAt(plan, field.path);
      const input = this.fields.inputOf(field);
      input.value = written(typeof value === 'number' && one !== 1 ? Math.round(100 * value / one) / 100 : value);
      this.shown.set(field.path, input.value);
      this.fields.setUnit(field, unit);
    }
  }

  /** Puts faults beside their fields. @param {Record<string, string[]>} faults
   * @returns {[string, string[]][]} those that have no field here */
  showFaults(faults) {
    const others = this.fields.showFaults(faults);
    if (others.length > 0) this.details.open = true;
    return others;
  }

  /** The plan with what was edited, and only that. */
  edited() {
    const edits = OfPlan.filter(field => this.fields.inputOf(field).value !== this.shown.get(field.path)).map(field => {
      const value = typed(this.fields.inputOf(field).value, field);
      return [field.path, typeof value === 'number' ? value * unitFor(field.unit ?? '')[0] : value];
    });
    return withValues(this.plan, Object.fromEntries(edits));
  }
}
