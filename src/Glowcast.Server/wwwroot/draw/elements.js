// @ts-check
/** Elements of a page and of drawings, made without parsing text. */

const SvgNamespace = 'http://www.w3.org/2000/svg';

/** @param {string} name @param {Record<string, string | number>} [attributes] @param {...(Node | string)} children */
export function svg(name, attributes = {}, ...children) {
  const made = document.createElementNS(SvgNamespace, name);
  for (const [key, value] of Object.entries(attributes)) made.setAttribute(key, typeof value === 'number' ? String(Math.round(value * 100) / 100) : value);
  made.append(...children);
  return made;
}

/** A line of a drawing, or a shape with an outline. @param {string} kind of line, as the style has it @param {string} d */
export const path = (kind, d) => svg('path', { class: kind, d });

/** @param {string} name @param {Record<string, string>} [attributes] @param {...(Node | string | null | undefined | false)} children */
export function html(name, attributes = {}, ...children) {
  const made = document.createElement(name);
  for (const [key, value] of Object.entries(attributes)) made.setAttribute(key, value);
  made.append(.../** @type {(Node | string)[]} */ (children.filter(child => child)));
  return made;
}

/** @param {string} text @param {() => void} does @param {string} [label] for those who only hear it, where the text alone would not do */
export function button(text, does, label) {
  const made = /** @type {HTMLButtonElement} */ (html('button', { type: 'button', ...(label ? { 'aria-label': label } : {}) }, text));
  made.addEventListener('click', does);
  return made;
}
