// @ts-check
/** Elevation grids and named summits of the user's own, dropped or chosen as files. */
import { html } from '../draw/elements.js';
import * as service from '../api.js';
import { Points, summitsOf } from '../think/summits.js';

// Of whatever else is dropped the content tells what it is.
const Grid = /\.(hgt|tiff?|dt[0-2]|asc|zip)$/i;

export class Grids {
  /** @param {HTMLElement} place @param {{ onGrid: (id: string) => void, onForget: (id: string) => void, onSounding: (text: string) => Promise<void>,
   * onSummits: (summits: import('../think/summits.js').Summit[]) => void }} does */
  constructor(place, does) {
    this.does = does;
    this.file = /** @type {HTMLInputElement} */ (html('input', { type: 'file', id: 'grid-file', multiple: '' }));
    this.said = html('div', { role: 'status' });
    this.list = html('ul', { class: 'kept' });
    const zone = html('div', { class: 'drop' },
      html('label', { for: 'grid-file' }, 'Drop files on the page, or choose them here: elevation grids (.hgt, GeoTIFF, DTED, Esri ASCII), named summits (GPX, GeoJSON), a sounding (text). '), this.file);
    this.file.addEventListener('change', () => this.take(this.file.files));
    // Wherever it falls: a browser would leave the page for a file that it is left with.
    for (const over of /** @type {const} */ (['dragover', 'drop'])) addEventListener(over, event => {
      if (!event.dataTransfer?.types.includes('Files')) return;
      event.preventDefault();
      if (over === 'drop') this.take(event.dataTransfer.files);
    });
    place.append(zone, this.said, this.list);
  }

  /** @param {FileList | null | undefined} files */
  async take(files) {
    for (const file of files ?? []) {
      const line = html('p', {}, file.name);
      this.said.append(line);
      let sounding = false;
      try {
        const text = Grid.test(file.name) ? '' : await file.text();
        if (Points.test(text)) {
          const summits = summitsOf(text);
          line.textContent = `${file.name}: ${summits.length} named ${summits.length === 1 ? 'point' : 'points'}.`;
          this.does.onSummits(summits);
        } else if (text) {
          sounding = true;
          const { likelihood } = await service.sounding(text);
          await this.does.onSounding(text);
          line.textContent = `${file.name}: a sounding; likelihood of a sea of cloud: ${likelihood}. It is laid under the plan.`;
        } else {
          const { id } = await service.sendGrid(file, share => { line.textContent = `${file.name}: ${Math.round(100 * share)} %`; });
          line.textContent = `${file.name}: taken in.`;
          this.does.onGrid(id);
        }
      } catch (error) {
        const faults = error instanceof service.Refusal ? Object.values(error.faults).flat() : [];
        line.className = 'missing';
        line.textContent = `${file.name} was refused${sounding ? ' as a sounding' : ''}: ${faults.join(' ') || /** @type {Error} */ (error).message}`;
      }
    }
    this.file.value = '';
  }

  /** @param {import('./map.js').Grid[]} grids @param {string[]} used by the plan */
  show(grids, used) {
    this.list.replaceChildren(...grids.map(({ id, grid }) => {
      const tick = /** @type {HTMLInputElement} */ (html('input', { type: 'checkbox' }));
      tick.checked = used.includes(id);
      tick.addEventListener('change', () => (tick.checked ? this.does.onGrid(id) : this.does.onForget(id)));
      return html('li', {}, html('label', {}, tick, ` ${grid.name}`));
    }));
  }
}
