// @ts-check
/** The form: the fields of the plan, and the whole of it as text. */
import { html } from '../draw/elements.js';
import { Groups, typed, valueAt, withValues } from '../think/plan.js';
import { unitFor } from '../think/say.js';

/** @typedef {import('../think/plan.js').Field} Field */
/** @typedef {HTMLInputElement | HTMLSelectElement} Input */

const Fields = Groups.flatMap(([, fields]) => fields);

export class PlanForm {
  /** @param {HTMLElement} place @param {(planJson: string) => void} onAsk */
  constructor(place, onAsk) {
    /** @type {any} */
    this.plan = {};
    /** What stood in each input before it was edited. @type {Map<string, string>} */
    this.shown = new Map();
    this.inputs = new Map(Fields.map(field => [field.path, inputFor(field)]));
    this.units = new Map(Fields.map(field => [field.path, html('span', { class: 'unit' })]));
    this.text = /** @type {HTMLTextAreaElement} */ (html('textarea', { id: 'plan-text', rows: '14', spellcheck: 'false', 'aria-describedby': 'plan-text-fault' }));
    const fields = html('form', { class: 'fields', novalidate: '' },
      ...Groups.flatMap(([name, members]) => {
        const rows = members.map(field => this.row(field));
        return name ? [html('details', {}, html('summary', {}, name), ...rows)] : rows;
      }),
      html('button', { type: 'submit' }, 'Work it out'));
    const whole = html('form', { class: 'whole' }, html('label', { for: 'plan-text' }, 'As JSON'), this.text,
      html('p', { class: 'fault', id: 'plan-text-fault' }), html('button', { type: 'submit' }, 'Work out this plan'));
    this.details = /** @type {HTMLDetailsElement} */ (html('details', {}, html('summary', {}, 'The whole plan'), whole));
    place.append(html('h3', {}, 'Change the plan'), fields, this.details);
    fields.addEventListener('submit', event => {
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
    for (const field of Fields) {
      const [one, unit] = unitFor(field.unit ?? '');
      const value = valueAt(plan, field.path);
      const input = this.inputOf(field);
      input.value = String((typeof value === 'number' && one !== 1 ? Math.round(100 * value / one) / 100 : value) ?? '');
      this.shown.set(field.path, input.value);
      /** @type {HTMLElement} */ (this.units.get(field.path)).textContent = [unit, field.hint].filter(Boolean).join(', ');
    }
  }

  /** Puts faults beside their fields. @param {Record<string, string[]>} faults
   * @returns {[string, string[]][]} those that have no field here */
  showFaults(faults) {
    for (const [path, input] of this.inputs) {
      const messages = faults[path] ?? [];
      input.setAttribute('aria-invalid', String(messages.length > 0));
      if (messages.length > 0) input.closest('details')?.setAttribute('open', '');
      /** @type {HTMLElement} */ (document.getElementById(`${input.id}-fault`)).textContent = messages.join(' ');
    }
    [...this.inputs.values()].find(input => input.getAttribute('aria-invalid') === 'true')?.focus();
    const others = Object.entries(faults).filter(([path]) => !this.inputs.has(path));
    if (others.length > 0) this.details.open = true;
    return others;
  }

  /** The plan with what was edited, and only that. */
  edited() {
    const edits = Fields.filter(field => this.inputOf(field).value !== this.shown.get(field.path)).map(field => {
      const value = typed(this.inputOf(field).value, field);
      return [field.path, typeof value === 'number' ? value * unitFor(field.unit ?? '')[0] : value];
    });
    return withValues(this.plan, Object.fromEntries(edits));
  }

  /** @param {Field} field */
  inputOf({ path }) {
    return /** @type {Input} */ (this.inputs.get(path));
  }

  /** @param {Field} field */
  row(field) {
    const input = this.inputOf(field);
    return html('div', { class: 'field' }, html('label', { for: input.id }, field.label), input,
      this.units.get(field.path), html('p', { class: 'fault', id: `${input.id}-fault` }));
  }
}

/** @param {Field} field @returns {Input} */
function inputFor(field) {
  const id = `plan-${field.path.replace('.', '-')}`;
  const about = { id, 'aria-describedby': `${id}-fault` };
  if (field.kind === 'choice')
    return /** @type {Input} */ (html('select', about, ...Object.entries(field.choices ?? {}).map(([value, name]) => html('option', { value }, name))));
  // Text rather than number: what is no number must reach the service, which says what would be right.
  /** @type {Record<string, string>} */
  const kind = field.kind === 'date' ? { type: 'date' } : { type: 'text', autocomplete: 'off', ...(field.kind === 'number' ? { inputmode: 'decimal' } : {}) };
  return /** @type {Input} */ (html('input', { ...about, ...kind }));
}
