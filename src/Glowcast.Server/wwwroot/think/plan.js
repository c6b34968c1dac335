// @ts-check
/** The fields of a plan that the form offers, and values at dotted paths. */

/** @typedef {{ path: string, label: string, unit?: string, hint?: string, kind: 'date' | 'number' | 'text' | 'choice', choices?: Record<string, string> }} Field */

/** @param {string} path @param {string} label @param {string} [unit] @param {string} [hint] @returns {Field} */
const number = (path, label, unit, hint) => ({ path, label, unit, hint, kind: 'number' });

/** @param {string} path @param {string} label @param {Record<string, string>} choices @returns {Field} */
const choice = (path, label, choices) => ({ path, label, kind: 'choice', choices: { '': 'as usual', ...choices } });

/** What is changed most, and under a name each what is changed seldom. @type {[string | null, Field[]][]} */
export const Groups = [
  [null, [
    { path: 'date', label: 'Date', kind: 'date' },
    number('lens.focalLengthMm', 'Focal length', 'mm'), number('set.rows', 'Rows', '', 'empty: as the span asks'),
    number('set.overlap', 'Overlap', 'of a frame'), number('set.repeats', 'Safety sets', '', 'after the first'),
    { path: 'set.startAt', label: 'Begin at', hint: '06:52, or morning +180: seconds after the light comes; empty: as advised', kind: 'text' },
    number('conditions.deckTopM', 'Top of the deck', 'm', 'empty: no cloud'), number('conditions.visibilityKm', 'Visibility', 'km'),
  ]],
  ['Lookout and span', [
    number('lookout.latitudeDeg', 'Latitude', '°'), number('lookout.longitudeDeg', 'Longitude', '°'), number('lookout.eyeHeightM', 'Lens above ground', 'm'),
    { path: 'lookout.timeZone', label: 'Time zone', hint: 'such as Europe/Zurich', kind: 'text' },
    number('span.fromDeg', 'Span from', '°', 'true bearing'), number('span.toDeg', 'Span to', '°', 'clockwise'), number('span.ridgeFromKm', 'Ridge from', 'km', 'away'),
    number('span.verticalDeg', 'Picture height', '°'),
  ]],
  ['Camera and lens', [
    number('lens.aperture', 'Aperture', 'f/'), number('camera.pixelsWide', 'Pixels wide'), number('camera.pixelsHigh', 'Pixels high'),
    number('camera.sensorWidthMm', 'Sensor width', 'mm'), number('camera.sensorHeightMm', 'Sensor height', 'mm'),
  ]],
  ['Frames, order and timings', [
    choice('set.orientation', 'Camera held', { portrait: 'portrait', landscape: 'landscape' }),
    number('set.rowOverlap', 'Overlap of rows', 'of a frame'), number('set.spareFrames', 'Spare frames', '', 'at each end'),
    choice('set.rowOrder', 'Rows', { oneWay: 'every row the same way', backAndForth: 'back and forth' }),
    choice('set.direction', 'Sweep', { leftToRight: 'left to right', rightToLeft: 'right to left' }),
    number('set.rotateS', 'Turn', 's'), number('set.settleS', 'Settle', 's'), number('set.exposureS', 'Expose', 's'), number('set.writeS', 'Write', 's'),
    number('set.rowChangeS', 'Change of row', 's'), number('set.printPpi', 'Print', 'ppi'),
  ]],
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

/** A copy with other values at some paths. @param {any} plan @param {Record<string, unknown>} edits @returns {any} */
export const withValues = (plan, edits) => Object.entries(edits).reduce((edited, [path, value]) => withValue(edited, path, value), plan);

/** A value as the form shows it. @param {any} value @returns {string} */
export const written = value => (value?.half ? `${value.half} ${value.afterOpensS < 0 ? '' : '+'}${value.afterOpensS}` : String(value ?? ''));

/** What somebody typed, as the plan has it: nothing is null, a number a number; what is neither stays as it is, for the
 * service to say what would be right. @param {string} text @param {Field} field */
export function typed(text, field) {
  const trimmed = text.trim();
  if (trimmed === '') return null;
  const inLight = /^(morning|evening) *([+-]\d+)$/.exec(trimmed);
  if (field.path === 'set.startAt' && inLight) return { half: inLight[1], afterOpensS: Number(inLight[2]) };
  const number = Number(trimmed.replace(',', '.'));
  return field.kind === 'number' && Number.isFinite(number) ? number : trimmed;
}

/** Whether it names what a forecast cannot do without. @param {any} plan */
export const isWhole = plan => plan.grids?.length > 0
  && ['lookout.latitudeDeg', 'lookout.longitudeDeg', 'span.fromDeg', 'span.toDeg', 'date', 'lens.focalLengthMm'].every(path => (valueAt(plan, path) ?? '') !== '');

const DayMs = 86_400_000;

/** A plan to begin with where the service has none: tomorrow, with a common camera. @param {string[]} grids */
export function emptyPlan(grids) {
  return {
    lookout: { latitudeDeg: null, longitudeDeg: null, eyeHeightM: 1.7, timeZone: Intl.DateTimeFormat().resolvedOptions().timeZone }, grids,
    date: new Date(Date.now() + DayMs).toISOString().slice(0, 10), span: { fromDeg: null, toDeg: null, ridgeFromKm: 5, verticalDeg: 12 },
    camera: { sensorWidthMm: 36, sensorHeightMm: 24, pixelsWide: 6000, pixelsHigh: 4000 }, lens: { focalLengthMm: 135, aperture: 8 },
    set: { rows: null, overlap: 0.4, repeats: 1 }, conditions: { visibilityKm: 80 },
  };
}
