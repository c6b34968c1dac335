// @ts-check
/** What stands above everything: undo, redo, the link, units, and the light of the page itself. */
import { button, html } from '../draw/elements.js';
import { setUnits } from '../think/say.js';

const Looks = { auto: 'as the system', light: 'light', dark: 'dark', red: 'red, for the night' };
const Units = { metric: 'metric', imperial: 'imperial' };

export class Bar {
  /** @param {HTMLElement} place @param {{ go: (step: -1 | 1) => void, onLook: () => void }} does */
  constructor(place, { go, onLook }) {
    this.undo = button('Undo', () => go(-1));
    this.redo = button('Redo', () => go(1));
    const link = button('Copy the link', async () => {
      await navigator.clipboard.writeText(location.href);
      said.textContent = 'Copied: it opens all of this again.';
    });
    const said = html('span', { role: 'status', class: 'quiet' });
    place.append(this.undo, this.redo, link, said,
      select('Units', 'units', Units, setUnits), select('Page', 'look', Looks, name => { document.documentElement.dataset.look = name; }));
    place.addEventListener('change', onLook);
    addEventListener('keydown', event => {
      if (!(event.ctrlKey || event.metaKey) || /** @type {Element} */ (event.target).matches('input[type=text], textarea')) return;
      const key = event.key.toLowerCase();
      const wanted = key === 'y' || (key === 'z' && event.shiftKey) ? this.redo : key === 'z' ? this.undo : null;
      if (wanted) event.preventDefault();
      wanted?.click();
    });
  }

  /** @param {{ canUndo: boolean, canRedo: boolean }} states */
  show({ canUndo, canRedo }) {
    this.undo.disabled = !canUndo;
    this.redo.disabled = !canRedo;
  }
}

/** A choice that this browser remembers. @param {string} label @param {string} id @param {Record<string, string>} names @param {(name: string) => void} use */
function select(label, id, names, use) {
  const made = /** @type {HTMLSelectElement} */ (html('select', { id }, ...Object.entries(names).map(([value, name]) => html('option', { value }, name))));
  made.value = localStorage.getItem(id) ?? Object.keys(names)[0];
  made.addEventListener('change', () => {
    localStorage.setItem(id, made.value);
    use(made.value);
  });
  use(made.value);
  return html('label', {}, `${label} `, made);
}
