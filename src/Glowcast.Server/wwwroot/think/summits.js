// @ts-check
/** Named points of the user's own: GPX waypoints and GeoJSON points. */

/** @typedef {{ name: string, latitudeDeg: number, longitudeDeg: number }} Summit */

/** What only files of points have. */
export const Points = /<gpx\b|"Feature/;

/** @param {string} text of a file @returns {Summit[]} those that have a name */
export function summitsOf(text) {
  const found = text.trimStart().startsWith('{') ? fromGeoJson(JSON.parse(text)) : fromGpx(text);
  return found.filter(summit => summit.name && Number.isFinite(summit.latitudeDeg) && Number.isFinite(summit.longitudeDeg));
}

/** @param {any} json @returns {Summit[]} */
function fromGeoJson(json) {
  return (json.features ?? [json]).filter((/** @type {any} */ feature) => feature.geometry?.type === 'Point').map((/** @type {any} */ feature) => ({
    name: String(feature.properties?.name ?? ''), longitudeDeg: feature.geometry.coordinates[0], latitudeDeg: feature.geometry.coordinates[1],
  }));
}

/** @param {string} text */
function fromGpx(text) {
  return [...new DOMParser().parseFromString(text, 'text/xml').querySelectorAll('wpt')].map(point => ({
    name: point.querySelector('name')?.textContent?.trim() ?? '', latitudeDeg: Number(point.getAttribute('lat')), longitudeDeg: Number(point.getAttribute('lon')),
  }));
}
