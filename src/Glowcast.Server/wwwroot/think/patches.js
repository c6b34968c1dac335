// @ts-check
/** How much light each patch of visible ground has at a minute. */
import { bytesOf, floatsOf, shortsOf } from './bytes.js';

/** @typedef {import('./chart.js').Chart} Chart */
/** @typedef {ReturnType<typeof patchesOf>} Patches */

const Valley = 2;
// The sun needs about so long to climb over an edge, or to sink behind it.
const PenumbraMin = 4;
// An unlit patch sees less of the disc than a lit one must.
const MostUnlit = 0.9;

/** @param {any} answer the patches of a picture */
export function patchesOf(answer) {
  const counts = bytesOf(answer.litCount);
  /** Where the moments of each patch begin. */
  const first = new Uint32Array(counts.length + 1);
  counts.forEach((count, i) => { first[i + 1] = first[i] + count; });
  return {
    count: counts.length, first, column: shortsOf(answer.column), role: bytesOf(answer.role),
    bottomDeg: floatsOf(answer.bottomDeg), topDeg: floatsOf(answer.topDeg), litMin: floatsOf(answer.litMin),
  };
}

/** Lit patches have 1. The penumbra is known by the mean of each column: what that mean has left over belongs to the
 * patches of the ridge that are about to be lit or have just been. In the valley, whose patches count by area, none is known.
 * @param {Chart} chart @param {Patches} patches @param {number} minute
 * @returns {Float32Array} one value a patch, 0 to 1 */
export function lightOfPatches(chart, patches, minute) {
  const { count, column, role, topDeg, bottomDeg } = patches;
  const light = new Float32Array(count);
  const [all, lit, near] = [new Float32Array(chart.columns), new Float32Array(chart.columns), new Float32Array(chart.columns)];
  const away = minutesFromLight(patches, minute);
  for (let i = 0; i < count; i++) {
    if (away[i] === 0) light[i] = 1;
    if (role[i] === Valley) continue;
    const height = topDeg[i] - bottomDeg[i];
    all[column[i]] += height;
    if (away[i] === 0) lit[column[i]] += height;
    else if (away[i] <= PenumbraMin) near[column[i]] += height;
  }
  for (let i = 0; i < count; i++) {
    if (role[i] === Valley || away[i] === 0 || away[i] > PenumbraMin) continue;
    const left = (chart.ridge[minute * chart.columns + column[i]] / 255) * all[column[i]] - lit[column[i]];
    light[i] = Math.max(0, Math.min(MostUnlit, left / near[column[i]]));
  }
  return light;
}

/** 0 while a patch is lit. @param {Patches} patches @param {number} minute */
function minutesFromLight({ count, first, litMin }, minute) {
  const away = new Float32Array(count).fill(Infinity);
  for (let i = 0; i < count; i++) {
    for (let k = first[i]; k < first[i + 1]; k += 2) {
      if (litMin[k] <= minute && minute < litMin[k + 1]) away[i] = 0;
      else away[i] = Math.min(away[i], Math.max(litMin[k] - minute, minute - litMin[k + 1]) || 0.1);
    }
  }
  return away;
}
