// @ts-check
/** What is taken along into the field, as files. */
import { button, html } from '../draw/elements.js';
import * as service from '../api.js';

const Kinds = { html: 'Field card', ics: 'Calendar', gpx: 'Waypoints (GPX)', kml: 'Waypoints (KML)', geojson: 'Waypoints (GeoJSON)', csv: 'Frames (CSV)', png: 'Picture' };

export class Along {
  /** @param {HTMLElement} place @param {() => any} plan */
  constructor(place, plan) {
    const said = html('p', { role: 'status' });
    place.append(html('h3', {}, 'Take it along'), html('div', { class: 'buttons' }, ...Object.entries(Kinds).map(([kind, name]) => button(name, async () => {
      said.textContent = `${name}: being made …`;
      try {
        save(await service.card(plan(), kind), `glowcast-${plan().date}.${kind}`);
        said.textContent = `${name}: saved.`;
      } catch (error) {
        said.textContent = `${name}: ${/** @type {Error} */ (error).message}`;
      }
    }))), said);
  }
}

/** @param {Blob} file @param {string} name */
function save(file, name) {
  const link = /** @type {HTMLAnchorElement} */ (html('a', { href: URL.createObjectURL(file), download: name }));
  link.click();
  URL.revokeObjectURL(link.href);
}
