// @ts-check
/** Maps bearings and seconds to pixels and back; knows nothing of the page. */

/** @typedef {{ toPx: (bearingDeg: number) => number, toDeg: (px: number) => number, pxPerDeg: number }} BearingScale */
/** @typedef {{ toPx: (seconds: number) => number, toS: (px: number) => number, startS: number, endS: number }} TimeScale */

/** Degrees from one bearing to another, clockwise, from 0 up to 360.
 * @param {number} fromDeg @param {number} toDeg */
export function clockwise(fromDeg, toDeg) {
  return (((toDeg - fromDeg) % 360) + 360) % 360;
}

/** Degrees from one bearing to another the shorter way round, anticlockwise negative.
 * @param {number} fromDeg @param {number} toDeg */
export function turn(fromDeg, toDeg) {
  const degrees = clockwise(fromDeg, toDeg);
  return degrees > 180 ? degrees - 360 : degrees;
}

/** A bearing between 0 and 360. @param {number} degrees */
export function bearing(degrees) {
  return clockwise(0, degrees);
}

/** @param {number} fromDeg bearing at the left edge @param {number} widthDeg of the span, clockwise
 * @param {number} left of the plot [px] @param {number} right
 * @returns {BearingScale} */
export function bearingScale(fromDeg, widthDeg, left, right) {
  const pxPerDeg = (right - left) / widthDeg;
  const roomBeside = (360 - widthDeg) / 2;
  return {
    pxPerDeg,
    toPx(bearingDeg) {
      const along = clockwise(fromDeg, bearingDeg);
      // What lies before the span belongs to the left of it, not a whole turn to the right.
      return left + (along > widthDeg + roomBeside ? along - 360 : along) * pxPerDeg;
    },
    toDeg: px => bearing(fromDeg + (px - left) / pxPerDeg),
  };
}

/** @param {number} startS at the top @param {number} endS at the bottom @param {number} top [px] @param {number} bottom
 * @returns {TimeScale} */
export function timeScale(startS, endS, top, bottom) {
  const pxPerS = (bottom - top) / (endS - startS);
  return { startS, endS, toPx: seconds => top + (seconds - startS) * pxPerS, toS: px => startS + (px - top) / pxPerS };
}

/** The smallest of some steps that parts a length into no more than so many.
 * @param {number} length @param {number} most @param {number[]} steps ascending */
export function stepFor(length, most, steps) {
  return steps.find(step => length / step <= most) ?? steps[steps.length - 1];
}

/** The multiples of a step in [from, to]. @param {number} from @param {number} to @param {number} step */
export function multiples(from, to, step) {
  const found = [];
  for (let n = Math.ceil(from / step - 1e-9); n * step <= to + 1e-9 * step; n++) found.push(n * step);
  return found;
}
