// @ts-check
import { SameSlope } from './ground.js';
import { clockwise } from './scales.js';

/** Whether the picture shows ground at a place: then how high it stands, else how far the ground is that hides it.
 * @param {import('./ground.js').Raster} raster @param {number} bearingDeg @param {number} metres away
 * @returns {{ altitudeDeg: number } | { behindM: number } | null} null outside the span */
export function sightTo({ columns, rows, fromDeg, columnDeg, topDeg, rowDeg, distances }, bearingDeg, metres) {
  const column = Math.floor(clockwise(fromDeg, bearingDeg) / columnDeg);
  if (column >= columns) return null;
  let nearer = 0;
  for (let row = rows - 1; row >= 0; row--) {
    const seen = distances[row * columns + column];
    if (seen === 0) break;
    const isSame = seen >= metres && (nearer === 0 || seen < nearer * (1 + SameSlope));
    if (isSame || Math.abs(seen - metres) < metres * SameSlope / 4) return { altitudeDeg: topDeg - (row + 0.5) * rowDeg };
    if (seen > metres) break;
    nearer = seen;
  }
  return { behindM: nearer };
}
