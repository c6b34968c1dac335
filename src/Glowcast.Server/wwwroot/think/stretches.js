// @ts-check
/** Stretches of time in seconds after the start of the chart: start included, end excluded; lists of them are ordered and apart. */

/** @typedef {{ startS: number, endS: number }} Stretch */

/** @param {number[]} ends starts and ends in turn @returns {Stretch[]} */
export function stretchesOf(ends) {
  const found = [];
  for (let i = 0; i + 1 < ends.length; i += 2) found.push({ startS: ends[i], endS: ends[i + 1] });
  return found;
}

/** @param {Stretch[]} stretches @param {number} seconds */
export function covers(stretches, seconds) {
  return stretches.some(stretch => stretch.startS <= seconds && seconds < stretch.endS);
}

/** What two lists have in common. @param {Stretch[]} a @param {Stretch[]} b */
export function common(a, b) {
  const found = [];
  for (let i = 0, j = 0; i < a.length && j < b.length;) {
    const stretch = { startS: Math.max(a[i].startS, b[j].startS), endS: Math.min(a[i].endS, b[j].endS) };
    if (stretch.endS > stretch.startS) found.push(stretch);
    if (a[i].endS < b[j].endS) i++;
    else j++;
  }
  return found;
}
