// @ts-check
import { bearing, turn } from './scales.js';

/** The clean rectangle of a set on the sky: its left edge, its width, its lower and upper edge [°]. @param {any} set of a forecast */
export function cleanRectangle({ exposures, cleanWidthPx, focalLengthPx, cleanBottomDeg, cleanTopDeg }) {
  const [first, widthDeg] = [exposures[0].bearingDeg, (cleanWidthPx / focalLengthPx) * 180 / Math.PI];
  const along = exposures.map((/** @type {any} */ exposure) => turn(first, exposure.bearingDeg));
  const middle = first + (Math.min(...along) + Math.max(...along)) / 2;
  return { fromDeg: bearing(middle - widthDeg / 2), widthDeg, bottomDeg: cleanBottomDeg, topDeg: cleanTopDeg };
}
