// @ts-check
/** The form: a few fields of the plan, and the whole of it as text. */
import { html } from '../draw/elements.js';
import { Fields, typed, valueAt, withValue } from '../think/plan.js';

export class PlanForm {
  /** @param {HTMLElement} place @param {(planJson: string) => void} onAsk */
  constructor(place, onAsk) {
    /** @type {any} */
    this.plan = {};
    this.inputs = new Map(Fields.map(field => [field.path, inputFor(field)]));
    this.text = /** @type {HTMLTextAreaElement} */ (html('textarea', { id: 'plan-text', rows: '14', spellcheck: 'false', 'aria-describedby': 'plan-text-fault' }));
    const fields = html('form', { class: 'fields', novalidate: '' },
      ...Fields.map(field => row(field, /** @type {HTMLInputElement} */ (this.inputs.get(field.path)))),
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
    for (const [path, input] of this.inputs) input.value = String(valueAt(plan, path) ?? '');
  }

  /** Puts faults beside their fields. @param {Record<string, string[]>} faults
   * @returns {[string, string[]][]} those that have no field here */
  showFaults(faults) {
    for (const [path, input] of this.inputs) {
      const messages = faults[path] ?? [];
      input.setAttribute('aria-invalid', String(messages.length > 0));
      /** @type {HTMLElement} */ (document.getElementById(`${input.id}-fault`)).textContent = messages.join(' ');
    }
    [...this.inputs.values()].find(input => input.getAttribute('aria-invalid') === 'true')?.focus();
    const others = Object.entries(faults).filter(([path]) => !this.inputs.has(path));
    if (others.length > 0) this.details.open = true;
    return others;
  }

  edited() {
    return Fields.reduce((plan, field) => withValue(plan, field.path, typed(/** @type {HTMLInputElement} */ (this.inputs.get(field.path)).value, field)), this.plan);
  }
}

/** @param {import('../think/plan.js').Field} field */
function inputFor(field) {
  const id = `plan-${field.path.replace('.', '-')}`;
  // Text rather than number: what is no number must reach the service, which says what would be right.
  /** @type {Record<string, string>} */
  const kind = field.kind === 'date' ? { type: 'date' } : { type: 'text', inputmode: 'decimal', autocomplete: 'off' };
  return /** @type {HTMLInputElement} */ (html('input', { id, ...kind, 'aria-describedby': `${id}-fault` }));
}

/** @param {import('../think/plan.js').Field} field @param {HTMLInputElement} input */
function row(field, input) {
  const note = [field.unit, field.hint].filter(Boolean).join(', ');
  return html('div', { class: 'field' }, html('label', { for: input.id }, field.label), input,
    html('span', { class: 'unit' }, note), html('p', { class: 'fault', id: `${input.id}-fault` }));
}
