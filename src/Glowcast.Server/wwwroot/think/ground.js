// @ts-check
/** The ground of the ridge picture, pixel by pixel: how far it is and which way it faces. */
import { distancesOf } from './bytes.js';

/** @typedef {{ columns: number, rows: number, fromDeg: number, columnDeg: number, topDeg: number, rowDeg: number, distances: Float32Array }} Raster
 * distances [m] row by row from the top, 0 for sky */

/** Ground whose distance differs by more than this share belongs to another slope. */
export const SameSlope = 0.08;
const SmoothingPx = 2;
const Degree = Math.PI / 180;

/** @param {any} picture of a forecast @returns {Raster} */
export function rasterOf(picture) {
  const { columns, rows, fromDeg, columnDeg, topDeg, rowDeg } = picture;
  return { columns, rows, fromDeg, columnDeg, topDeg, rowDeg, distances: distancesOf(picture.distance) };
}

/** The direction that each pixel's ground faces: east, north, up. Sky has none. @param {Raster} raster */
export function normalsOf(raster) {
  const { columns, rows } = raster;
  const distances = smoothed(raster);
  const places = placesOf({ ...raster, distances });
  const normals = new Float32Array(3 * distances.length);
  const same = (/** @type {number} */ a, /** @type {number} */ b) => Math.abs(distances[a] - distances[b]) < SameSlope * distances[a];
  for (let y = 0; y < rows; y++) {
    for (let x = 0; x < columns; x++) {
      const here = y * columns + x;
      if (distances[here] === 0) continue;
      const left = x > 0 && same(here, here - 1) ? here - 1 : here;
      const right = x < columns - 1 && same(here, here + 1) ? here + 1 : here;
      const above = y > 0 && same(here, here - columns) ? here - columns : here;
      const below = y < rows - 1 && same(here, here + columns) ? here + columns : here;
      face(normals, places, here, left, right, above, below);
    }
  }
  return normals;
}

/** Where the ground of each pixel lies, from the eye: east, north, up [m]. @param {Raster} raster */
function placesOf(raster) {
  const places = new Float32Array(3 * raster.distances.length);
  for (let y = 0; y < raster.rows; y++) {
    const altitude = (raster.topDeg - (y + 0.5) * raster.rowDeg) * Degree;
    const [level, up] = [Math.cos(altitude), Math.sin(altitude)];
    for (let x = 0; x < raster.columns; x++) {
      const azimuth = (raster.fromDeg + (x + 0.5) * raster.columnDeg) * Degree;
      const i = y * raster.columns + x;
      places[3 * i] = raster.distances[i] * level * Math.sin(azimuth);
      places[3 * i + 1] = raster.distances[i] * level * Math.cos(azimuth);
      places[3 * i + 2] = raster.distances[i] * up;
    }
  }
  return places;
}

/** @param {Float32Array} normals @param {Float32Array} p places @param {number} here
 * @param {number} left @param {number} right @param {number} above @param {number} below neighbours on the same slope */
function face(normals, p, here, left, right, above, below) {
  const [ax, ay, az] = [p[3 * right] - p[3 * left], p[3 * right + 1] - p[3 * left + 1], p[3 * right + 2] - p[3 * left + 2]];
  const [ux, uy, uz] = [p[3 * above] - p[3 * below], p[3 * above + 1] - p[3 * below + 1], p[3 * above + 2] - p[3 * below + 2]];
  let [nx, ny, nz] = [ay * uz - az * uy, az * ux - ax * uz, ax * uy - ay * ux];
  // Without a neighbour the ground is taken to face the eye.
  if (nx === 0 && ny === 0 && nz === 0) [nx, ny, nz] = [-p[3 * here], -p[3 * here + 1], -p[3 * here + 2]];
  const length = Math.hypot(nx, ny, nz);
  normals[3 * here] = nx / length;
  normals[3 * here + 1] = ny / length;
  normals[3 * here + 2] = nz / length;
}

/** Distances averaged over the nearest pixels of the same slope, so that the cells of the grid do not show as facets.
 * @param {Raster} raster */
function smoothed(raster) {
  const { columns, rows, distances } = raster;
  const result = new Float32Array(distances.length);
  const at = (/** @type {number} */ x, /** @type {number} */ y) => (x < 0 || x >= columns || y < 0 || y >= rows ? 0 : distances[y * columns + x]);
  for (let y = 0; y < rows; y++) {
    for (let x = 0; x < columns; x++) {
      const here = distances[y * columns + x];
      if (here === 0) continue;
      const slack = SameSlope * here;
      let [sum, count] = [0, 0];
      // Opposite pixels count together or not at all, so that a straight slope stays where it is.
      for (let dy = 0; dy <= SmoothingPx; dy++) {
        for (let dx = -SmoothingPx; dx <= SmoothingPx; dx++) {
          const [a, b] = [at(x + dx, y + dy), at(x - dx, y - dy)];
          if (Math.abs(a - here) > slack || Math.abs(b - here) > slack) continue;
          sum += a + b;
          count += 2;
        }
      }
      result[y * columns + x] = sum / count;
    }
  }
  return result;
}
