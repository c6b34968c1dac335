// @ts-check
/** A forecast as the page works with it. */
import { chartOf, secondsAt } from './chart.js';
import { localClock } from './clock.js';
import { normalsOf, rasterOf } from './ground.js';
import { deckTest, groundOf } from './painter.js';
import { patchMapOf } from './patch-map.js';
import { patchesOf } from './patches.js';
import { windowFor } from './stair.js';
import { stretchesOf } from './stretches.js';
import { plusMinus } from './say.js';

/** @typedef {ReturnType<typeof forecastOf>} Forecast */

/** @param {any} answer of the service */
export function forecastOf(answer) {
  const clock = localClock(answer.timeZone, answer.lookout.longitudeDeg);
  const chart = answer.chart ? chartOf(answer.chart, answer.assumed) : null;
  const windows = chart ? answer.windows.map((/** @type {any} */ window) => windowOf(window, chart, clock)) : [];
  const start = answer.fit?.chosenStart;
  return {
    answer, clock, chart, windows: /** @type {ReturnType<typeof windowOf>[]} */ (windows),
    span: { fromDeg: answer.span.fromDeg, widthDeg: widthOf(answer.span) },
    scene: answer.picture ? sceneOf(answer, chart) : null,
    set: answer.set, framesLight: /** @type {import('./stair.js').FrameLight[][]} */ ((answer.framesLight ?? []).map(framesLightOf)), startS: chart && start ? secondsAt(chart, Date.parse(start)) : null,
  };
}

/** @param {{ fromDeg: number, toDeg: number }} span */
const widthOf = span => (((span.toDeg - span.fromDeg) % 360) + 360) % 360;

/** @param {any} window @param {import('./chart.js').Chart} chart @param {import('./clock.js').Clock} clock */
function windowOf(window, chart, clock) {
  const [startMs, endMs] = [Date.parse(window.start), Date.parse(window.end)];
  return {
    startS: secondsAt(chart, startMs), endS: secondsAt(chart, endMs),
    startUncertaintyS: /** @type {number} */ (window.startUncertaintyS), endUncertaintyS: /** @type {number} */ (window.endUncertaintyS),
    startText: `${clock.hms(startMs)} ${plusMinus(window.startUncertaintyS)}`, startCause: window.startBecause,
    endText: `${clock.hms(endMs)} ${plusMinus(window.endUncertaintyS)}`, endCause: window.endBecause,
  };
}

/** @param {any[]} columns of the set */
const framesLightOf = columns => columns.map(({ ridgeLitS, goodS }) => ({ ridge: stretchesOf(ridgeLitS), good: stretchesOf(goodS) }));

/** @param {any} answer with a picture @param {import('./chart.js').Chart | null} chart */
function sceneOf({ picture, assumed, cloud, lookout }, chart) {
  const raster = rasterOf(picture);
  const patches = patchesOf(picture.patches);
  const isDeck = deckTest(cloud.deckTopM, lookout.eyeHeightM, assumed.refractionK, raster.rowDeg);
  const ground = groundOf(raster, normalsOf(raster), 1000 * assumed.visibilityKm, isDeck);
  return { raster, patches, ground, map: chart ? patchMapOf(raster, ground.pixels, patches, chart) : null };
}

const AroundS = 20 * 60;

/** The part of the day that the chart shows: around the window of the set, or all of it. @param {Forecast} forecast @param {boolean} wholeDay */
export function shownOf(forecast, wholeDay) {
  const chart = /** @type {import('./chart.js').Chart} */ (forecast.chart);
  if (wholeDay || forecast.windows.length === 0) return { startS: 0, endS: chart.lengthS };
  const window = setWindow(forecast, forecast.startS);
  return { startS: Math.max(0, window.startS - AroundS), endS: Math.min(chart.lengthS, window.endS + AroundS) };
}

/** The window that a set begun at a moment is laid into. @param {Forecast} forecast with windows @param {number | null} startS */
export function setWindow(forecast, startS) {
  return forecast.windows[windowFor(forecast.windows, startS ?? forecast.windows[0].startS, forecast.set?.totalS ?? 0)];
}
