// @ts-check
/** The fields of a plan that the form offers, and values at dotted paths. */

/** @typedef {{ path: string, label: string, unit?: string, hint?: string, kind: 'date' | 'number' }} Field */

/** @type {Field[]} */
export const Fields = [
  { path: 'date', label: 'Date', kind: 'date' },
  { path: 'lens.focalLengthMm', label: 'Focal length', unit: 'mm', kind: 'number' },
  { path: 'set.rows', label: 'Rows', hint: 'empty: as the span asks', kind: 'number' },
  { path: 'set.overlap', label: 'Overlap', unit: 'of a frame', kind: 'number' },
  { path: 'set.repeats', label: 'Safety sets', hint: 'after the first', kind: 'number' },
];

/** @param {any} plan @param {string} path */
export function valueAt(plan, path) {
  return path.split('.').reduce((part, name) => part?.[name], plan);
}

/** A copy of the plan with another value at a path. @param {any} plan @param {string} path @param {unknown} value @returns {any} */
export function withValue(plan, path, value) {
  const [name, ...rest] = path.split('.');
  const object = plan !== null && typeof plan === 'object' ? plan : {};
  return { ...object, [name]: rest.length > 0 ? withValue(object[name], rest.join('.'), value) : value };
}

/** What somebody typed, as the plan has it: nothing is null, a number a number; what is neither stays as it is, for the
 * service to say what would be right. @param {string} text @param {Field} field */
export function typed(text, field) {
  const trimmed = text.trim();
  if (trimmed === '') return null;
  const number = Number(trimmed.replace(',', '.'));
  return field.kind === 'number' && Number.isFinite(number) ? number : trimmed;
}

/** A plan to begin with where the service has none. @param {string[]} grids */
export function emptyPlan(grids) {
  return {
    lookout: { latitudeDeg: null, longitudeDeg: null, eyeHeightM: 1.7, timeZone: null }, grids, date: null,
    span: { fromDeg: null, toDeg: null, ridgeFromKm: 5, verticalDeg: 12 },
    camera: { sensorWidthMm: 36, sensorHeightMm: 24, pixelsWide: null, pixelsHigh: null }, lens: { focalLengthMm: null, aperture: 8 },
    set: { rows: null, overlap: 0.4, repeats: 1 }, conditions: { visibilityKm: 80 },
  };
}
