// @ts-check
/** Quantities and findings in words. */

/** A stretch of time as one would say it: "48 s", "12 min 30 s", "3 h 05 min". @param {number} seconds */
export function time(seconds) {
  const whole = Math.round(Math.abs(seconds));
  const two = (/** @type {number} */ n) => String(n).padStart(2, '0');
  if (whole < 60) return `${whole} s`;
  if (whole < 3600) return `${Math.floor(whole / 60)} min ${two(whole % 60)} s`;
  return `${Math.floor(whole / 3600)} h ${two(Math.floor((whole % 3600) / 60))} min`;
}

/** @param {number} seconds one standard deviation */
export const plusMinus = seconds => `± ${time(seconds)}`;

/** @param {number} share 0 to 1 */
export const percent = share => `${Math.round(100 * share)} %`;

/** How many of a plan's unit make one of the user's, and its name. @type {Record<string, [number, string]>} */
const Imperial = { m: [0.3048, 'ft'], km: [1.609344, 'mi'], cm: [2.54, 'in'] };
let isImperial = false;

/** @param {string} name metric or imperial, for everything said from now on */
export const setUnits = name => { isImperial = name === 'imperial'; };

/** @param {string} unit of a plan @returns {[number, string]} */
export const unitFor = unit => (isImperial && Imperial[unit]) || [1, unit];

/** @param {number} value @param {'m' | 'km' | 'cm'} unit @param {number} digits */
function length(value, unit, digits) {
  const [one, name] = unitFor(unit);
  return `${(value / one).toFixed(digits)} ${name}`;
}

/** @param {number} metres */
export const distance = metres => (metres < (isImperial ? 1000 : 10_000) ? height(metres) : length(metres / 1000, 'km', 1));

/** @param {number} metres @param {number} [digits] */
export const height = (metres, digits = 0) => length(metres, 'm', digits);

/** @param {number} millimetres */
export const centimetres = millimetres => length(millimetres / 10, 'cm', isImperial ? 1 : 0);

/** A sentence of the service with its lengths in the user's units; whole metres become feet by fives, which are no finer. @param {string} text */
export const sentence = text => (isImperial ? text.replace(/(\d+(?:\.\d+)?)(?: to (\d+(?:\.\d+)?))? (km|m|cm)\b/g, (_, low, high, unit) =>
  (high === undefined ? converted(low, unit) : `${converted(low, unit).split(' ')[0]} to ${converted(high, unit)}`)) : text);

/** @param {string} value of a sentence @param {'m' | 'km' | 'cm'} unit */
function converted(value, unit) {
  const step = unit === 'm' && Number(value) >= 100 ? 5 * Imperial.m[0] : Number(value) || 1;
  return length(step * Math.round(Number(value) / step), unit, value.includes('.') ? 1 : 0);
}

/** What the service says in both systems of units: the one that the user has chosen. @template T @param {T} metric @param {T} imperial */
export const inUnits = (metric, imperial) => (isImperial ? imperial ?? metric : metric);

/** @param {number} number of pixels */
export const pixels = number => Math.floor(number).toLocaleString('en-GB').replaceAll(',', '\u202f');

/** @param {number} latitudeDeg @param {number} longitudeDeg */
export function place(latitudeDeg, longitudeDeg) {
  return `${Math.abs(latitudeDeg).toFixed(4)}° ${latitudeDeg < 0 ? 'S' : 'N'}, ${Math.abs(longitudeDeg).toFixed(4)}° ${longitudeDeg < 0 ? 'W' : 'E'}`;
}

/** @param {number} degrees */
export const degrees = degrees => `${degrees < 0 ? '−' : ''}${Math.abs(degrees).toFixed(1)}°`;

/** Why an exposure misses its light. @type {Record<string, string>} */
export const Problems = {
  ridgeNeverLit: 'the sun never reaches its ridge in this window',
  ridgeNotYetLit: 'the sun has not reached its ridge yet',
  ridgeNoLongerLit: 'the sun has left its ridge',
  valleyNotYetShaded: 'the valley is not in shade yet',
  valleyLit: 'the sun has reached the valley',
};

/** @type {Record<string, string>} */
export const Directions = {
  front: 'front light, the sun behind the camera', side: 'side light', back: 'back light, the sun before the camera',
};

/** Lit against shaded ground. @type {Record<string, string>} */
export const BlackPoints = { has: 'a black point', weak: 'a weak black point', none: 'no black point' };

/** How the ridge reads. @type {Record<string, string>} */
export const Reliefs = { flat: 'flat', modelled: 'well modelled', dark: 'mostly dark' };

/** @param {number} count */
export function stops(count) {
  return count === 1 ? 'a stop' : `${+count.toPrecision(2)} stops`;
}

/** How far off field notes found forecasts. @param {{ count: number, bias: number, spread: number | null }} deviation in seconds, positive where the light was later */
export function deviation({ count, bias, spread }) {
  const off = Math.round(bias) === 0 ? 'as forecast' : `${time(bias)} ${bias > 0 ? 'later' : 'earlier'} than forecast`;
  return `${off}${spread === null ? '' : ` ${plusMinus(spread)}`} (${count} ${count === 1 ? 'note' : 'notes'})`;
}

/** A chance as one would say it. @param {number} chance 0 to 1 */
export function chance(chance) {
  if (chance < 0.01) return 'hardly ever whole';
  if (chance < 0.05) return '1 in 50';
  if (chance < 0.095) return '1 in 20';
  if (chance >= 0.985) return '99 in 100';
  if (chance >= 0.95) return '19 in 20';
  return `${Math.round(10 * chance)} in 10`;
}

/** Room before or after a start. @param {number} seconds negative where there is none @param {number} uncertaintyS */
export const room = (seconds, uncertaintyS) => `${seconds < 0 ? '−' : ''}${time(seconds)} (${plusMinus(uncertaintyS)})`;

/** The verdict in a word, and the sentence of the answer. @param {any} fit @param {string | null} whyNone @returns {[string, string]} */
export function verdict(fit, whyNone) {
  switch (fit?.verdict) {
    case 'fits': return ['It fits', fit.sentence];
    case 'tight': return ['It is tight', fit.sentence];
    // Of a start that the plan gives, where others would do.
    case 'tooLong': return [fit.chosenBecause === 'given' && fit.earliestStart ? 'Not from this start' : 'It does not fit', fit.sentence];
    default: return ['No light', whyNone ?? 'There is no window on this date.'];
  }
}

/** @param {{ exposure: import('./stair.js').Exposure, frame: number }} step */
export function exposure({ exposure, frame }) {
  const kind = exposure.spare ? 'spare frame' : 'frame';
  return `${kind} ${frame} of set ${exposure.set} (row ${exposure.row}, column ${exposure.column}, ${exposure.bearingDeg.toFixed(1)}°)`;
}
