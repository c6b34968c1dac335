// @ts-check
/** Fields of a form in rows: label, input, unit, and below them what is wrong. */
import { html } from '../draw/elements.js';
import { typed, withValues } from '../think/plan.js';

/** @typedef {import('../think/plan.js').Field} Field */
/** @typedef {HTMLInputElement | HTMLSelectElement} Input */

export class Fields {
  /** @param {string} form what the ids begin with @param {Field[]} fields */
  constructor(form, fields) {
    this.fields = fields;
    this.inputs = new Map(fields.map(field => [field.path, inputFor(form, field)]));
    this.units = new Map(fields.map(field => [field.path, html('span', { class: 'unit' }, unitOf(field.unit, field))]));
  }

  /** @param {Field} field */
  inputOf({ path }) {
    return /** @type {Input} */ (this.inputs.get(path));
  }

  /** @param {Field} field @param {string} unit instead of its own */
  setUnit(field, unit) {
    /** @type {HTMLElement} */ (this.units.get(field.path)).textContent = unitOf(unit, field);
  }

  /** @param {Field[]} fields */
  rows(fields = this.fields) {
    return fields.map(field => {
      const input = this.inputOf(field);
      return html('div', { class: 'field' }, html('label', { for: input.id }, field.label), input, this.units.get(field.path), html('p', { class: 'fault', id: `${input.id}-fault` }));
    });
  }

  /** A copy of an object with what was typed, where something was. @param {any} object */
  into(object) {
    const values = this.fields.map(field => [field.path, typed(this.inputOf(field).value, field)]);
    return withValues(object, Object.fromEntries(values.filter(([, value]) => value !== null)));
  }

  /** Puts faults beside their inputs, and the keys into the first of them. @param {Record<string, string[]>} faults
   * @returns {[string, string[]][]} those that have no input here */
  showFaults(faults) {
    for (const [path, input] of this.inputs) {
      const messages = faults[path] ?? [];
      input.setAttribute('aria-invalid', String(messages.length > 0));
      if (messages.length > 0) input.closest('details')?.setAttribute('open', '');
      /** @type {HTMLElement} */ (document.getElementById(`${input.id}-fault`)).textContent = messages.join(' ');
    }
    [...this.inputs.values()].find(input => input.getAttribute('aria-invalid') === 'true')?.focus();
    return Object.entries(faults).filter(([path]) => !this.inputs.has(path));
  }
}

/** @param {string | undefined} unit @param {Field} field */
const unitOf = (unit, { hint }) => [unit, hint].filter(Boolean).join(', ');

/** @param {string} form @param {Field} field @returns {Input} */
function inputFor(form, field) {
  const id = `${form}-${field.path.replace('.', '-')}`;
  const about = { id, 'aria-describedby': `${id}-fault` };
  if (field.kind === 'choice')
    return /** @type {Input} */ (html('select', about, ...Object.entries(field.choices ?? {}).map(([value, name]) => html('option', { value }, name))));
  // Text rather than number: what is no number must reach the service, which says what would be right.
  /** @type {Record<string, string>} */
  const kind = field.kind === 'date' ? { type: 'date' } : { type: 'text', autocomplete: 'off', ...(field.kind === 'number' ? { inputmode: 'decimal' } : {}) };
  return /** @type {Input} */ (html('input', { ...about, ...kind }));
}
