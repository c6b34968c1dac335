// @ts-check
/** The answer's table of starts: what comes of beginning at some moment is looked up in it, and worked out nowhere else. */

/** @typedef {{ start: string, inLight: number, chance: number, firstProblem: any }} Row */

/** The row nearest to a moment; null without a table. @param {any} fit @param {number} ms since 1970, UTC @returns {Row | null} */
export function rowAt(fit, ms) {
  const rows = /** @type {Row[]} */ (fit?.starts ?? []);
  const off = (/** @type {Row} */ row) => Math.abs(Date.parse(row.start) - ms);
  return rows.reduce((/** @type {Row | null} */ best, row) => (best && off(best) <= off(row) ? best : row), null);
}

/** Room before and after a moment [s], by the first and the last possible start; null where none is.
 * @param {any} fit @param {number} ms since 1970, UTC */
export function roomAt(fit, ms) {
  if (!fit?.earliestStart) return null;
  return { beforeS: (ms - Date.parse(fit.earliestStart)) / 1000, afterS: (Date.parse(fit.latestStart) - ms) / 1000 };
}

/** A moment as a plan keeps it: after the first window of its half of the day opens, so that another date keeps its place in the light.
 * @param {{ start: string, half: string }[]} windows of the answer, in order of time @param {{ start: string, end: string, half: string }} window that the moment belongs to
 * @param {number} ms since 1970, UTC */
export function startAt(windows, window, ms) {
  const first = /** @type {{ start: string }} */ (windows.find(other => other.half === window.half));
  return { half: window.half, afterOpensS: Math.round(ms / 1000) - Math.round(Date.parse(first.start) / 1000) };
}
