// @ts-check
/** The set laid over the light: does each exposure have the light of its own bearings at its own instant? */
import { common } from './stretches.js';

/** @typedef {import('./forecast.js').Forecast} Forecast */
/** @typedef {import('./stretches.js').Stretch} Stretch */
/** @typedef {{ set: number, row: number, column: number, bearingDeg: number, pitchDeg: number, spare: boolean, startS: number, endS: number }} Exposure */
/** @typedef {{ ridge: Stretch[], good: Stretch[] }} FrameLight when the ridge of a frame is lit, and when the valley is shaded too */

// Moments come rounded to a hundredth or a tenth of a second.
const RoundingS = 0.1;
const LeastComfortS = 60;

/** The window that a set begun at a moment belongs to: the one it shares most time with, or else the nearest.
 * @param {Stretch[]} windows @param {number} startS @param {number} totalS @returns its place among them */
export function windowFor(windows, startS, totalS) {
  const shared = (/** @type {Stretch} */ w) => Math.min(w.endS, startS + totalS) - Math.max(w.startS, startS);
  return windows.reduce((best, window, i) => (shared(window) > shared(windows[best]) ? i : best), 0);
}

/** @param {Forecast} forecast @param {number} startS @returns {FrameLight[]} by the column of the set */
function lightOfFrames({ windows, set, framesLight }, startS) {
  return framesLight[windowFor(windows, startS, set.totalS)] ?? Array(set.columnsWithSpares).fill({ ridge: [], good: [] });
}

/** Why an exposure misses its light when the set is begun at a moment; null when it has it.
 * @param {Exposure} exposure @param {number} startS @param {FrameLight} light */
export function problemOf(exposure, startS, { ridge, good }) {
  const [opens, closes] = [startS + exposure.startS, startS + exposure.endS];
  const holds = (/** @type {Stretch} */ s) => s.startS <= opens + RoundingS && closes <= s.endS + RoundingS;
  if (good.some(holds)) return null;
  if (ridge.length === 0) return 'ridgeNeverLit';
  if (!ridge.some(holds)) return ridge.some(s => s.startS > opens) ? 'ridgeNotYetLit' : 'ridgeNoLongerLit';
  return good.some(s => s.startS > opens) ? 'valleyNotYetShaded' : 'valleyLit';
}

/** The whole set begun at a moment: each exposure with what it misses. @param {Forecast} forecast with a set @param {number} startS */
export function stairAt(forecast, startS) {
  const light = lightOfFrames(forecast, startS);
  const exposures = /** @type {Exposure[]} */ (forecast.set.exposures);
  let first = 0;
  return exposures.map((exposure, i) => {
    if (exposure.set !== exposures[first].set) first = i;
    return {
      exposure, frame: i - first + 1, opensS: startS + exposure.startS, closesS: startS + exposure.endS,
      problem: problemOf(exposure, startS, light[exposure.column - 1]),
    };
  });
}

/** What the light allows a set in the window of a moment: the longest stretch of starts, null for none, and the verdict on it.
 * @param {Forecast} forecast with a set @param {number} startS */
export function roomAt(forecast, startS) {
  const light = lightOfFrames(forecast, startS);
  /** @type {Stretch[]} */
  let starts = [{ startS: 0, endS: forecast.chart?.lengthS ?? 0 }];
  for (const { column, startS: opens, endS: closes } of /** @type {Exposure[]} */ (forecast.set.exposures)) {
    starts = common(starts, light[column - 1].good.map(s => ({ startS: s.startS - opens, endS: s.endS - closes })).filter(s => s.endS > s.startS));
  }
  const within = starts.find(s => s.startS - RoundingS <= startS && startS <= s.endS + RoundingS);
  const room = within ?? starts.reduce((/** @type {Stretch | null} */ best, s) => (best && best.endS - best.startS >= s.endS - s.startS ? best : s), null);
  if (!room) return { room, verdict: 'tooLong', uncertaintyS: 0 };
  const window = forecast.windows[windowFor(forecast.windows, startS, forecast.set.totalS)];
  const uncertaintyS = Math.hypot(window.startUncertaintyS, window.endUncertaintyS);
  return { room, uncertaintyS, verdict: room.endS - room.startS > Math.max(LeastComfortS, uncertaintyS) ? 'fits' : 'tight' };
}
