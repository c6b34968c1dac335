// @ts-check
/** How much light each patch of visible ground has at a minute. */

/** @typedef {import('./chart.js').Chart} Chart */
/** @typedef {{ column: number, role: 'crest' | 'ridge' | 'valley', bottomDeg: number, topDeg: number, litMin: number[] }} Patch */

// The sun needs about so long to climb over an edge, or to sink behind it.
const PenumbraMin = 4;
// An unlit patch sees less of the disc than a lit one must.
const MostUnlit = 0.9;

/** Lit patches have 1. The penumbra is known by the mean of each column: what that mean has left over belongs to the
 * patches of the ridge that are about to be lit or have just been. In the valley, whose patches count by area, none is known.
 * @param {Chart} chart @param {Patch[]} patches @param {number} minute
 * @returns {Float32Array} one value a patch, 0 to 1 */
export function lightOfPatches(chart, patches, minute) {
  const light = new Float32Array(patches.length);
  const [all, lit, near] = [new Float32Array(chart.columns), new Float32Array(chart.columns), new Float32Array(chart.columns)];
  patches.forEach((patch, i) => {
    const awayMin = minutesFromLight(patch, minute);
    light[i] = awayMin === 0 ? 1 : 0;
    if (patch.role === 'valley') return;
    const weight = patch.topDeg - patch.bottomDeg;
    all[patch.column] += weight;
    if (awayMin === 0) lit[patch.column] += weight;
    else if (awayMin <= PenumbraMin) near[patch.column] += weight;
  });
  const row = minute * chart.columns;
  patches.forEach((patch, i) => {
    const { column } = patch;
    if (patch.role === 'valley' || light[i] > 0 || near[column] === 0 || minutesFromLight(patch, minute) > PenumbraMin) return;
    const left = (chart.ridge[row + column] / 255) * all[column] - lit[column];
    light[i] = Math.max(0, Math.min(MostUnlit, left / near[column]));
  });
  return light;
}

/** 0 while it is lit. @param {Patch} patch @param {number} minute */
function minutesFromLight(patch, minute) {
  let away = Infinity;
  for (let i = 0; i + 1 < patch.litMin.length; i += 2) {
    if (patch.litMin[i] <= minute && minute < patch.litMin[i + 1]) return 0;
    away = Math.min(away, Math.max(patch.litMin[i] - minute, minute - patch.litMin[i + 1]) || 0.1);
  }
  return away;
}
