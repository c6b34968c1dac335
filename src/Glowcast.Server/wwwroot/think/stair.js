// @ts-check
/** The set laid over the light, exposure by exposure, for drawing it. When each frame has its light is the engine's to say
 * (framesLight), and so are verdict, chance and room (starts.js). */

/** @typedef {import('./forecast.js').Forecast} Forecast */
/** @typedef {import('./stretches.js').Stretch} Stretch */
/** @typedef {{ set: number, row: number, column: number, bearingDeg: number, pitchDeg: number, spare: boolean, startS: number, endS: number }} Exposure */
/** @typedef {{ ridge: Stretch[], good: Stretch[] }} FrameLight when the ridge of a frame is lit, and when the valley is shaded too */

// Moments come rounded to a hundredth or a tenth of a second.
const RoundingS = 0.1;

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
  // Light that goes while the shutter is open is light that has gone, even where more of it comes later.
  const comesLater = (/** @type {Stretch[]} */ light) => !light.some(s => s.startS <= opens && opens < s.endS) && light.some(s => s.startS > opens);
  if (ridge.length === 0) return 'ridgeNeverLit';
  if (!ridge.some(holds)) return comesLater(ridge) ? 'ridgeNotYetLit' : 'ridgeNoLongerLit';
  return comesLater(good) ? 'valleyNotYetShaded' : 'valleyLit';
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
