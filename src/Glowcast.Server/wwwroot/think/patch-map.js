// @ts-check
/** Which patches of ground light each pixel of the ridge picture. */
import { SameSlope } from './ground.js';

/** @typedef {import('./chart.js').Chart} Chart */
/** @typedef {import('./patches.js').Patches} Patches */
/** @typedef {import('./ground.js').Raster} Raster */
/** @typedef {ReturnType<typeof patchMapOf>} PatchMap */
/** @typedef {{ patch: number, altitude: number, distance: number }} Middle of a patch */

const Neighbours = 4;
const Whole = 255;

/** For each pixel of ground the four patches around it (above and below, in the two nearest columns of the chart) and
 * their weights, 255 together: near ones of the same slope count most. Between the sampled patches the picture is thus interpolated.
 * @param {Raster} raster @param {Uint32Array} pixels that show ground @param {Patches} patches @param {Chart} chart */
export function patchMapOf(raster, pixels, patches, chart) {
  const index = patches.count < 65536 ? new Uint16Array(Neighbours * pixels.length) : new Uint32Array(Neighbours * pixels.length);
  const weight = new Uint8Array(Neighbours * pixels.length);
  const parts = new Float32Array(Neighbours);
  const columns = middles(raster, patches, chart);
  pixels.forEach((pixel, i) => {
    const along = Math.max(0, Math.min(chart.columns - 1, ((pixel % raster.columns + 0.5) * raster.columnDeg) / chart.columnDeg - 0.5));
    const left = Math.floor(along);
    const right = Math.min(chart.columns - 1, left + 1);
    const altitude = raster.topDeg - (Math.floor(pixel / raster.columns) + 0.5) * raster.rowDeg;
    const around = index.subarray(Neighbours * i, Neighbours * (i + 1));
    parts.fill(0);
    weigh(columns[left], altitude, raster.distances[pixel], 1 - (along - left), around, parts, 0);
    weigh(columns[right], altitude, raster.distances[pixel], along - left, around, parts, 2);
    share(parts, weight, Neighbours * i);
  });
  return { index, weight };
}

/** The light of one pixel of ground. @param {ReturnType<typeof patchMapOf>} map @param {Float32Array} light of the patches @param {number} i */
export function lightAt({ index, weight }, light, i) {
  const at = Neighbours * i;
  return (weight[at] * light[index[at]] + weight[at + 1] * light[index[at + 1]]
    + weight[at + 2] * light[index[at + 2]] + weight[at + 3] * light[index[at + 3]]) / Whole;
}

/** The middles of each column's patches, from the top down. @param {Raster} raster @param {Patches} patches @param {Chart} chart */
function middles(raster, patches, chart) {
  /** @type {Middle[][]} */
  const columns = Array.from({ length: chart.columns }, () => []);
  for (let patch = 0; patch < patches.count; patch++) {
    const column = patches.column[patch];
    const altitude = (patches.bottomDeg[patch] + patches.topDeg[patch]) / 2;
    const x = Math.min(raster.columns - 1, Math.floor(((column + 0.5) * chart.columnDeg) / raster.columnDeg));
    const y = Math.max(0, Math.min(raster.rows - 1, Math.floor((raster.topDeg - altitude) / raster.rowDeg)));
    columns[column].push({ patch, altitude, distance: raster.distances[y * raster.columns + x] });
  }
  for (const column of columns) column.sort((a, b) => b.altitude - a.altitude);
  return columns;
}

/** @param {Middle[]} column @param {number} altitude @param {number} distance
 * @param {number} nearness of this column, 0 to 1 @param {Uint16Array | Uint32Array} index @param {Float32Array} weight @param {number} at */
function weigh(column, altitude, distance, nearness, index, weight, at) {
  if (column.length === 0) return;
  let [above, below] = [0, column.length - 1];
  while (below - above > 1) {
    const middle = (above + below) >> 1;
    if (column[middle].altitude >= altitude) above = middle;
    else below = middle;
  }
  const gap = column[above].altitude - column[below].altitude;
  const t = gap > 0 ? Math.max(0, Math.min(1, (column[above].altitude - altitude) / gap)) : 0;
  for (const [slot, part, near] of /** @type {const} */ ([[0, 1 - t, column[above]], [1, t, column[below]]])) {
    const apart = near.distance > 0 ? Math.log(near.distance / distance) / SameSlope : 4;
    index[at + slot] = near.patch;
    // A patch of another slope still counts a little, for ground that has no patch of its own.
    weight[at + slot] = nearness * part * (Math.exp(-apart * apart) + 1e-3) + 1e-6;
  }
}

/** Parts the whole weight. @param {Float32Array} parts @param {Uint8Array} weight @param {number} at */
function share(parts, weight, at) {
  const sum = parts.reduce((a, b) => a + b);
  if (sum === 0) return;
  let [rest, most] = [Whole, 0];
  for (let i = 0; i < Neighbours; i++) {
    weight[at + i] = Math.round(Whole * parts[i] / sum);
    rest -= weight[at + i];
    if (parts[i] > parts[most]) most = i;
  }
  weight[at + most] += rest;
}
