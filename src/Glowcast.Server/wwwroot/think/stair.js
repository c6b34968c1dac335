// @ts-check
/** The set laid over the light: does each exposure have the light of its own bearings at its own instant? */
import { columnBearing } from './chart.js';
import { turn } from './scales.js';
import { common, whenAtLeast } from './stretches.js';

/** @typedef {import('./chart.js').Chart} Chart */
/** @typedef {import('./stretches.js').Stretch} Stretch */
/** @typedef {{ set: number, row: number, column: number, bearingDeg: number, pitchDeg: number, spare: boolean, startS: number, endS: number }} Exposure */
/** @typedef {{ ridge: Stretch[], both: Stretch[] }} FrameLight when the ridge of a frame is lit, and when the valley is shaded too */

// Moments come rounded to a hundredth or a tenth of a second.
const RoundingS = 0.1;
const LeastReached = 0.5;

/** The window that a set begun at a moment belongs to: the one it shares most time with, or else the nearest.
 * @param {Stretch[]} windows @param {number} startS @param {number} totalS */
export function windowFor(windows, startS, totalS) {
  const shared = (/** @type {Stretch} */ w) => Math.min(w.endS, startS + totalS) - Math.max(w.startS, startS);
  return windows.reduce((best, window) => (shared(window) > shared(best) ? window : best));
}

/** When the frames of each column have their light, in and around one window (docs/model.md, F2).
 * @param {Chart} chart @param {Stretch} window @param {Exposure[]} exposures @param {number} fovDeg across
 * @returns {Map<number, FrameLight>} by the column of the set */
export function lightOfFrames(chart, window, exposures, fovDeg) {
  const light = new Map();
  for (const { column, bearingDeg } of exposures) {
    // Frames of one column look along the same bearings, whatever their row.
    if (light.has(column)) continue;
    const ridge = ridgeLit(chart, window, bearingDeg, fovDeg / 2);
    light.set(column, { ridge, both: common(ridge, chart.valleyShaded) });
  }
  return light;
}

/** @param {Chart} chart @param {Stretch} window @param {number} bearingDeg @param {number} halfDeg */
function ridgeLit(chart, window, bearingDeg, halfDeg) {
  const shown = chart.columnLit.filter((_, column) =>
    chart.hasRidge[column] && Math.abs(turn(bearingDeg, columnBearing(chart, column))) <= halfDeg);
  if (shown.length === 0) return [{ startS: 0, endS: chart.lengthS }];
  const reached = shown.filter(lit => lit.some(s => s.startS < window.endS && s.endS > window.startS));
  return reached.length < LeastReached * shown.length ? [] : whenAtLeast(reached, chart.columnsLit, chart.lengthS);
}

/** Why an exposure misses its light when the set is begun at a moment; null when it has it.
 * @param {Exposure} exposure @param {number} startS @param {Map<number, FrameLight>} light */
export function problemOf(exposure, startS, light) {
  const { ridge, both } = /** @type {FrameLight} */ (light.get(exposure.column));
  const [opens, closes] = [startS + exposure.startS, startS + exposure.endS];
  const holds = (/** @type {Stretch} */ s) => s.startS <= opens + RoundingS && closes <= s.endS + RoundingS;
  if (both.some(holds)) return null;
  if (ridge.length === 0) return 'ridgeNeverLit';
  if (!ridge.some(holds)) return ridge.some(s => s.startS > opens) ? 'ridgeNotYetLit' : 'ridgeNoLongerLit';
  return both.some(s => s.startS > opens) ? 'valleyNotYetShaded' : 'valleyLit';
}

/** The whole set begun at a moment: each exposure with what it misses.
 * @param {Chart} chart @param {Stretch[]} windows @param {{ exposures: Exposure[], horizontalFovDeg: number, totalS: number }} set @param {number} startS */
export function stairAt(chart, windows, set, startS) {
  const window = windows.length > 0 ? windowFor(windows, startS, set.totalS) : { startS: 0, endS: 0 };
  const light = lightOfFrames(chart, window, set.exposures, set.horizontalFovDeg);
  return set.exposures.map((exposure, i) => ({
    exposure, frame: frameNumber(set.exposures, i), opensS: startS + exposure.startS, closesS: startS + exposure.endS,
    problem: problemOf(exposure, startS, light),
  }));
}

/** The place of an exposure in the order of its set, from 1. @param {Exposure[]} exposures @param {number} i */
function frameNumber(exposures, i) {
  return i - exposures.findIndex(other => other.set === exposures[i].set) + 1;
}
