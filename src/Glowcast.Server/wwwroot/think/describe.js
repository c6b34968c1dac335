// @ts-check
/** What the pictures show, in words: for those who hear the page, and for the line under a picture. */
import { msAt, ridgeShareAt, valleyShareAt } from './chart.js';
import { shownOf } from './forecast.js';
import { lightOfPatches } from './patches.js';
import { lightAt } from './patch-map.js';
import { degrees, distance, exposure, percent, Problems } from './say.js';

/** @typedef {import('./forecast.js').Forecast} Forecast */

/** @param {Forecast} forecast */
const spanText = ({ answer }) => `bearings ${degrees(answer.span.fromDeg)} to ${degrees(answer.span.toDeg)}`;

/** @param {Forecast} forecast @param {{ minute: number }} choice */
export function describeRidge(forecast, { minute }) {
  const { chart, clock } = forecast;
  if (!chart) return `The ridge over ${spanText(forecast)}, without sun.`;
  const seconds = minute * 60;
  const valley = valleyShareAt(chart, seconds);
  return `The ridge over ${spanText(forecast)} at ${clock.hm(msAt(chart, seconds))}: ${percent(ridgeShareAt(chart, seconds))} of it lit`
    + `${valley === null ? '' : `, ${percent(valley)} of the valley`}; sun at ${chart.sunAzimuthDeg[minute].toFixed(0)}°, ${degrees(chart.sunAltitudeDeg[minute])} high.`;
}

/** @param {Forecast} forecast @param {{ wholeDay: boolean }} choice */
export function describeLight(forecast, { wholeDay }) {
  const { chart, clock, windows } = forecast;
  if (!chart) return '';
  const shown = shownOf(forecast, wholeDay);
  const found = windows.map(window => `a window opens at ${window.startText}, ${window.startCause}, and ends at ${window.endText}, ${window.endCause}`);
  return `Light chart, ${spanText(forecast)} across, ${clock.hm(msAt(chart, shown.startS))} to ${clock.hm(msAt(chart, shown.endS))} down; ${found.join('; ') || 'no window'}. The same stands in the table below.`;
}

/** @param {Forecast} forecast @param {string} found */
export function describeSet(forecast, found) {
  return `The exposures of the set over ${spanText(forecast)}, enlarged in time. ${found}`;
}

/** @param {Forecast} forecast @param {ReturnType<typeof import('./stair.js').stairAt>} stair */
export function describeStair({ chart, clock }, stair) {
  if (!chart || stair.length === 0) return '';
  const at = (/** @type {number} */ seconds) => clock.hms(msAt(chart, seconds));
  const missing = stair.filter(step => step.problem);
  const done = `the last exposure closes at ${at(stair[stair.length - 1].closesS)}`;
  if (missing.length === 0) return `All ${stair.length} exposures have their light; ${done}.`;
  const [first] = missing;
  return `${missing.length} of ${stair.length} exposures miss their light; ${done}. First ${exposure(first)} at ${at(first.opensS)}: ${Problems[/** @type {string} */ (first.problem)]}.`;
}

/** What lies at a place of the picture.
 * @param {Forecast} forecast @param {{ minute: number }} choice @param {{ bearingDeg: number, altitudeDeg: number, pixel: number } | null} there */
export function readAt({ scene, chart }, { minute }, there) {
  if (!scene || !there) return '';
  const metres = scene.raster.distances[there.pixel];
  const direction = `${there.bearingDeg.toFixed(1)}°, ${degrees(there.altitudeDeg)} high`;
  if (!metres) return `${direction}: sky`;
  const i = scene.ground.pixels.indexOf(there.pixel);
  const light = chart && scene.map ? lightAt(scene.map, lightOfPatches(chart, scene.patches, minute), i) : 0;
  return `${direction}, ${distance(metres)} away: ${light > 0.75 ? 'lit' : light > 0.1 ? 'partly lit' : 'in shade'}`;
}
